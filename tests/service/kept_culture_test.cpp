// What a culture of the daybook has learned from its bakes.
#include "service/daybook/kept_culture.h"

#include <gmock/gmock.h>

#include <cmath>
#include <map>
#include <nlohmann/json.hpp>

#include "../support/folder.h"
#include "../support/matchers.h"
#include "service/daybook/daybook.h"
#include "service/daybook/kept_bake.h"
#include "service/noon.h"
#include "storage/archive.h"

namespace barm::service {
namespace {

using barm::test::FailsWith;
using barm::test::Holds;
using barm::test::saturday_noon;
using storage::Daybook;
using storage::Kind;
using testing::ElementsAre;
using testing::IsEmpty;
using testing::SizeIs;

const char* const mead_toml = R"(name = "Mead"
flour = "1 kg"

[bowl]
"white bread flour" = "100 %"
"dry mead" = "35 %"
water = "35 %"
salt = "2 %"
levain = "20 %"

[levain]
starter = "stiff ripe levain"
flour = "white bread flour"
temperature = "26 C"
since_feeding = "5 h"

[[stage]]
do = "bulk"
temperature = "24 C"
until = "doubled"
)";

class KeptCultureTest : public testing::Test {
 protected:
  void SetUp() override {
    open("daybook.barm");
    storage::Culture culture;
    culture.id = "sluice";
    culture.title = "Sluice";
    culture.starter = "stiff ripe levain";
    culture.flour = "white bread flour";
    ASSERT_THAT(daybook().save(culture, now_.at), Holds());
  }

  void TearDown() override { daybook_.reset(); }

  void open(const std::string& name) {
    auto opened = Daybook::open(folder_ / name, {.create = true});
    ASSERT_THAT(opened, Holds());
    daybook_.emplace(std::move(*opened));
  }

  Daybook& daybook() { return *daybook_; }

  // A dough mixed so many days ago whose heights rise by so many mm an hour from the third hour on.
  void a_bake(const std::string& id, int days_ago, double mm_an_hour, int looks = 7) {
    storage::Bake bake;
    bake.id = id;
    bake.toml = mead_toml;
    bake.state = "finished";
    bake.culture = "sluice";
    bake.mixed_at = now_.at - days_ago * time::seconds_a_day;
    ASSERT_THAT(save_bake(daybook(), bake, now_), Holds());
    for (int i = 0; i < looks; ++i) {
      storage::ReadingRecord look;
      look.id = id + "-" + std::to_string(i);
      look.bake = id;
      look.at = *bake.mixed_at + i * 3600;
      look.height_mm = 40 + mm_an_hour * std::max(0, i - 2);
      ASSERT_THAT(daybook().save(look, now_.at), Holds());
    }
  }

  KeptCulture asked(const Asking& asking = {}) {
    const auto record = daybook().get<storage::Culture>("sluice");
    EXPECT_THAT(record, Holds());
    auto kept = kept_culture(daybook(), *record, now_, asking);
    EXPECT_THAT(kept, Holds());
    return kept ? *kept : KeptCulture{};
  }

  void leave_out(const std::vector<std::string>& bakes) {
    auto record = *daybook().get<storage::Culture>("sluice");
    record.left_out = bakes;
    ASSERT_THAT(daybook().save(record, now_.at), Holds());
  }

  static std::vector<double> mean_of(const KeptCulture& kept) {
    return estimation::next_batch(kept.culture).mean;
  }

  Now now_ = saturday_noon();
  barm::test::Folder folder_;
  std::optional<Daybook> daybook_;
};

TEST_F(KeptCultureTest, LearnsFromBakesThatWereReadTwice) {
  a_bake("fast", 3, 9);
  a_bake("slow", 2, 4);
  a_bake("hardly", 1, 6, 1);
  const KeptCulture kept = asked();
  ASSERT_THAT(kept.batches, SizeIs(2));
  EXPECT_EQ(kept.batches[0].bake, "slow");
  EXPECT_EQ(kept.batches[1].bake, "fast");
  EXPECT_EQ(kept.batches[0].readings, 7);
  EXPECT_TRUE(kept.batches[0].levain_past_peak_h.has_value());
  EXPECT_THAT(kept.culture.batches, SizeIs(2));
  EXPECT_NE(mean_of(kept), estimation::day_one_belief().mean);
}

// Not "taken back" but never heard of: the same to the last bit as a daybook without that bake.
TEST_F(KeptCultureTest, LeavesABakeOutAsIfItHadNeverBeen) {
  a_bake("fast", 3, 9);
  a_bake("slow", 2, 4);
  const auto never = mean_of(asked());
  a_bake("odd", 1, 14);
  EXPECT_NE(mean_of(asked()), never);
  leave_out({"odd"});
  const KeptCulture without = asked();
  EXPECT_EQ(mean_of(without), never);
  ASSERT_THAT(without.batches, SizeIs(3));
  EXPECT_TRUE(without.batches[0].left_out);
  EXPECT_EQ(mean_of(asked({.but = "odd"})), never);
  leave_out({});
  EXPECT_EQ(mean_of(asked({.but = "odd"})), never);
}

TEST_F(KeptCultureTest, LearnsAnewWhenTheReadingsChangeAndComesBackWithThem) {
  a_bake("fast", 3, 9);
  const auto whole = mean_of(asked());
  ASSERT_THAT(daybook().remove(Kind::reading, "fast-6", 1, now_.at), Holds());
  EXPECT_NE(mean_of(asked()), whole);
  ASSERT_THAT(daybook().undo(Kind::reading, "fast-6", now_.at), Holds());
  EXPECT_EQ(mean_of(asked()), whole);
  ASSERT_THAT(daybook().remove(Kind::bake, "fast", 1, now_.at), Holds());
  EXPECT_THAT(asked().batches, IsEmpty());
  ASSERT_THAT(daybook().undo(Kind::bake, "fast", now_.at), Holds());
  EXPECT_EQ(mean_of(asked()), whole);
}

TEST_F(KeptCultureTest, TheKeptLessonIsTheOneLearned) {
  a_bake("fast", 3, 9);
  const auto learned = asked();
  const auto kept = asked();
  EXPECT_EQ(mean_of(kept), mean_of(learned));
  EXPECT_EQ(kept.batches[0].taught, learned.batches[0].taught);
  EXPECT_EQ(mean_of(asked({.anew = true})), mean_of(learned));
}

TEST_F(KeptCultureTest, IsTheSameAfterExportAndImport) {
  a_bake("fast", 3, 9);
  a_bake("slow", 2, 4);
  leave_out({"slow"});
  const auto before = mean_of(asked());
  ASSERT_THAT(storage::export_to(daybook(), folder_ / "all.zip", now_.at), Holds());
  daybook_.reset();
  ASSERT_THAT(storage::import_from(folder_ / "all.zip", folder_ / "again.barm"), Holds());
  open("again.barm");
  EXPECT_EQ(mean_of(asked()), before);
}

TEST_F(KeptCultureTest, ADaybookThatMayOnlyBeReadIsLearnedFromAllTheSame) {
  a_bake("fast", 3, 9);
  daybook_.reset();
  auto opened = Daybook::open(folder_ / "daybook.barm", {.read_only = true});
  ASSERT_THAT(opened, Holds());
  daybook_.emplace(std::move(*opened));
  EXPECT_THAT(asked().culture.batches, SizeIs(1));
}

TEST_F(KeptCultureTest, TakesInTheBatchesFromElsewhere) {
  a_bake("fast", 3, 9);
  const auto of_daybook = asked();
  auto lesson = of_daybook.culture.batches[0];
  lesson.batch = "Mead, 2026-10-01";
  lesson.day -= 50;
  auto record = *daybook().get<storage::Culture>("sluice");
  record.memory = estimation::to_toml({"Sluice", {lesson}});
  ASSERT_THAT(daybook().save(record, now_.at), Holds());
  const KeptCulture both = asked();
  EXPECT_THAT(both.culture.batches, SizeIs(2));
  const auto said = to_json(both);
  EXPECT_EQ(said["from_elsewhere"][0]["name"], "Mead, 2026-10-01");
  EXPECT_THAT(said["batches"], SizeIs(1));
}

TEST_F(KeptCultureTest, SaysHowFarItIsAndStops) {
  for (int i = 0; i < 4; ++i) a_bake("b" + std::to_string(i), i + 1, 5 + i, 4);
  std::vector<double> shares;
  (void)asked({.progress = [&](double share) { shares.push_back(share); }});
  EXPECT_THAT(shares, ElementsAre(0, 0.25, 0.5, 0.75));
  const auto record = daybook().get<storage::Culture>("sluice");
  int times = 0;
  const auto stopped = kept_culture(
      daybook(), *record, now_, {.anew = true, .cancelled = [&] { return ++times > 2; }});
  EXPECT_THAT(stopped, FailsWith(ErrorCode::cancelled));
}

TEST_F(KeptCultureTest, ABakeIsBegunFromTheOtherBakesOfItsCulture) {
  a_bake("fast", 3, 9);
  a_bake("slow", 2, 4);
  const auto record = daybook().get<storage::Bake>("slow");
  const auto bake = stored_bake(daybook(), "slow", now_);
  ASSERT_THAT(bake, Holds());
  const auto begun = begun_for(daybook(), *record, *bake, now_);
  ASSERT_THAT(begun, Holds());
  EXPECT_EQ(begun->culture, "Sluice");
  ASSERT_THAT(daybook().remove(Kind::bake, "fast", 1, now_.at), Holds());
  const auto alone = begun_for(daybook(), *record, *bake, now_);
  EXPECT_EQ(alone->culture, "");
  EXPECT_NE(alone->belief.mean, begun->belief.mean);
}

// Today's window is that of the readings: a dough that rises slowly is later than one that rises
// fast, and both are surer than without a look.
TEST_F(KeptCultureTest, TodayALiveDoughIsReadyByItsReadings) {
  const auto live = [&](const std::string& id, double mm_an_hour, int looks) {
    a_bake(id, 1, mm_an_hour, looks);
    auto record = *daybook().get<storage::Bake>(id);
    record.state = "live";
    record.culture.reset();
    EXPECT_THAT(daybook().save(record, now_.at), Holds());
  };
  live("not_read", 0, 0);
  live("fast", 9, 7);
  live("slow", 4, 7);
  const auto doughs = [&] {
    std::map<std::string, DoughToday> out;
    const auto answer = today(daybook(), now_);
    EXPECT_THAT(answer, Holds());
    for (const DoughToday& dough : answer->doughs) out[dough.bake] = dough;
    return out;
  };
  auto first = doughs();
  const auto width = [&](const std::string& id) {
    return first[id].ready_p90->seconds - first[id].ready_p10->seconds;
  };
  EXPECT_LT(*first["fast"].ready_p50, *first["slow"].ready_p50);
  EXPECT_LT(width("fast"), width("not_read"));
  EXPECT_LT(width("slow"), width("not_read"));
  EXPECT_EQ(first["fast"].rests_on, "7 readings");
  EXPECT_EQ(first["not_read"].rests_on, "");
  // Kept: the same, until a reading more is there.
  EXPECT_EQ(doughs()["slow"].ready, first["slow"].ready);
  ASSERT_THAT(daybook().remove(Kind::reading, "slow-6", 1, now_.at), Holds());
  auto less = doughs();
  EXPECT_EQ(less["slow"].rests_on, "6 readings");
  EXPECT_NE(less["slow"].ready_p50, first["slow"].ready_p50);
  EXPECT_EQ(less["fast"].ready_p50, first["fast"].ready_p50);
}

TEST_F(KeptCultureTest, TodayAPlannedDoughStartsFromItsCulture) {
  a_bake("one", 4, 2.5);
  a_bake("two", 3, 2.5);
  a_bake("planned", -1, 0, 0);
  auto record = *daybook().get<storage::Bake>("planned");
  record.state = "planned";
  ASSERT_THAT(daybook().save(record, now_.at), Holds());
  const auto begun = today(daybook(), now_);
  ASSERT_THAT(begun, Holds());
  ASSERT_THAT(begun->doughs, SizeIs(1));
  EXPECT_EQ(begun->doughs[0].rests_on, "what Sluice has taught");
  leave_out({"one", "two"});
  const auto day_one = today(daybook(), now_);
  EXPECT_EQ(day_one->doughs[0].rests_on, "");
  EXPECT_GT(begun->doughs[0].ready_p50, day_one->doughs[0].ready_p50);
}

TEST(KeptReadings, AreThoseOfATable) {
  const time::Instant mixed{1000000};
  storage::ReadingRecord mark;
  mark.at = mixed + 300;
  mark.height_mm = 40;
  mark.room_C = 21.5;
  storage::ReadingRecord dome = mark;
  dome.at = mixed + 7200;
  dome.height_mm.reset();
  dome.edge_mm = 50;
  dome.dome_mm = 60;
  dome.ph = 4.9;
  storage::ReadingRecord before = mark;
  before.at = mixed - 3600;
  const auto readings = readings_of({dome, before, mark}, mixed);
  ASSERT_THAT(readings.rows, SizeIs(2));
  EXPECT_NEAR(readings.start_mark->in(millimetre), 40, 1e-9);
  EXPECT_NEAR(readings.rows[1].height->in(millimetre), 55, 0.5);
  EXPECT_NEAR(readings.rows[1].at.in(hour), 2, 1e-4);
  EXPECT_NEAR(readings.rows[0].room->celsius(), 21.5, 1e-9);
  EXPECT_NEAR(*readings.rows[1].ph, 4.9, 1e-9);
  EXPECT_THAT(readings.left_out, SizeIs(1));
}

}  // namespace
}  // namespace barm::service
