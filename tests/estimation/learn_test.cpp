#include "estimation/learn.h"

#include <gmock/gmock.h>

#include <cmath>

#include "estimation/outlook.h"
#include "estimation/own_doughs.h"
#include "forecast/ensemble.h"
#include "formula/read.h"
#include "numerics/quantiles.h"
#include "support/matchers.h"

namespace barm::estimation {
namespace {

using test::Holds;

double width(const forecast::Spread& spread) {
  return (spread.p90.value_or(72.0 * hour) - spread.p10.value_or(72.0 * hour)).in(hour);
}

TEST(Learn, WithoutReadingsKeepsTheBelief) {
  const DoughToRead batch = plain();
  const auto learned = learn(batch, {});
  ASSERT_THAT(learned, Holds());
  EXPECT_EQ(learned->method, Method::prior);
  for (const Taught& taught : learned->parameters) {
    EXPECT_NEAR(taught.after / taught.before, 1, 0.1) << taught.name;
    EXPECT_NEAR(taught.shift / taught.before, 0, 0.1) << taught.name;
  }
}

// Eight readings of the middle dough: its time to double is 10.6 h by published figures.
TEST(Learn, NarrowsTheTimeToReadyAroundTheTruth) {
  const DoughToRead batch = plain();
  const std::vector<double> z(batch.dimension(), 0.0);
  const double eight_hours[] = {1, 2, 3, 4, 5, 6, 7, 8};
  const auto readings = simulated(batch, z, eight_hours, 40.0 * millimetre);
  ASSERT_THAT(readings, Holds());
  const auto before = outlook(batch, {}, *learn(batch, {}));
  const auto learned = learn(batch, *readings);
  ASSERT_THAT(learned, Holds());
  const auto after = outlook(batch, *readings, *learned);
  ASSERT_THAT(before, Holds());
  ASSERT_THAT(after, Holds());
  EXPECT_LT(width(after->ready), 0.6 * width(before->ready));
  EXPECT_LT(learned->k_hat, 0.7);
  EXPECT_GT(learned->effective, 200);
  const auto truth = forecast::run(test::plain_dough(), kinetics::book(), bulk());
  EXPECT_GT(*truth->ready, *after->ready.p10);
  EXPECT_LT(*truth->ready, *after->ready.p90);
}

// Doughs drawn from the belief itself: the range of 4 of 5 holds the truth in 4 of 5 cases. Of 40,
// fewer than 24 or all 40 would be seen but once in a thousand runs. A range half as wide as it
// should be holds about 19. Four hundred: learn_long_test.cpp.
TEST(Learn, CoversItsOwnDoughs) {
  const int held = held_of_own_doughs(40, 300);
  EXPECT_GE(held, 24);
  EXPECT_LE(held, 39);
}

// The estimator by walkers is another method altogether: quantiles must agree.
TEST(Learn, AgreesWithAnEnsembleOfWalkers) {
  const DoughToRead batch = plain();
  const auto readings = simulated(batch, unknowns(batch, 3), six_hours, 40.0 * millimetre);
  const auto quick = learn(batch, *readings, {.draws = 4000});
  ASSERT_THAT(quick, Holds());
  LearnOptions slow{.draws = 4000};
  slow.least_effective = 1e9;  // never enough: the walkers take over
  const auto walked = learn(batch, *readings, slow);
  ASSERT_THAT(walked, Holds());
  EXPECT_EQ(walked->method, Method::ensemble);
  const auto a = outlook(batch, *readings, *quick);
  const auto b = outlook(batch, *readings, *walked);
  for (const auto part : {&forecast::Spread::p10, &forecast::Spread::p50, &forecast::Spread::p90}) {
    ASSERT_TRUE((a->ready.*part).has_value() && (b->ready.*part).has_value());
    EXPECT_NEAR((a->ready.*part)->in(hour), (b->ready.*part)->in(hour), 0.1 * width(a->ready));
  }
}

TEST(Learn, GivesTheSameAnswerWhateverTheThreads) {
  const DoughToRead batch = plain();
  const auto readings = simulated(batch, unknowns(batch, 5), six_hours, 40.0 * millimetre);
  const auto one = learn(batch, *readings, {.draws = 500, .threads = 1});
  const auto two = learn(batch, *readings, {.draws = 500, .threads = 2});
  EXPECT_EQ(one->z, two->z);
  EXPECT_EQ(one->weight, two->weight);
}

TEST(Learn, StopsWhenTold) {
  const DoughToRead batch = plain();
  const auto readings = simulated(batch, unknowns(batch, 6), six_hours, 40.0 * millimetre);
  const auto learned = learn(batch, *readings, {.cancelled = [] { return true; }});
  EXPECT_THAT(learned, test::FailsWith(ErrorCode::cancelled));
}

// A normal belief about everything a bake leaves open must foresee as the forecast's own draws do.
TEST(Prepare, ForeseesAsTheForecastDoes) {
  const auto bake = formula::read_bake(BARM_ROOT "/examples/mead-loaf.toml");
  ASSERT_THAT(bake, Holds());
  forecast::Options options;
  options.draws = 2000;
  const auto drawn = forecast::foresee(*bake, options);
  auto batch = prepare(*bake, day_one_belief(), forecast::proving_of(*bake, options));
  ASSERT_THAT(batch, Holds());
  batch->pace.doubt = 1e-6;
  const auto belief = outlook(*batch, {}, *learn(*batch, {}));
  for (const auto part : {&forecast::Spread::p10, &forecast::Spread::p50, &forecast::Spread::p90}) {
    ASSERT_TRUE((belief->ready.*part).has_value() && (drawn->ready.*part).has_value());
    EXPECT_NEAR((belief->ready.*part)->in(hour) / (drawn->ready.*part)->in(hour), 1, 0.12);
  }
  EXPECT_NEAR(belief->never.value(), drawn->never.value(), 0.05);
}

}  // namespace
}  // namespace barm::estimation
