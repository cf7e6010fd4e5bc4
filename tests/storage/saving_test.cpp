// What is said when something cannot be saved, and that it is true; a file that may only be read.
#include <gmock/gmock.h>
#include <sqlite3.h>
#include <sys/stat.h>
#include <unistd.h>

#include <cstdlib>
#include <optional>

#include "../support/matchers.h"
#include "daybooks.h"
#include "storage/pool.h"

namespace barm::storage::test {

namespace {

using barm::test::FailsWith;
using barm::test::Holds;
using testing::AllOf;
using testing::HasSubstr;
using testing::IsEmpty;
using testing::Not;

// A disk under SQLite on which writing to the log, or waiting until it is there, fails when told
// to.
class FailingDisk {
 public:
  FailingDisk() {
    real = sqlite3_vfs_find(nullptr);
    own = *real;
    own.zName = "failing";
    own.xOpen = open;
    sqlite3_vfs_register(&own, 1);
  }

  FailingDisk(const FailingDisk&) = delete;
  FailingDisk& operator=(const FailingDisk&) = delete;

  ~FailingDisk() {
    sqlite3_vfs_unregister(&own);
    sqlite3_vfs_register(real, 1);
    writing = waiting = SQLITE_OK;
  }

  inline static int writing = SQLITE_OK;  ///< what a write to the log gives
  inline static int waiting = SQLITE_OK;  ///< what waiting for the disk gives

 private:
  static int open(sqlite3_vfs*, sqlite3_filename name, sqlite3_file* file, int flags, int* out) {
    const int opened = real->xOpen(real, name, file, flags, out);
    if (opened != SQLITE_OK || (flags & SQLITE_OPEN_WAL) == 0) return opened;
    methods = file->pMethods;
    failing = *methods;
    failing.xWrite = [](sqlite3_file* to, const void* bytes, int count, sqlite3_int64 at) {
      return writing != SQLITE_OK ? writing : methods->xWrite(to, bytes, count, at);
    };
    failing.xSync = [](sqlite3_file* to, int how) {
      return waiting != SQLITE_OK ? waiting : methods->xSync(to, how);
    };
    file->pMethods = &failing;
    return opened;
  }

  inline static sqlite3_vfs* real = nullptr;
  inline static sqlite3_vfs own{};
  inline static const sqlite3_io_methods* methods = nullptr;
  inline static sqlite3_io_methods failing{};
};

class Disk : public testing::Test {
 protected:
  void SetUp() override {
    auto opened = Daybook::open(file_, {.create = true});
    ASSERT_THAT(opened, Holds());
    daybook_.emplace(std::move(*opened));
    ASSERT_THAT(daybook_->save(a_bake("b"), noon), Holds());
  }

  Error refused() {
    const auto saved = daybook_->save(a_reading("", "b"), noon);
    EXPECT_THAT(saved, FailsWith(ErrorCode::unavailable));
    return saved ? Error{} : saved.error();
  }

  FailingDisk disk_;
  Folder folder_;
  const std::string file_ = folder_ / "daybook.barm";
  std::optional<Daybook> daybook_;
};

TEST_F(Disk, SaysThatNothingWasSavedWhenTheLogHadNoRoom) {
  FailingDisk::writing = SQLITE_FULL;
  EXPECT_THAT(refused().message, HasSubstr("nothing of this was saved"));
  EXPECT_EQ(daybook_->saving(), Saving::disk_full);
  FailingDisk::writing = SQLITE_OK;
  EXPECT_THAT(daybook_->save(a_reading("", "b"), noon), Holds());
  EXPECT_EQ(daybook_->saving(), Saving::goes_on);
  EXPECT_EQ(*daybook_->count(Kind::reading), 1);
}

TEST_F(Disk, SaysThatItIsNotKnownWhenTheDiskFailedWithAllWritten) {
  FailingDisk::waiting = SQLITE_IOERR_FSYNC;
  EXPECT_THAT(refused().message,
              AllOf(HasSubstr("not known whether this was saved"), Not(HasSubstr("nothing"))));
  EXPECT_EQ(daybook_->saving(), Saving::disk_fails);
  FailingDisk::waiting = SQLITE_OK;
  // Sent again it is saved once, whichever it was.
  EXPECT_THAT(daybook_->save(a_reading("r", "b"), noon), Holds());
  EXPECT_THAT(*daybook_->check(), IsEmpty());
}

TEST_F(Disk, SaysThatItIsNotKnownWhenTheLastWriteFailedForNoKnownReason) {
  FailingDisk::writing = SQLITE_IOERR_WRITE;
  EXPECT_THAT(refused().message, HasSubstr("not known whether this was saved"));
  EXPECT_EQ(daybook_->saving(), Saving::disk_fails);
}

TEST_F(Disk, IsTriedWithoutChangingAnything) {
  const auto last = daybook_->last_change();
  EXPECT_THAT(daybook_->try_saving(), Holds());
  EXPECT_EQ(*daybook_->last_change(), *last);
  FailingDisk::writing = SQLITE_FULL;
  EXPECT_THAT(daybook_->try_saving(), FailsWith(ErrorCode::unavailable));
}

// While it stands, this process has no rights but anybody's.
class AsAnybody {
 public:
  AsAnybody() : root_(geteuid() == 0) {
    if (root_ && seteuid(65534) != 0) std::abort();
  }

  AsAnybody(const AsAnybody&) = delete;
  AsAnybody& operator=(const AsAnybody&) = delete;

  ~AsAnybody() {
    if (root_ && seteuid(0) != 0) std::abort();
  }

 private:
  bool root_;
};

TEST(ReadOnly, IsReadByThePoolUntilItMayBeWrittenAgain) {
  const Folder folder;
  const std::string file = folder / "daybook.barm";
  ASSERT_THAT(Daybook::open(file, {.create = true})->save(a_bake("b"), noon), Holds());
  chmod(file.c_str(), 0444);
  chmod(folder.path().c_str(), 0555);
  Pool pool(file, {.create = true, .or_read_only = true});
  {
    const AsAnybody anybody;
    auto lease = pool.lease();
    ASSERT_THAT(lease, Holds());
    EXPECT_FALSE((*lease)->may_write());
    EXPECT_EQ((*lease)->get<Bake>("b")->title, "Marsh loaf");
    const auto saved = (*lease)->save(a_reading("", "b"), noon);
    ASSERT_THAT(saved, FailsWith(ErrorCode::unavailable));
    EXPECT_THAT(saved.error().message, HasSubstr("may only be read"));
  }
  EXPECT_EQ(pool.saving(), Saving::read_only);
  EXPECT_EQ(name(pool.saving()), "read_only");
  chmod(folder.path().c_str(), 0777);
  chmod(file.c_str(), 0666);
  const AsAnybody anybody;
  EXPECT_THAT((*pool.lease())->save(a_reading("", "b"), noon), Holds());
  EXPECT_EQ(pool.saving(), Saving::goes_on);
}

}  // namespace

}  // namespace barm::storage::test
