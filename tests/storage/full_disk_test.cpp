// No room left: a clear word, no damage, and it goes on once there is room.
#include <gmock/gmock.h>
#include <sys/mount.h>
#include <sys/resource.h>

#include <csignal>
#include <fstream>

#include "../support/matchers.h"
#include "daybooks.h"

namespace barm::storage::test {

namespace {

using barm::test::FailsWith;
using barm::test::Holds;
using testing::HasSubstr;
using testing::IsEmpty;

// While it stands, no file of this process can grow beyond so many bytes.
class FileLimit {
 public:
  explicit FileLimit(rlim_t bytes) : old_handler_(std::signal(SIGXFSZ, SIG_IGN)) {
    getrlimit(RLIMIT_FSIZE, &old_);
    const rlimit limit{bytes, old_.rlim_max};
    setrlimit(RLIMIT_FSIZE, &limit);
  }

  FileLimit(const FileLimit&) = delete;
  FileLimit& operator=(const FileLimit&) = delete;

  ~FileLimit() {
    setrlimit(RLIMIT_FSIZE, &old_);
    std::signal(SIGXFSZ, old_handler_);
  }

 private:
  rlimit old_{};
  void (*old_handler_)(int);
};

ReadingRecord long_reading(int i) {
  ReadingRecord reading = a_reading("r" + std::to_string(i), "b");
  reading.remark = std::string(15000, 'x');
  return reading;
}

struct Filled {
  int saved = 0;
  std::optional<Error> error;
};

Filled save_until_refused(Daybook& daybook, int from) {
  Filled filled;
  for (int i = from; i < from + 5000; ++i) {
    const auto saved = daybook.save(long_reading(i), noon);
    if (!saved) {
      filled.error = saved.error();
      break;
    }
    ++filled.saved;
  }
  return filled;
}

void expect_whole(const std::string& file, int readings) {
  auto daybook = Daybook::open(file);
  ASSERT_THAT(daybook, Holds());
  EXPECT_THAT(*daybook->check(), IsEmpty());
  EXPECT_EQ(*daybook->count(Kind::reading), readings);
}

TEST(FullDisk, AFileThatCannotGrowIsToldAndHoldsWhatItHad) {
  const Folder folder;
  const std::string file = folder / "daybook.barm";
  auto daybook = Daybook::open(file, {.create = true});
  ASSERT_THAT(daybook, Holds());
  ASSERT_THAT(daybook->save(a_bake("b"), noon), Holds());
  Filled filled;
  {
    const FileLimit limit(600000);
    filled = save_until_refused(*daybook, 0);
    ASSERT_TRUE(filled.error.has_value()) << "the limit did not hold";
    EXPECT_EQ(filled.error->code, ErrorCode::unavailable);
    EXPECT_EQ(filled.error->where, file);
    EXPECT_THAT(filled.error->message,
                HasSubstr("no room left on the disk; nothing of this was saved"));
    EXPECT_EQ(daybook->saving(), Saving::disk_full);
    EXPECT_EQ(*daybook->count(Kind::reading), filled.saved);
  }
  {
    const FileLimit limit(100000);
    EXPECT_THAT(daybook->back_up(folder / "copy.barm"), FailsWith(ErrorCode::unavailable));
    EXPECT_FALSE(std::filesystem::exists(folder / "copy.barm"));
  }
  EXPECT_GT(filled.saved, 3);
  // Room is made: the same connection goes on.
  EXPECT_THAT(daybook->save(long_reading(9000), noon), Holds());
  daybook = Daybook::open(file);
  expect_whole(file, filled.saved + 1);
}

// A small disk in memory; nothing when this user may not mount one.
class SmallDisk {
 public:
  explicit SmallDisk(const std::string& at) : at_(at) {
    std::filesystem::create_directory(at_);
    mounted_ = mount("tmpfs", at_.c_str(), "tmpfs", 0, "size=3m") == 0;
  }

  SmallDisk(const SmallDisk&) = delete;
  SmallDisk& operator=(const SmallDisk&) = delete;

  ~SmallDisk() {
    if (mounted_) umount2(at_.c_str(), MNT_DETACH);
  }

  [[nodiscard]] bool mounted() const { return mounted_; }

 private:
  std::string at_;
  bool mounted_ = false;
};

TEST(FullDisk, ARealFullDiskIsToldAndHoldsWhatItHad) {
  const Folder folder;
  const SmallDisk disk(folder / "disk");
  if (!disk.mounted()) GTEST_SKIP() << "this user may not mount a disk in memory";
  const std::string file = folder / "disk/daybook.barm";
  const std::string filler = folder / "disk/filler";
  auto daybook = Daybook::open(file, {.create = true});
  ASSERT_THAT(daybook, Holds());
  ASSERT_THAT(daybook->save(a_bake("b"), noon), Holds());
  std::ofstream(filler, std::ios::binary) << std::string(1500000, 'x');
  const Filled filled = save_until_refused(*daybook, 0);
  ASSERT_TRUE(filled.error.has_value()) << "the disk was not full";
  EXPECT_EQ(filled.error->code, ErrorCode::unavailable);
  EXPECT_THAT(filled.error->message, HasSubstr("no room left on the disk"));
  EXPECT_EQ(*daybook->count(Kind::reading), filled.saved);
  std::filesystem::remove(filler);
  EXPECT_THAT(daybook->save(long_reading(9000), noon), Holds());
  daybook = Daybook::open(file);
  expect_whole(file, filled.saved + 1);
}

}  // namespace

}  // namespace barm::storage::test
