// What is deleted: how long it can come back, and what a clock, a late note and a purge do to it.
#include <gmock/gmock.h>

#include <memory>
#include <string>
#include <vector>

#include "../support/matchers.h"
#include "daybooks.h"
#include "storage/internal/stb.h"

namespace barm::storage::test {

namespace {

using barm::test::FailsWith;
using barm::test::Holds;
using testing::IsEmpty;
using testing::SizeIs;

std::string small_png() {
  std::string bytes;
  const std::vector<unsigned char> pixels(3 * 20 * 20, 90);
  stbi_write_png_to_func(
      [](void* to, void* data, int size) {
        static_cast<std::string*>(to)->append(static_cast<const char*>(data),
                                              static_cast<std::size_t>(size));
      },
      &bytes,
      20,
      20,
      3,
      pixels.data(),
      0);
  return bytes;
}

class Trash : public testing::Test {
 protected:
  void SetUp() override {
    auto opened = Daybook::open(folder_ / "daybook.barm", {.create = true});
    ASSERT_THAT(opened, Holds());
    daybook_ = std::make_unique<Daybook>(std::move(*opened));
    ASSERT_THAT(daybook().save(a_bake("b"), noon), Holds());
    ASSERT_THAT(daybook().save(a_bake("other"), noon), Holds());
  }

  Daybook& daybook() { return *daybook_; }

  // Something is written on each of these days.
  void written_on_days(int first, int last) {
    for (int day = first; day <= last; ++day) {
      Bake other = *daybook().get<Bake>("other");
      other.note = std::to_string(day) + " " + std::to_string(other.revision);
      ASSERT_THAT(daybook().save(other, noon + day * time::seconds_a_day), Holds());
    }
  }

  bool in_trash(const std::string& bake) {
    return daybook().get<Bake>(bake)->deleted_at.has_value();
  }

 private:
  const Folder folder_;
  std::unique_ptr<Daybook> daybook_;
};

TEST_F(Trash, GoesAfterThirtyDaysOfUseAndNotBefore) {
  ASSERT_THAT(daybook().save(a_reading("r", "b"), noon), Holds());
  ASSERT_THAT(daybook().remove(Kind::bake, "b", 0, noon), Holds());
  written_on_days(0, 29);
  EXPECT_EQ(*daybook().purge(noon + 30 * time::seconds_a_day - 1), 0);
  EXPECT_THAT(daybook().get<Bake>("b"), Holds());
  EXPECT_EQ(*daybook().purge(noon + 30 * time::seconds_a_day), 1);
  EXPECT_THAT(daybook().get<Bake>("b"), FailsWith(ErrorCode::not_found));
  EXPECT_THAT(daybook().get<ReadingRecord>("r"), FailsWith(ErrorCode::not_found));
  EXPECT_THAT(*daybook().check(), IsEmpty());
}

TEST_F(Trash, StaysWhenAClockIsAheadForAWhile) {
  ASSERT_THAT(daybook().remove(Kind::bake, "b", 0, noon), Holds());
  written_on_days(1, 3);
  EXPECT_EQ(*daybook().purge(noon + 40 * time::seconds_a_day), 0) << "one start with a wrong clock";
  written_on_days(40, 47);
  EXPECT_EQ(*daybook().purge(noon + 47 * time::seconds_a_day), 0) << "a week with a wrong clock";
  written_on_days(4, 10);
  EXPECT_EQ(*daybook().purge(noon + 400 * time::seconds_a_day), 0);
  EXPECT_TRUE(in_trash("b"));
  EXPECT_THAT(daybook().undo(Kind::bake, "b", noon + 11 * time::seconds_a_day), Holds());
}

TEST_F(Trash, StaysWhenItWasFilledUnderAClockThatWasBehind) {
  ASSERT_THAT(daybook().remove(Kind::bake, "b", 0, noon - 3000 * time::seconds_a_day), Holds());
  written_on_days(1, 20);
  EXPECT_EQ(*daybook().purge(noon + 20 * time::seconds_a_day), 0);
  EXPECT_TRUE(in_trash("b"));
}

TEST_F(Trash, ALateReadingBringsItsBakeBack) {
  ASSERT_THAT(daybook().remove(Kind::bake, "b", 0, noon), Holds());
  const auto before = *daybook().last_change();
  ASSERT_THAT(daybook().save(a_reading("late", "b"), noon + time::seconds_a_day), Holds());
  EXPECT_FALSE(in_trash("b"));
  const auto told = daybook().changes_after(before);
  ASSERT_THAT(told->changes, SizeIs(2));
  EXPECT_EQ(told->changes[0].what, "restored");
  EXPECT_EQ(told->changes[0].id, "b");
  EXPECT_EQ(told->changes[1].id, "late");
}

TEST_F(Trash, ALateReadingSentTwiceDoesNotUndoALaterDeletion) {
  ASSERT_THAT(daybook().save(a_reading("r", "b"), noon), Holds());
  ASSERT_THAT(daybook().remove(Kind::bake, "b", 0, noon), Holds());
  ASSERT_THAT(daybook().save(a_reading("r", "b"), noon + 60), Holds());
  EXPECT_TRUE(in_trash("b"));
}

TEST_F(Trash, ALatePhotoOfALoafBringsBackTheLoafAndItsBake) {
  Loaf loaf;
  loaf.id = "l";
  loaf.bake = "b";
  loaf.baked_at = noon;
  ASSERT_THAT(daybook().save(loaf, noon), Holds());
  ASSERT_THAT(daybook().remove(Kind::loaf, "l", 0, noon), Holds());
  ASSERT_THAT(daybook().remove(Kind::bake, "b", 0, noon), Holds());
  Photo photo;
  photo.loaf = "l";
  photo.taken_at = noon;
  ASSERT_THAT(daybook().add_photo(photo, small_png(), noon), Holds());
  EXPECT_FALSE(in_trash("b"));
  EXPECT_FALSE(daybook().get<Loaf>("l")->deleted_at.has_value());
}

TEST_F(Trash, APurgedCultureLeavesItsBakesARevisionAChangeAndItsName) {
  ASSERT_THAT(daybook().save(a_culture("c"), noon), Holds());
  Bake bake = *daybook().get<Bake>("b");
  bake.culture = "c";
  ASSERT_THAT(daybook().save(bake, noon), Holds());
  ASSERT_THAT(daybook().remove(Kind::culture, "c", 0, noon), Holds());
  written_on_days(0, 31);
  const auto before = *daybook().last_change();
  EXPECT_EQ(*daybook().purge(noon + 31 * time::seconds_a_day), 1);

  const auto left = daybook().get<Bake>("b");
  ASSERT_THAT(left, Holds());
  EXPECT_EQ(left->revision, 3);
  EXPECT_FALSE(left->culture.has_value());
  EXPECT_THAT(*daybook().history("b"), SizeIs(3));
  Query of_bake;
  of_bake.owner = "b";
  const auto remarks = daybook().list<Remark>(of_bake);
  ASSERT_THAT(*remarks, SizeIs(1));
  EXPECT_EQ(remarks->front().text, "Its culture was Sluice culture, which is no longer kept.");
  const auto told = daybook().changes_after(before);
  ASSERT_THAT(told->changes, SizeIs(3));
  EXPECT_EQ(told->changes[0].id, "b");
  EXPECT_EQ(told->changes[0].what, "saved");
  EXPECT_EQ(told->changes[2].what, "purged");
}

}  // namespace

}  // namespace barm::storage::test
