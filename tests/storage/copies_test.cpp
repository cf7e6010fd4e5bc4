// Copies the daybook keeps of itself: each a true one, the last good ones never removed.
#include "storage/copies.h"

#include <gmock/gmock.h>

#include <chrono>
#include <filesystem>
#include <fstream>
#include <string>
#include <vector>

#include "../support/matchers.h"
#include "daybooks.h"

namespace barm::storage::test {

namespace {

namespace fs = std::filesystem;
using barm::test::FailsWith;
using barm::test::Holds;
using testing::Contains;
using testing::ElementsAre;
using testing::HasSubstr;
using testing::IsEmpty;
using testing::SizeIs;

class Copies : public testing::Test {
 protected:
  void SetUp() override {
    auto opened = Daybook::open(folder_ / "daybook.barm", {.create = true});
    ASSERT_THAT(opened, Holds());
    daybook_ = std::make_unique<Daybook>(std::move(*opened));
    ASSERT_THAT(daybook().save(a_bake("b"), noon), Holds());
  }

  Daybook& daybook() { return *daybook_; }

  void write_a_reading(const std::string& id, time::Instant at) {
    ASSERT_THAT(daybook().save(a_reading(id, "b"), at), Holds());
  }

  // The names of the copies, without the folder, newest first.
  std::vector<std::string> names() {
    std::vector<std::string> out;
    for (const std::string& path : backups_of(daybook().path()))
      out.push_back(fs::path(path).filename().string());
    return out;
  }

  std::int64_t readings_in(const std::string& name) {
    auto copy = Daybook::open(daybook().path() + ".backups/" + name, {.read_only = true});
    EXPECT_THAT(copy, Holds());
    return copy ? *copy->count(Kind::reading) : -1;
  }

  const Folder folder_;
  std::unique_ptr<Daybook> daybook_;
};

TEST_F(Copies, ASecondOneOnADayHoldsWhatWasWrittenSince) {
  ASSERT_THAT(keep_copy(daybook(), noon), Holds());
  write_a_reading("r", noon);
  const auto second = keep_copy(daybook(), noon + 60);
  ASSERT_THAT(second, Holds());
  EXPECT_TRUE(second->made);
  EXPECT_THAT(names(), ElementsAre("0002-2026-11-29.barm", "0001-2026-11-29.barm"));
  EXPECT_EQ(readings_in("0002-2026-11-29.barm"), 1);
}

TEST_F(Copies, SayWhenNothingHasChangedSince) {
  const auto first = keep_copy(daybook(), noon);
  ASSERT_THAT(first, Holds());
  const auto second = keep_copy(daybook(), noon + 40 * time::seconds_a_day);
  ASSERT_THAT(second, Holds());
  EXPECT_FALSE(second->made);
  EXPECT_EQ(second->name, first->name);
  EXPECT_THAT(names(), SizeIs(1));
}

TEST_F(Copies, ADamagedOneIsNotTakenForTheSame) {
  const auto first = keep_copy(daybook(), noon);
  ASSERT_THAT(first, Holds());
  std::fstream(first->name, std::ios::binary | std::ios::in | std::ios::out).seekp(4096)
      << std::string(40, 'x');
  const auto second = keep_copy(daybook(), noon);
  ASSERT_THAT(second, Holds());
  EXPECT_TRUE(second->made);
  EXPECT_NE(second->name, first->name);
}

TEST_F(Copies, AreMadeOnceADayWhileTheDaybookIsWrittenAndNeverOfTheSameTwice) {
  for (int day = 0; day < 5; ++day) {
    write_a_reading("r" + std::to_string(day), noon + day * time::seconds_a_day);
    const auto first = keep_copy_of_the_day(daybook(), noon + day * time::seconds_a_day);
    ASSERT_THAT(first, Holds());
    EXPECT_TRUE(first->has_value()) << day;
    const auto again = keep_copy_of_the_day(daybook(), noon + day * time::seconds_a_day + 60);
    ASSERT_THAT(again, Holds());
    EXPECT_FALSE(again->has_value()) << day;
  }
  EXPECT_THAT(names(), SizeIs(5));
  const auto idle = keep_copy_of_the_day(daybook(), noon + 9 * time::seconds_a_day);
  ASSERT_THAT(idle, Holds());
  EXPECT_FALSE(idle->has_value());
}

TEST_F(Copies, OfTrueDaysStayWhenAClockShowsWrongOnes) {
  for (int day = 0; day < 7; ++day) {
    write_a_reading("true" + std::to_string(day), noon + day * time::seconds_a_day);
    ASSERT_THAT(keep_copy_of_the_day(daybook(), noon + day * time::seconds_a_day), Holds());
  }
  // Wrong by years, forward and back, and written on each of the days.
  for (int day = 0; day < 12; ++day) {
    const time::Instant wrong =
        noon + (day % 2 == 0 ? 3000 + day : -3000 - day) * time::seconds_a_day;
    write_a_reading("wrong" + std::to_string(day), wrong);
    ASSERT_THAT(keep_copy_of_the_day(daybook(), wrong), Holds());
  }
  EXPECT_THAT(names(), Contains("0006-2026-12-04.barm"));
  // The right hour again: the newest copy is the one of now, whatever the others are called.
  write_a_reading("last", noon + 8 * time::seconds_a_day);
  ASSERT_THAT(keep_copy_of_the_day(daybook(), noon + 8 * time::seconds_a_day), Holds());
  EXPECT_EQ(names().front(), "0020-2026-12-07.barm");
  EXPECT_EQ(readings_in(names().front()), 20);
}

TEST_F(Copies, ReachFarBackAndDoNotGrowWithoutEnd) {
  constexpr int days = 120;
  for (int day = 0; day < days; ++day) {
    write_a_reading("r" + std::to_string(day), noon + day * time::seconds_a_day);
    ASSERT_THAT(keep_copy_of_the_day(daybook(), noon + day * time::seconds_a_day), Holds());
  }
  EXPECT_THAT(names(), SizeIs(last_copies_kept + sevens_kept));
  EXPECT_LE(readings_in(names().back()), days - 21) << "the oldest is of three weeks ago";
}

TEST_F(Copies, ManyOfOneDayLeaveThoseOfTheDaysBefore) {
  for (int day = 0; day < 7; ++day) {
    write_a_reading("r" + std::to_string(day), noon + day * time::seconds_a_day);
    ASSERT_THAT(keep_copy(daybook(), noon + day * time::seconds_a_day), Holds());
  }
  for (int more = 0; more < 30; ++more) {
    write_a_reading("more" + std::to_string(more), noon + 6 * time::seconds_a_day);
    ASSERT_THAT(keep_copy(daybook(), noon + 6 * time::seconds_a_day), Holds());
  }
  for (const char* day : {"29", "30"})
    EXPECT_THAT(names(), Contains(HasSubstr(std::string("2026-11-") + day)));
  EXPECT_LE(names().size(), last_copies_kept + days_kept + sevens_kept);
}

TEST_F(Copies, OfADamagedDaybookAreRefusedAndNoneGoes) {
  for (int i = 0; i < 400; ++i) write_a_reading("r" + std::to_string(i), noon);
  ASSERT_THAT(keep_copy(daybook(), noon), Holds());
  write_a_reading("later", noon);
  const std::string path = daybook().path();
  daybook_.reset();
  std::fstream file(path, std::ios::binary | std::ios::in | std::ios::out);
  file.seekp(-4096, std::ios::end) << std::string(40, 'x');
  file.close();
  auto again = Daybook::open(path);
  ASSERT_THAT(again, Holds());
  EXPECT_THAT(keep_copy(*again, noon + time::seconds_a_day), FailsWith(ErrorCode::bad_input));
  EXPECT_THAT(backups_of(path), SizeIs(1));
}

TEST_F(Copies, SweepAwayWhatAKilledProgramLeftHalfMade) {
  const std::string folder = daybook().path() + ".backups";
  fs::create_directories(folder);
  for (const char* name : {"/old.unchecked", "/new.unchecked"}) std::ofstream(folder + name) << "x";
  fs::last_write_time(folder + "/old.unchecked",
                      fs::file_time_type::clock::now() - std::chrono::hours(48));
  ASSERT_THAT(keep_copy(daybook(), noon), Holds());
  EXPECT_FALSE(fs::exists(folder + "/old.unchecked"));
  EXPECT_TRUE(fs::exists(folder + "/new.unchecked")) << "it may be in the making";
}

TEST_F(Copies, AnywhereElseAreNewFiles) {
  ASSERT_THAT(daybook().back_up(folder_ / "mine.barm"), Holds());
  EXPECT_THAT(daybook().back_up(folder_ / "mine.barm"), FailsWith(ErrorCode::bad_input));
  EXPECT_THAT(Daybook::open(folder_ / "mine.barm"), Holds());
  EXPECT_THAT(names(), IsEmpty());
}

}  // namespace

}  // namespace barm::storage::test
