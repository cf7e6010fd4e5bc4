// The oven and the rack behind the draws of a dough: sums that can be done by hand.
#include "forecast/oven_stages.h"

#include <gtest/gtest.h>

#include <limits>

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
  EXPECT_NEAR(timeline.bread->cut.p50->in(hour), 9.5, 1e-9);
  EXPECT_NEAR(timeline.bread->bag.p50->in(hour), 11.5, 1e-9);
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
  EXPECT_FALSE(timeline.bread->out.p50);
  EXPECT_TRUE(timeline.bread->out.p10);
  EXPECT_NEAR(timeline.stages[1].reached.value(), 0.4, 1e-9);
}

TEST(OvenStages, WhatWasTickedOffWasThenInEveryDraw) {
  Timeline in = five_doughs();
  add_oven_stages(in, half_an_hour, {{went_in, 7.25 * hour}});
  EXPECT_NEAR(in.bread->out.p10->in(hour), 7.75, 1e-9);
  EXPECT_NEAR(in.bread->out.p90->in(hour), 7.75, 1e-9);
  EXPECT_EQ(in.next(7.3 * hour)->act, Act::out_of_the_oven);
  Timeline out = five_doughs();
  add_oven_stages(out, half_an_hour, {{went_in, 7.25 * hour}, {came_out, 7.9 * hour}});
  EXPECT_NEAR(out.bread->cut.p50->in(hour), 9.9, 1e-9);
  EXPECT_EQ(out.next(8.0 * hour)->act, Act::cut);
  EXPECT_TRUE(out.stages[1].done);
  EXPECT_FALSE(out.stages[2].done);
}

}  // namespace

}  // namespace barm::forecast
