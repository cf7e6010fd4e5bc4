#include "server/certificate.h"

#include <gmock/gmock.h>
#include <sys/stat.h>

#include "server/running.h"
#include "support/matchers.h"

namespace barm::test {
namespace {

unsigned mode(const std::string& path) {
  struct stat about{};
  return ::stat(path.c_str(), &about) == 0 ? about.st_mode & 0777U : 0;
}

TEST(Certificate, IsMadeOnceAndKeptForItsOwnerOnly) {
  const Folder folder;
  const auto first = server::certificate(folder / "lan", {"localhost", "marsh", "192.168.1.20"});
  ASSERT_THAT(first, Holds());
  EXPECT_EQ(mode(folder / "lan"), 0700U);
  EXPECT_EQ(mode(first->private_key), 0600U);
  EXPECT_EQ(mode(folder / "lan/authority.key"), 0600U);
  const auto again = server::certificate(folder / "lan", {"localhost", "marsh", "192.168.1.20"});
  ASSERT_THAT(again, Holds());
  EXPECT_EQ(again->fingerprint, first->fingerprint);
}

TEST(Certificate, IsMadeAnewForAnotherAddressByTheSameAuthority) {
  const Folder folder;
  const auto first = server::certificate(folder / "lan", {"localhost", "192.168.1.20"});
  ASSERT_THAT(first, Holds());
  const std::string authority = file_text(first->authority);
  const auto moved = server::certificate(folder / "lan", {"localhost", "192.168.1.77"});
  ASSERT_THAT(moved, Holds());
  EXPECT_NE(moved->fingerprint, first->fingerprint);
  EXPECT_EQ(file_text(moved->authority), authority);
}

TEST(Certificate, MendsWhatIsDamaged) {
  const Folder folder;
  const auto first = server::certificate(folder / "lan", {"localhost"});
  ASSERT_THAT(first, Holds());
  std::ofstream(first->private_key) << "nonsense";
  const auto again = server::certificate(folder / "lan", {"localhost"});
  ASSERT_THAT(again, Holds());
  EXPECT_NE(again->fingerprint, first->fingerprint);
}

TEST(Certificate, SaysWhenItsFolderCannotBe) {
  const Folder folder;
  EXPECT_THAT(server::certificate(folder / "no/such/folder", {"localhost"}),
              FailsWith(ErrorCode::bad_input));
}

}  // namespace
}  // namespace barm::test
