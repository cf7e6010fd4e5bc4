#include "dayplan/work.h"

#include <gtest/gtest.h>

#include <cmath>

#include "dayplan/due.h"
#include "dayplan/plan.h"
#include "days.h"

namespace barm::dayplan {

namespace {

/// Mixed at 0, risen in a normal time about two hours, baked, wanted at five hours.
Day one_loaf(std::size_t draws, std::uint64_t luck) {
  Day day{{{"pair of hands", "pairs of hands", 1, {}}}, {}, 5};
  numerics::Random random(luck);
  Draws rise;
  for (std::size_t k = 0; k < draws; ++k)
    rise.push_back(static_cast<float>(120 + 20 * random.normal()));
  day.bakes.push_back({"loaf",
                       300,
                       {{"",
                         {{"mix", 10, {{0}}}, {"bake", 10, {{0}}}},
                         {{"rise", 0, 1, rise, {30}}, {"oven", 1, 2, {60}}}}}});
  return day;
}

double normal_up_to(double z) { return 0.5 * std::erfc(-z / std::sqrt(2.0)); }

TEST(AChance, IsTheAreaUnderTheBell) {
  // By the clock at 140 min: ready by then and not ready 30 min before.
  const Day day = one_loaf(10'000, 7);
  const Worked worked = work(day, {{0, {0, 140}}});
  const double by_the_clock = normal_up_to(1) - normal_up_to(-0.5);
  EXPECT_NEAR(worked.by_the_clock.value(), by_the_clock, 4 * std::sqrt(0.25 / 10'000));
  // Looked at: any dough ready by 240, an hour before the bread is wanted; that is all of them.
  EXPECT_EQ(worked.all.through, 10'000U);
  // Wanted 140 min after mixing plus the oven's 60: those ready by 140.
  Day sooner = day;
  sooner.bakes[0].wanted = 200;
  EXPECT_NEAR(
      work(sooner, {{0, {0, 140}}}).all.value(), normal_up_to(1), 4 * std::sqrt(0.25 / 10'000));
}

TEST(AChance, HasTheTruthInItsInterval) {
  int inside = 0;
  constexpr int times_counted = 300;
  const double truth = normal_up_to(1) - normal_up_to(-0.5);
  for (int i = 0; i < times_counted; ++i) {
    const Chance chance =
        work(one_loaf(400, 1000 + static_cast<std::uint64_t>(i)), {{0, {0, 140}}}).by_the_clock;
    if (chance.low() <= truth && truth <= chance.high()) ++inside;
  }
  // 19 of 20; binomial, four of its deviations.
  EXPECT_NEAR(inside, 0.95 * times_counted, 4 * std::sqrt(times_counted * 0.95 * 0.05));
}

TEST(AChance, OfAllOrNothingIsNotCertain) {
  EXPECT_GT((Chance{0, 400}).high(), 0.005);
  EXPECT_LT((Chance{400, 400}).low(), 0.995);
  EXPECT_EQ((Chance{0, 400}).low(), 0);
  EXPECT_EQ((Chance{400, 400}).high(), 1);
}

// Whatever failed before and is looked at first: the count is the count, and where it is cut short
// it is not more than was asked for.
TEST(Counting, SaysTheSameAsWorkingThroughWhateverCameBefore) {
  const Day day = random_day(4, 3, 3, 300);
  const Plan good = *plan(day).value().plan;
  Plan late = good;
  for (Minutes& begin : late[1].begin) begin += 60;
  Counting counting(day);
  for (const Plan* one : std::initializer_list<const Plan*>{&good, &late, &good, &late}) {
    const std::size_t all = work(day, *one).all.through;
    EXPECT_EQ(counting.through(*one), all);
    EXPECT_LE(counting.through(*one, all), all);
    EXPECT_EQ(counting.through(*one, all > 0 ? all - 1 : 0), all);
  }
}

// Bread comes out of the oven within minutes that nobody knows, and all the same the hands that can
// wait are kept for it.
TEST(AHouse, KeepsItsHandsForWhatItSeesComing) {
  Day day{{{"pair of hands", "pairs of hands", 1, {}}}, {}, 5};
  const Draws bakes{38, 40, 42, 44};
  Way loaf{"", {{"load", 5, {{0}}}, {"unload", 5, {{0}}}}, {{"oven", 0, 1, bakes, {10}}}};
  day.bakes.push_back({"loaf", 200, {loaf}});
  day.bakes.push_back({"other", 200, {{"", {{"mix", 30, {{0}}}}, {}}}});
  const Plan plan{{0, {0, 45}}, {0, {30}}};
  EXPECT_LT(work(day, plan).each[0].through, 4U);
  day.bakes[0].ways[0].legs[0].watched = true;
  EXPECT_EQ(work(day, plan).each[0].through, 4U);
  EXPECT_EQ(work(day, plan).each[1].through, 4U);
}

TEST(AHouse, WithOneBakeInItIsThatBakeAlone) {
  for (std::uint64_t seed = 1; seed <= 8; ++seed) {
    const Day day = random_day(1, seed, seed, 500);
    const auto planned = plan(day);
    ASSERT_TRUE(planned->plan);
    EXPECT_EQ(work(day, *planned->plan).all.through, through_alone(day, 0, planned->plan->front()));
  }
}

TEST(AHouse, LetsNobodyWaitWhoIsKnownToCome) {
  // One pair of hands: bread comes out of the oven at 60 and waits 5 min; the other dough is ready
  // at 55 for 20 min of dividing and can wait.
  Day day{{{"pair of hands", "pairs of hands", 1, {}}}, {}, 5};
  day.bakes.push_back(
      {"bread",
       120,
       {{"", {{"load", 5, {{0}}}, {"unload", 5, {{0}}}}, {{"oven", 0, 1, {60}, {5}}}}}});
  day.bakes.push_back(
      {"dough",
       120,
       {{"", {{"mix", 5, {{0}}}, {"divide", 20, {{0}}}}, {{"bulk", 0, 1, {50}, {40}}}}}});
  const Worked worked = work(day, {{0, {0, 60}}, {0, {5, 55}}});
  EXPECT_EQ(worked.all.through, 1U);
  // Where both must be done at once one of them fails.
  day.bakes[1].ways[0].legs[0].lasts = {5};
  EXPECT_EQ(work(day, {{0, {0, 60}}, {0, {5, 55}}}).all.through, 0U);
}

TEST(AHouse, SleepsAtNight) {
  Day day = one_loaf(1, 1);
  day.bakes[0].ways[0].legs[0].ready = {100};
  day.bakes[0].wanted = 400;
  const Plan at_100{{0, {0, 100}}};
  EXPECT_EQ(work(day, at_100).all.through, 1U);
  day.house[0].closed = {{105, 125}};  // the oven is loaded at 125, within the 30 min it lasts
  EXPECT_EQ(work(day, at_100).all.through, 1U);
  day.house[0].closed = {{105, 135}};
  EXPECT_EQ(work(day, at_100).all.through, 0U);
}

}  // namespace

}  // namespace barm::dayplan
