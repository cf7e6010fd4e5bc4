#include "server/wire/certificate.h"

#include <gmock/gmock.h>
#include <sys/stat.h>

#include <cstdlib>

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

// Whether a browser that has installed the authority would believe a certificate for `name` that
// it signed.
bool vouches_for(const server::Certificate& authority,
                 const std::string& folder,
                 const std::string& name) {
  const bool is_address = name.find_first_not_of("0123456789.") == std::string::npos;
  const std::string words =
      "cd " + folder +
      " && openssl req -new -newkey rsa:2048 -nodes -keyout forged.key -subj /CN=x "
      "-out forged.csr 2>/dev/null && printf 'subjectAltName=" +
      (is_address ? "IP:" : "DNS:") + name +
      "\n' > forged.ext && openssl x509 -req -in forged.csr -CA " + authority.authority +
      " -CAkey authority.key -CAcreateserial -days 5 -extfile forged.ext -out "
      "forged.pem 2>/dev/null && openssl verify -purpose sslserver -CAfile " +
      authority.authority + " forged.pem >/dev/null 2>&1";
  return std::system(words.c_str()) == 0;
}

TEST(Certificate, VouchesForTheHouseAlone) {
  const Folder folder;
  const auto made = server::certificate(
      folder / "lan", {"localhost", "127.0.0.1", "marsh", "marsh.local", "192.168.1.20"});
  ASSERT_THAT(made, Holds());
  EXPECT_THAT(made->authority_fingerprint,
              testing::MatchesRegex("([0-9A-F][0-9A-F]:){31}[0-9A-F][0-9A-F]"));
  EXPECT_NE(made->authority_fingerprint, made->fingerprint);
  for (const char* ours : {"marsh", "marsh.local", "localhost", "192.168.1.20", "192.168.1.99"})
    EXPECT_TRUE(vouches_for(*made, folder / "lan", ours)) << ours;
  for (const char* others :
       {"bank.example", "printer.local", "router", "10.0.0.1", "192.168.2.20", "8.8.8.8"})
    EXPECT_FALSE(vouches_for(*made, folder / "lan", others)) << others;
}

TEST(Certificate, SaysWhenItsFolderCannotBe) {
  const Folder folder;
  EXPECT_THAT(server::certificate(folder / "no/such/folder", {"localhost"}),
              FailsWith(ErrorCode::bad_input));
}

}  // namespace
}  // namespace barm::test
