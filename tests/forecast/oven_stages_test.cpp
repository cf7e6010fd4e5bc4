// The oven and the rack behind the draws of a dough: sums that can be done by hand.
#include "forecast/oven_stages.h"

#include <gtest/gtest.h>

#include <limits>
#include <utility>
#include <vector>

namespace barm::forecast {

namespace {

using formula::Step;

constexpr double never = std::numeric_limits<double>::infinity();

// Five doughs that go in at 5 h to 9 h, behind one stage of the file.
Timeline five_doughs(std::vector<double> hours = {5, 6, 7, 8, 9}) {
  Timeline out;
  out.stages.resize(1);
  out.stages[0].in_file = 0;
  out.oven_hours = std::move(hours);
  out.oven = spread(out.oven_hours, out.weight);
  out.to_do.push_back({Act::mix, 0, false, {}});
  out.to_do.push_back({Act::into_the_oven, 1, false, out.oven});
  return out;
}

const InTheOven half_an_hour{{0.5}, {2}, {4}};

TEST(OvenStages, ComeOutHalfAnHourLaterAndCoolFromThen) {
  Timeline timeline = five_doughs();
  add_oven_stages(timeline, half_an_hour);
  ASSERT_EQ(timeline.stages.size(), 3U);
  EXPECT_EQ(timeline.stages[1].step, Step::oven);
  EXPECT_EQ(timeline.stages[2].step, Step::cooling);
  EXPECT_EQ(timeline.stages[1].begin.p50, timeline.oven.p50);
  EXPECT_NEAR(timeline.stages[1].end.p50->in(hour), 7.5, 1e-9);
  EXPECT_NEAR(timeline.bread.front().cut.p50->in(hour), 9.5, 1e-9);
  EXPECT_NEAR(timeline.bread.front().bag.p50->in(hour), 11.5, 1e-9);
  EXPECT_NEAR(timeline.stages[2].end.p10->in(hour), timeline.oven.p10->in(hour) + 4.5, 1e-9);
  EXPECT_EQ(timeline.to_do.back().act, Act::bag);
  EXPECT_EQ(timeline.next(10.0 * hour)->act, Act::into_the_oven);
}

TEST(OvenStages, ItsOwnDoubtWidensWhatTheDoughsAlreadyHave) {
  Timeline sure = five_doughs(std::vector<double>(5, 6));
  add_oven_stages(sure, {{0.4, 0.45, 0.5, 0.55, 0.6}, {2}, {4}});
  EXPECT_NEAR(sure.stages[1].end.p50->in(hour), 6.5, 1e-9);
  EXPECT_LT(*sure.stages[1].end.p10, 6.5 * hour);
  EXPECT_GT(*sure.stages[1].end.p90, 6.5 * hour);
}

TEST(OvenStages, ADoughThatNeverGetsThereIsNeverBaked) {
  Timeline timeline = five_doughs({5, 6, never, never, never});
  add_oven_stages(timeline, half_an_hour);
  EXPECT_FALSE(timeline.bread.front().out.p50);
  EXPECT_TRUE(timeline.bread.front().out.p10);
  EXPECT_NEAR(timeline.stages[1].reached.value(), 0.4, 1e-9);
}

TEST(OvenStages, WhatWasTickedOffWasThenInEveryDraw) {
  Timeline in = five_doughs();
  add_oven_stages(in, half_an_hour, {{went_in(), 7.25 * hour}});
  EXPECT_NEAR(in.bread.front().out.p10->in(hour), 7.75, 1e-9);
  EXPECT_NEAR(in.bread.front().out.p90->in(hour), 7.75, 1e-9);
  EXPECT_EQ(in.next(7.3 * hour)->act, Act::out_of_the_oven);
  Timeline out = five_doughs();
  add_oven_stages(out, half_an_hour, {{went_in(), 7.25 * hour}, {came_out(), 7.9 * hour}});
  EXPECT_NEAR(out.bread.front().cut.p50->in(hour), 9.9, 1e-9);
  EXPECT_EQ(out.next(8.0 * hour)->act, Act::cut);
  EXPECT_TRUE(out.stages[1].done);
  EXPECT_FALSE(out.stages[2].done);
}

// Five doughs at 5 h to 9 h: the middle one's second load goes in at 7 + 0.5 + 0.1 h.
TEST(OvenStages, ASecondLoadFollowsTheFirst) {
  Timeline timeline = five_doughs();
  InTheOven two = half_an_hour;
  two.loads = 2;
  two.between = 0.1;
  add_oven_stages(timeline, two);
  ASSERT_EQ(timeline.stages.size(), 5U);
  EXPECT_EQ(timeline.stages[2].load, 1);
  EXPECT_EQ(timeline.stages[3].load, 2);
  EXPECT_NEAR(timeline.stages[3].begin.p50->in(hour), 7.6, 1e-9);
  EXPECT_NEAR(timeline.stages[3].end.p50->in(hour), 8.1, 1e-9);
  EXPECT_NEAR(timeline.stages[4].end.p50->in(hour), 12.1, 1e-9);
  EXPECT_NEAR(timeline.bread.front().out.p50->in(hour), 7.5, 1e-9) << "of the first";
  EXPECT_NEAR(timeline.oven.p50->in(hour), 7, 1e-9);
  std::vector<std::pair<Act, int>> in_time;
  for (const ToDo& one : timeline.to_do) in_time.emplace_back(one.act, one.load);
  const std::vector<std::pair<Act, int>> wanted{{Act::mix, 0},
                                                {Act::into_the_oven, 1},
                                                {Act::out_of_the_oven, 1},
                                                {Act::into_the_oven, 2},
                                                {Act::out_of_the_oven, 2},
                                                {Act::cut, 1},
                                                {Act::cut, 2},
                                                {Act::bag, 1},
                                                {Act::bag, 2}};
  EXPECT_EQ(in_time, wanted);
}

TEST(OvenStages, ALoadTickedOffHoldsAndTheNextIsStillToCome) {
  Timeline timeline = five_doughs();
  InTheOven two = half_an_hour;
  two.loads = 2;
  two.between = 0.1;
  add_oven_stages(timeline, two, {{went_in(), 7.25 * hour}, {came_out(), 7.9 * hour}});
  EXPECT_EQ(timeline.next(8.0 * hour)->act, Act::into_the_oven);
  EXPECT_EQ(timeline.next(8.0 * hour)->load, 2);
  EXPECT_NEAR(timeline.next(8.0 * hour)->at.p10->in(hour), 8.0, 1e-9);
  Timeline late = five_doughs();
  add_oven_stages(late, two, {{came_out(), 7.9 * hour}, {went_in(2), 8.25 * hour}});
  EXPECT_EQ(late.next(8.5 * hour)->act, Act::out_of_the_oven);
  EXPECT_EQ(late.next(8.5 * hour)->load, 2);
  EXPECT_NEAR(late.next(8.5 * hour)->at.p90->in(hour), 8.75, 1e-9);
}

}  // namespace

}  // namespace barm::forecast
