// Every draw goes the whole way; what is told of it comes from these draws alone.
#include "forecast/timeline.h"

#include <gtest/gtest.h>

#include <cmath>

#include "forecast/ensemble.h"
#include "forecast/in_the_way.h"
#include "forecast/jar.h"
#include "forecast/warmth.h"
#include "formula/read.h"
#include "support/matchers.h"

namespace barm::forecast {

namespace {

using formula::Step;

constexpr const char* bowl_in_words = R"(flour = "1 kg"
[bowl]
"white bread flour" = "100 %"
water = "70 %"
"stiff ripe levain" = "20 %"
salt = "2 %"
)";
constexpr const char* twelve_in_the_cold = "[[stage]]\ndo = \"cold\"\nfor = \"12 h\"\n";
constexpr const char* until_doubled =
    "[[stage]]\ndo = \"bulk\"\ntemperature = \"24 C\"\nuntil = \"doubled\"\n"
    "[[stage]]\ndo = \"fold\"\nafter = \"1 h\"\n";
constexpr const char* divide_to_proof =
    "[[stage]]\ndo = \"divide\"\n[[stage]]\ndo = \"shape\"\n"
    "[[stage]]\ndo = \"proof\"\nfor = \"2 h\"\n";

formula::Bake timed_bake(const std::string& stages) {
  const auto bake = formula::parse_bake(bowl_in_words + stages, "t.toml");
  EXPECT_THAT(bake, test::Holds());
  return *bake;
}

Forecast foreseen_in(const std::string& stages, Options options = {.draws = 80}) {
  const auto forecast = foresee(timed_bake(stages), options);
  EXPECT_THAT(forecast, test::Holds());
  return *forecast;
}

const StageTimes& stage_of(const Timeline& timeline, Step step) {
  for (const StageTimes& one : timeline.stages) {
    if (one.step == step) return one;
  }
  ADD_FAILURE() << "no such stage";
  return timeline.stages.front();
}

Time due_at(const Timeline& timeline, Act act) {
  for (const ToDo& one : timeline.to_do) {
    if (one.act == act) return one.at.p50.value_or(Time{});
  }
  ADD_FAILURE() << "no such act";
  return {};
}

TEST(Timeline, ReadyIsTheEndOfTheBulkAlsoBehindTheCold) {
  const Forecast forecast =
      foreseen_in(std::string(twelve_in_the_cold) + until_doubled + divide_to_proof);
  const Timeline& timeline = forecast.timeline;
  const StageTimes& in_bulk = stage_of(timeline, Step::bulk);
  EXPECT_NEAR(in_bulk.begin.p50->in(hour), 12, 1e-9);
  EXPECT_EQ(forecast.ready.p50, in_bulk.end.p50);
  EXPECT_EQ(forecast.ready.p90, in_bulk.end.p90);
  EXPECT_GT(*forecast.ready.p10, 14.0 * hour);
  EXPECT_EQ(due_at(timeline, Act::divide), *forecast.ready.p50);
  EXPECT_NEAR(due_at(timeline, Act::fold).in(hour), 13, 1e-9);  // not in the fridge
  EXPECT_NEAR((*timeline.oven.p50 - *forecast.ready.p50).in(hour), 2, 1e-6);
}

TEST(Timeline, TheColdSlowsEveryDrawAndCostsItMoreThanItsOwnHours) {
  const Forecast warm = foreseen_in(std::string(until_doubled) + divide_to_proof);
  const Forecast after =
      foreseen_in(std::string(twelve_in_the_cold) + until_doubled + divide_to_proof);
  EXPECT_GT(*after.ready.p10, *warm.ready.p10 + 6.0 * hour);
  EXPECT_LT(*after.ready.p50, *warm.ready.p50 + 14.0 * hour);
}

TEST(Timeline, TheJarAndWhatIsInTheWayNameTheSameHour) {
  for (const std::string& stages :
       {std::string(until_doubled) + divide_to_proof,
        std::string(twelve_in_the_cold) + until_doubled + divide_to_proof}) {
    const formula::Bake bake = timed_bake(stages);
    const Options options{.draws = 60};
    Made made;
    const auto forecast = foresee(bake, options, made);
    const auto marks = jar_marks(bake, formula::Jar{}, options);
    const auto way = in_the_way(bake, options, std::nullopt, made);
    ASSERT_THAT(forecast, test::Holds());
    ASSERT_THAT(marks, test::Holds());
    ASSERT_THAT(way, test::Holds());
    EXPECT_NEAR(marks->ready.p50->in(second), forecast->ready.p50->in(second), 30);
    EXPECT_NEAR(way->as_it_is->in(second), forecast->ready.p50->in(second), 30);
    double sum = way->bare->in(hour);
    for (const Hindrance& hindrance : way->hindrances) sum += hindrance.costs.in(hour);
    EXPECT_NEAR(sum, way->as_it_is->in(hour), 1e-6);
  }
}

TEST(Timeline, NotInTimeMeansTheSameWhereverItIsSaid) {
  Options options{.draws = 60};
  options.temperature = Temperature::from_celsius(10);
  options.horizon = 30.0 * hour;
  const formula::Bake bake = timed_bake(std::string(until_doubled) + divide_to_proof);
  Made made;
  const auto forecast = foresee(bake, options, made);
  const auto way = in_the_way(bake, options, std::nullopt, made);
  ASSERT_THAT(forecast, test::Holds());
  ASSERT_THAT(way, test::Holds());
  EXPECT_FALSE(forecast->ready.p50);
  EXPECT_FALSE(way->as_it_is);
  EXPECT_TRUE(way->at_least);
}

TEST(Timeline, WhatWasTickedOffEndedThenInEveryDraw) {
  Options options{.draws = 60};
  options.done = {{2, 7.0 * hour}};  // divided
  const Forecast forecast = foreseen_in(std::string(until_doubled) + divide_to_proof, options);
  EXPECT_NEAR(forecast.ready.p05->in(hour), 7, 1e-9);
  EXPECT_NEAR(forecast.ready.p95->in(hour), 7, 1e-9);
  const StageTimes& in_bulk = stage_of(forecast.timeline, Step::bulk);
  EXPECT_LT(in_bulk.rise.p10, in_bulk.rise.p90);  // what differs is how far it came
  const ToDo* next = forecast.timeline.next(7.1 * hour);
  ASSERT_NE(next, nullptr);
  EXPECT_EQ(next->act, Act::shape);
  EXPECT_NEAR(forecast.timeline.oven.p50->in(hour), 9, 1e-6);
}

TEST(Timeline, ABulkThatIsGivenATimeEndsByItAndSaysHowFarItIs) {
  const Forecast forecast =
      foreseen_in("[[stage]]\ndo = \"bulk\"\nfor = \"4 h\"\n" + std::string(divide_to_proof));
  EXPECT_NEAR(forecast.ready.p10->in(hour), 4, 1e-9);
  EXPECT_NEAR(forecast.ready.p90->in(hour), 4, 1e-9);
  const StageTimes& in_bulk = stage_of(forecast.timeline, Step::bulk);
  EXPECT_LT(in_bulk.rise.p50, 2);
  EXPECT_LT(in_bulk.rise.p10, in_bulk.rise.p90);
}

TEST(Timeline, ABakeWithoutABulkHasOneBeforeItIsDivided) {
  const Forecast forecast = foreseen_in(divide_to_proof);
  EXPECT_EQ(forecast.timeline.stages.front().step, Step::bulk);
  EXPECT_FALSE(forecast.timeline.stages.front().in_file);
  EXPECT_EQ(due_at(forecast.timeline, Act::divide), *forecast.ready.p50);
}

TEST(Timeline, ATargetMovesReadyAndTheStagesAlike) {
  Options options{.draws = 60};
  options.target = 1.5;
  const Forecast forecast = foreseen_in(std::string(until_doubled) + divide_to_proof, options);
  EXPECT_NEAR(stage_of(forecast.timeline, Step::bulk).rise.p50, 1.5, 0.01);
  EXPECT_EQ(stage_of(forecast.timeline, Step::bulk).end.p50, forecast.ready.p50);
}

// One draw by itself goes the way that it goes among the others.
TEST(Timeline, ADrawGoesAsItGoesAlone) {
  const formula::Bake bake =
      timed_bake(std::string(twelve_in_the_cold) + until_doubled + divide_to_proof);
  Options options{.draws = 12};
  const auto forecast = foresee(bake, options);
  ASSERT_THAT(forecast, test::Holds());
  const auto middle = draw(bake, options.seed, -1);
  Proving proving = proving_of(bake, options);
  const auto warmth = Warmth::of(bake, *middle, proving);
  ASSERT_THAT(warmth, test::Holds());
  for (int i = 0; i < options.draws; ++i) {
    const auto one = draw(bake, options.seed, i);
    proving.track = warmth->bulk(one->transfer_luck);
    const auto stops = journey(bake, *one, proving);
    ASSERT_THAT(stops, test::Holds());
    const double ready = forecast->timeline.ready_hours[static_cast<std::size_t>(i)];
    if (!std::isfinite(ready)) continue;
    ASSERT_GE(stops->size(), 2U);
    EXPECT_NEAR((*stops)[1].end.in(second), 3600 * ready, 60) << i;
    EXPECT_NEAR(stops->back().end.in(hour),
                forecast->timeline.oven_hours[static_cast<std::size_t>(i)],
                0.02);
  }
}

}  // namespace

}  // namespace barm::forecast
