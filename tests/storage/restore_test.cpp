// A copy put back: numbers that are not given out twice, refused while anybody has the daybook
// open, killed in its middle.
#include <gmock/gmock.h>

#include <chrono>
#include <filesystem>
#include <thread>

#include "../support/matchers.h"
#include "daybooks.h"
#include "programs.h"
#include "sql.h"
#include "storage/archive.h"

namespace barm::storage::test {

namespace {

namespace fs = std::filesystem;
using barm::test::FailsWith;
using barm::test::Holds;
using testing::Contains;
using testing::HasSubstr;
using testing::IsEmpty;
using testing::SizeIs;

Bake noted(Daybook& daybook, const std::string& note, std::int64_t revision) {
  Bake bake = a_bake("b");
  bake.note = note;
  bake.revision = revision;
  const auto saved = daybook.save(bake, noon);
  EXPECT_THAT(saved, Holds());
  return saved.value_or(Bake{});
}

Setting habits(const std::string& value, std::int64_t revision) {
  Setting setting;
  setting.id = "habits";
  setting.value = value;
  setting.revision = revision;
  return setting;
}

// A bake of revision 2 in the copy; 3 and a setting came after it and are lost by the restore.
class Restored : public testing::Test {
 protected:
  void SetUp() override {
    auto daybook = Daybook::open(file_, {.create = true});
    ASSERT_THAT(daybook, Holds());
    noted(*daybook, "one", 0);
    noted(*daybook, "two", 1);
    ASSERT_THAT(daybook->back_up(copy_), Holds());
    in_copy_ = *daybook->last_change();
    noted(*daybook, "lost", 2);
    ASSERT_THAT(daybook->save(habits("lost", 0), noon), Holds());
    ASSERT_THAT(daybook->save(habits("lost too", 1), noon), Holds());
    lost_ = *daybook->last_change();
    ASSERT_EQ(*daybook->epoch(), 1);
  }

  Folder folder_;
  const std::string file_ = folder_ / "daybook.barm";
  const std::string copy_ = folder_ / "copy.barm";
  std::int64_t in_copy_ = 0;
  std::int64_t lost_ = 0;
};

TEST_F(Restored, GivesOutNoNumberTwice) {
  ASSERT_THAT(restore(copy_, file_), Holds());
  std::int64_t epoch = 0;
  {
    auto daybook = Daybook::open(file_);
    ASSERT_THAT(daybook, Holds());
    epoch = *daybook->epoch();
    EXPECT_GT(epoch, lost_);
    EXPECT_EQ(daybook->get<Bake>("b")->note, "two");
    EXPECT_EQ(noted(*daybook, "after", 2).revision, epoch);
    EXPECT_EQ(daybook->save(habits("after", 0), noon)->revision, epoch);
    EXPECT_EQ(daybook->remove(Kind::setting, "habits", 0, noon)->revision, epoch + 1);
    EXPECT_EQ(daybook->undo(Kind::setting, "habits", noon)->revision, epoch + 2);
    EXPECT_EQ(*daybook->last_change(), epoch + 3);
  }
  // Another one after the next restore, of the same copy.
  ASSERT_THAT(restore(copy_, file_), Holds());
  EXPECT_GT(*Daybook::open(file_)->epoch(), epoch + 3);
}

TEST_F(Restored, LetsNobodyOverwriteWithWhatWasReadBefore) {
  ASSERT_THAT(restore(copy_, file_), Holds());
  auto daybook = Daybook::open(file_);
  ASSERT_THAT(daybook, Holds());
  // A device that has seen the lost revision, before and after the bake is changed again.
  Bake seen = a_bake("b");
  seen.revision = 3;
  seen.note = "by one who had seen what is lost";
  EXPECT_THAT(daybook->save(seen, noon), FailsWith(ErrorCode::conflict));
  EXPECT_TRUE(*daybook->is_of_before(Kind::bake, "b", 3));
  EXPECT_FALSE(*daybook->is_of_before(Kind::bake, "b", 2)) << "it stands there still";
  const Bake after = noted(*daybook, "after", 2);
  const Bake again = noted(*daybook, "and again", after.revision);
  EXPECT_THAT(daybook->save(seen, noon), FailsWith(ErrorCode::conflict));
  EXPECT_TRUE(*daybook->is_of_before(Kind::bake, "b", 3));
  EXPECT_TRUE(*daybook->is_of_before(Kind::bake, "b", 2));
  EXPECT_FALSE(*daybook->is_of_before(Kind::bake, "b", after.revision)) << "an ordinary conflict";
  EXPECT_THAT(daybook->remove(Kind::bake, "b", 3, noon), FailsWith(ErrorCode::conflict));
  EXPECT_EQ(daybook->get<Bake>("b")->note, again.note);
  // A record that is in no copy, made again by another device.
  EXPECT_TRUE(*daybook->is_of_before(Kind::setting, "habits", 2));
  ASSERT_THAT(daybook->save(habits("anew", 0), noon), Holds());
  EXPECT_THAT(daybook->save(habits("by one who had seen what is lost", 1), noon),
              FailsWith(ErrorCode::conflict));
}

TEST_F(Restored, TellsWhoAsksByANumberOfBefore) {
  ASSERT_THAT(restore(copy_, file_), Holds());
  auto daybook = Daybook::open(file_);
  ASSERT_THAT(daybook, Holds());
  EXPECT_TRUE(daybook->changes_after(lost_)->of_before);
  EXPECT_FALSE(daybook->changes_after(lost_)->complete);
  EXPECT_FALSE(daybook->changes_after(in_copy_)->of_before) << "the copy has all up to it";
  noted(*daybook, "after", 2);
  EXPECT_TRUE(daybook->changes_after(lost_)->of_before);
  const auto since = daybook->changes_after(in_copy_);
  EXPECT_TRUE(since->complete);
  EXPECT_THAT(since->changes, SizeIs(1));
  EXPECT_THAT(daybook->changes_after(since->last)->changes, IsEmpty());
  EXPECT_TRUE(daybook->changes_after(since->last)->complete);
}

TEST_F(Restored, BeginsAnewOverADamagedFileAndAfterAnImportToo) {
  fs::resize_file(file_, 9000);
  ASSERT_THAT(restore(copy_, file_), Holds());
  auto daybook = Daybook::open(file_);
  ASSERT_THAT(daybook, Holds());
  EXPECT_GT(*daybook->epoch(), lost_);
  EXPECT_EQ(fs::file_size(file_ + ".before-restore-1"), 9000U);
  ASSERT_THAT(export_to(*daybook, folder_ / "all.zip", noon), Holds());
  ASSERT_THAT(import_from(folder_ / "all.zip", folder_ / "imported.barm"), Holds());
  auto imported = Daybook::open(folder_ / "imported.barm");
  ASSERT_THAT(imported, Holds());
  EXPECT_GT(*imported->epoch(), *daybook->epoch());
  EXPECT_GE(noted(*imported, "after", 2).revision, *imported->epoch());
}

TEST_F(Restored, IsRefusedWhileAnybodyHasItOpenHoweverIdle) {
  const auto before = rows_of(file_, "SELECT * FROM change");
  const auto refused = [&] {
    const auto done = restore(copy_, file_);
    EXPECT_THAT(done, FailsWith(ErrorCode::unavailable));
    return done ? "" : done.error().message;
  };
  {
    Program holder({BARM_WORKER, "hold", file_});
    ASSERT_EQ(holder.line(), "open");
    EXPECT_THAT(refused(), HasSubstr("a program has it open"));
  }
  {
    auto daybook = Daybook::open(file_);
    EXPECT_THAT(refused(), HasSubstr("a program has it open"));
    daybook = Daybook::open(file_, {.read_only = true});
    EXPECT_THAT(refused(), HasSubstr("a program has it open"));
    daybook = Daybook::open(file_);
    noted(*daybook, "it goes on", 3);
  }
  EXPECT_FALSE(fs::exists(file_ + ".before-restore-1"));
  EXPECT_THAT(rows_of(file_, "SELECT * FROM change"), SizeIs(before.size() + 1));
  EXPECT_THAT(restore(copy_, file_), Holds());
  EXPECT_THAT(rows_of(file_ + ".before-restore-1", "SELECT note FROM bake"),
              Contains("it goes on"));
}

TEST_F(Restored, KeepsALogSoThatItIsLockedLikeAnyOther) {
  ASSERT_THAT(restore(copy_, file_), Holds());
  const auto daybook = Daybook::open(file_);
  EXPECT_THAT(rows_of(file_, "PRAGMA journal_mode"), Contains("wal"));
  EXPECT_THAT(restore(copy_, file_), FailsWith(ErrorCode::unavailable));
  // A copy that is opened by itself gets one too.
  const auto opened = Daybook::open(copy_);
  EXPECT_THAT(rows_of(copy_, "PRAGMA journal_mode"), Contains("wal"));
}

TEST_F(Restored, TakesACopyOfAnOlderBarm) {
  const std::string old = folder_ / "old.barm";
  make_version(old, "version-1");
  ASSERT_THAT(restore(old, file_), Holds());
  EXPECT_THAT(rows_of(old, "PRAGMA user_version"), Contains("1")) << "the copy stays as it is";
  auto daybook = Daybook::open(file_);
  ASSERT_THAT(daybook, Holds());
  EXPECT_THAT(*daybook->check(), IsEmpty());
  EXPECT_EQ(daybook->get<Culture>("sluice")->title, "Sluice");
  EXPECT_THAT(restore(file_, file_), FailsWith(ErrorCode::bad_input)) << "it is that itself";
}

TEST_F(Restored, KilledInItsMiddleLeavesTheOneOrTheOtherWhole) {
  const auto begun = std::chrono::steady_clock::now();
  ASSERT_EQ(Program({BARM_WORKER, "restore", copy_, file_}).wait_for_end(), 0);
  AboutTheChange life(std::chrono::steady_clock::now() - begun, 20261128);
  std::string note = "two";
  int restored = 0;
  for (int round = 0; round < 40; ++round) {
    {
      auto daybook = Daybook::open(file_);
      ASSERT_THAT(daybook, Holds()) << "round " << round;
      note = "round " + std::to_string(round);
      noted(*daybook, note, daybook->get<Bake>("b")->revision);
    }
    {
      Program restoring({BARM_WORKER, "restore", copy_, file_});
      std::this_thread::sleep_for(life.next());
      restoring.kill_now();
    }
    auto daybook = Daybook::open(file_);
    ASSERT_THAT(daybook, Holds()) << "round " << round;
    EXPECT_THAT(*daybook->check(), IsEmpty());
    const std::string found = daybook->get<Bake>("b")->note;
    EXPECT_TRUE(found == note || found == "two") << found;
    restored += found == "two" ? 1 : 0;
    life.seen(found == "two");
  }
  EXPECT_GT(restored, 0) << "killed too early each time";
  EXPECT_LT(restored, 40) << "killed too late each time";
}

}  // namespace

}  // namespace barm::storage::test
