// The jar beside the dough: where its marks stand.
#include "forecast/jar.h"

#include <gtest/gtest.h>

#include <cmath>
#include <numbers>

#include "forecast/bodies.h"
#include "formula/read.h"
#include "support/matchers.h"

namespace barm::forecast {

namespace {

formula::Bake baked(const std::string& stages) {
  const auto bake = formula::parse_bake(R"(flour = "6 kg"
[bowl]
"white bread flour" = "100 %"
water = "70 %"
"stiff ripe levain" = "20 %"
salt = "2 %"
)" + stages,
                                        "j.toml");
  EXPECT_THAT(bake, test::Holds());
  return *bake;
}

const std::string kept = "[[stage]]\ndo = \"bulk\"\ntemperature = \"24 C\"\n";
const std::string cooling =
    "[[stage]]\ndo = \"mix\"\ntemperature = \"28 C\"\n"
    "[[stage]]\ndo = \"bulk\"\ntemperature = \"18 C\"\nvessel = \"tub\"\n";

JarMarks marks_of(const formula::Bake& bake,
                  const formula::Jar& jar,
                  const kinetics::JointPrior& prior = kinetics::day_one()) {
  Options options;
  options.draws = 60;
  options.prior = &prior;
  const auto marks = jar_marks(bake, jar, options);
  EXPECT_THAT(marks, test::Holds());
  return *marks;
}

// 60 g of dough of 1.27 g/mL with 8 % air: 51.35 mL; in 70 mm, 13.34 mm.
TEST(Jar, TheStartMarkIsTheDoughsVolumeOverTheJarsFloor) {
  formula::Jar jar;
  const JarMarks marks = marks_of(baked(kept), jar);
  const double litres = 0.060 / 1.27 / 0.92;
  const double floor = std::numbers::pi / 4 * 0.070 * 0.070;
  EXPECT_NEAR(marks.start.in(millimetre), litres / 1000 / floor * 1000, 1e-6);
}

TEST(Jar, OfTheSameWarmthReadsTheBulksTarget) {
  formula::Jar jar;
  jar.dough = 300.0 * gram;
  const JarMarks marks = marks_of(baked(kept), jar);
  EXPECT_NEAR(marks.ratio.p50, 2, 0.1);
}

TEST(Jar, RunsBehindWhenItCoolsSooner) {
  const JarMarks marks = marks_of(baked(cooling), formula::Jar{});
  EXPECT_LT(marks.sample_at_ready.celsius(), marks.bulk_at_ready.celsius() - 1.5);
  EXPECT_LT(marks.ratio.p50, 1.8);
  EXPECT_LT(marks.ratio.p10, marks.ratio.p90);
}

TEST(Jar, RunsAheadInAWarmerPlace) {
  formula::Jar jar;
  jar.temperature = Temperature::from_celsius(30);
  const JarMarks marks = marks_of(baked(kept), jar);
  EXPECT_GT(marks.sample_at_ready.celsius(), marks.bulk_at_ready.celsius() + 4);
  EXPECT_GT(marks.ratio.p50, 2.2);
}

// Twice the dough stands twice as high, and a millimetre is worth half the minutes: nearly so where
// no gas leaves through the surface, for the larger sample only keeps its own warmth somewhat
// better, and less than half where it does, for the lower sample loses more of its gas.
TEST(Jar, MoreDoughReadsFiner) {
  formula::Jar little;
  formula::Jar much;
  much.dough = 2 * little.dough;
  kinetics::JointPrior tight = kinetics::day_one();
  const auto leak = static_cast<std::size_t>(kinetics::Parameter::surface_leak);
  tight.centre[leak] = -20;  // in ln
  const auto finer = [&](const kinetics::JointPrior& prior) {
    const JarMarks coarse = marks_of(baked(kept), little, prior);
    const JarMarks fine = marks_of(baked(kept), much, prior);
    EXPECT_NEAR(fine.start / coarse.start, 2, 1e-9);
    EXPECT_GT(fine.sample_at_ready, coarse.sample_at_ready);
    return coarse.minutes_per_mm.p50 / fine.minutes_per_mm.p50;
  };
  const double without_leak = finer(tight);
  EXPECT_NEAR(without_leak, 2, 0.05);
  EXPECT_GT(finer(kinetics::day_one()), without_leak);
}

// The heights that a baker reads at two times around the ready mark, from the typical dough alone.
TEST(Jar, AMillimetreIsWorthTheMinutesThatTheCurveSays) {
  const formula::Bake bake = baked(kept);
  const JarMarks marks = marks_of(bake, formula::Jar{});
  const auto book = draw(bake, 1, -1);
  Proving proving = proving_of(bake, {});
  proving.surface = surface_of(marks.start * 1.5);
  const auto course = run(book->dough, book->parameters, proving);
  ASSERT_TRUE(course && course->ready);
  const auto at = static_cast<std::size_t>(course->ready->in(hour) / 0.25);
  const double mm =
      marks.start.in(millimetre) * (course->curve[at + 1].rise - course->curve[at].rise);
  EXPECT_NEAR(15 / mm, marks.minutes_per_mm.p50, 0.35 * marks.minutes_per_mm.p50);
}

TEST(Jar, ADoughThatNeverGetsThereHasNoMark) {
  const formula::Bake bake = baked("[[stage]]\ndo = \"bulk\"\ntemperature = \"2 C\"\n");
  Options options;
  options.draws = 30;
  const auto marks = jar_marks(bake, {}, options);
  ASSERT_FALSE(marks);
  EXPECT_EQ(marks.error().code, ErrorCode::cannot_be_met);
}

TEST(Jar, WhatSuitsItLeavesRoomBelowTheShoulder) {
  formula::Jar jar;
  jar.height = 140.0 * millimetre;
  const Mass suits = suitable_dough(jar, 2);
  const Length start = heat::height_in(volume_at_mixing(suits), jar.diameter);
  EXPECT_LE(start * 2.5, 140.0 * millimetre * 0.85);
  EXPECT_GT(start * 2.5, 140.0 * millimetre * 0.80);
}

}  // namespace

}  // namespace barm::forecast
