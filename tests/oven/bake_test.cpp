#include "oven/bake.h"

#include <gtest/gtest.h>

#include "oven/loaves.h"
#include "support/matchers.h"

namespace barm::oven {

namespace {

using ::barm::test::FailsWith;
using ::barm::test::Holds;

const Minute& end_of(const Baked& baked) { return baked.course.back(); }

// From 30 C: 1.16 at 50, 1.31 at 60, 1.57 at 70, 2.09 at 80 C, worked out from Antoine's pressures.
TEST(Swells, AsGasAndItsVapourDo) {
  EXPECT_NEAR(swells(30, 50), 1.16, 0.01);
  EXPECT_NEAR(swells(30, 60), 1.31, 0.01);
  EXPECT_NEAR(swells(30, 70), 1.57, 0.01);
  EXPECT_NEAR(swells(30, 80), 2.09, 0.02);
}

TEST(Baked, KeepsHeatAndWaterAndNeverLeavesItsLimits) {
  for (const Form form : {Form::round, Form::stick, Form::tin, Form::flat}) {
    Loaf loaf = usual_loaf();
    loaf.form = form;
    Oven oven = oven_at(230);
    oven.steam = 8.0 * minute;
    oven.fan = form == Form::stick;
    const Baked baked = bake(loaf, oven, 35.0 * minute);
    EXPECT_LT(baked.heat_missing, 1e-6) << name(form);
    EXPECT_LT(baked.water_missing, 1e-6) << name(form);
    double before = 0;
    for (const Minute& minute : baked.course) {
      EXPECT_GE(minute.core, 23.9);
      EXPECT_LE(minute.core, 101.01);
      EXPECT_LE(minute.surface, 231);
      EXPECT_GE(minute.core, before - 1e-6);
      before = minute.core;
      EXPECT_GE(minute.alcohol, 0);
      EXPECT_LE(minute.alcohol, 1 + 1e-12);
    }
    EXPECT_GT(end_of(baked).loss, 0.06) << name(form);
    EXPECT_LT(end_of(baked).loss, 0.35) << name(form);
  }
}

TEST(Baked, IsWithinHalfAKelvinOfAFinerOne) {
  const Baked usual = bake(usual_loaf(), oven_at(230), 45.0 * minute);
  Method finer;
  finer.mesh.layers = 120;
  finer.step = 1;
  const Baked fine = bake(usual_loaf(), oven_at(230), 45.0 * minute, {}, finer);
  EXPECT_NEAR(end_of(usual).core, end_of(fine).core, 0.5);
  EXPECT_NEAR(end_of(usual).loss, end_of(fine).loss, 0.002);
}

TEST(Baked, AnswersAsABakerKnows) {
  const auto at = [](const Oven& oven, double minutes) {
    return end_of(bake(usual_loaf(), oven, minutes * minute));
  };
  const Minute plain = at(oven_at(230), 30);
  EXPECT_GT(at(oven_at(250), 30).core, plain.core);
  EXPECT_GT(at(oven_at(230), 40).colour, plain.colour);
  Oven steamed = oven_at(230);
  steamed.steam = 10.0 * minute;
  EXPECT_GT(at(steamed, 30).rise, plain.rise);
  Oven covered = oven_at(230);
  covered.lid = 20.0 * minute;
  EXPECT_LT(at(covered, 30).colour, plain.colour);
  EXPECT_LT(at(covered, 30).loss, plain.loss);
  Oven stone = oven_at(230);
  stone.on_stone = 0.3;
  EXPECT_GT(at(stone, 30).core, plain.core);
  Oven fan = oven_at(230);
  fan.fan = true;
  EXPECT_GT(at(fan, 30).core, plain.core);
  Oven falling = oven_at(250);
  falling.set.push_back({15.0 * minute, Temperature::from_celsius(200)});
  EXPECT_LT(at(falling, 30).surface, at(oven_at(250), 30).surface);
  Oven full = oven_at(230);
  full.holds = full.loaves = 8;
  EXPECT_LT(at(full, 30).core, plain.core);
  Oven weak = oven_at(230);
  weak.power = 1000.0 * watt;
  weak.loaves = 4;
  EXPECT_LT(at(weak, 30).air, 225);
}

TEST(Baked, SpringsNoFurtherThanTheDoughCan) {
  Loaf ripe = usual_loaf();
  ripe.room = 0.05;
  EXPECT_NEAR(end_of(bake(ripe, oven_at(230), 30.0 * minute)).rise, 1.05, 1e-9);
}

// Practice: a roll of 90 g takes 15 to 25 min, a loaf of 900 g 35 to 50 min at 220 to 230 C. Common
// practice, no source.
TEST(Baked, IsThroughAfterAsLongAsBakersBake) {
  Loaf roll = usual_loaf();
  roll.mass = 90.0 * gram;
  const auto of_a_roll = baked_through(roll, oven_at(220));
  const auto of_a_loaf = baked_through(usual_loaf(), oven_at(230));
  ASSERT_TRUE(of_a_roll && of_a_loaf);
  EXPECT_GT(*of_a_roll, 8.0 * minute);
  EXPECT_LT(*of_a_roll, 25.0 * minute);
  EXPECT_GT(*of_a_loaf, 30.0 * minute);
  EXPECT_LT(*of_a_loaf, 50.0 * minute);
  const auto at_end = end_of(bake(usual_loaf(), oven_at(230), *of_a_loaf));
  EXPECT_NEAR(at_end.core, done_core().celsius(), 1);
  Loaf huge = usual_loaf();
  huge.mass = 8.0 * kilogram;
  EXPECT_FALSE(baked_through(huge, oven_at(100)));
}

TEST(Cooled, FallsToTheRoomAndSaysWhenToCutAndToBag) {
  const Baked baked = bake(usual_loaf(), oven_at(230), 40.0 * minute);
  const Cooled cooled = cool(usual_loaf(), baked, Temperature::from_celsius(22), 10.0 * hour);
  ASSERT_TRUE(cooled.cut && cooled.bag);
  EXPECT_GT(*cooled.cut, 30.0 * minute);
  EXPECT_LT(*cooled.cut, 3.0 * hour);
  EXPECT_GT(*cooled.bag, *cooled.cut);
  EXPECT_GT(cooled.loss, 0.002);
  EXPECT_LT(cooled.loss, 0.06);
  for (const Minute& minute : cooled.course) EXPECT_GT(minute.core, 20);
}

TEST(Check, SaysInOneErrorWhatCannotBe) {
  const Time lasts = 30.0 * minute;
  EXPECT_THAT(check(usual_loaf(), oven_at(230), lasts), Holds());
  EXPECT_THAT(check(usual_loaf(), oven_at(900), lasts), FailsWith(ErrorCode::bad_input));
  Loaf nothing = usual_loaf();
  nothing.mass = {};
  EXPECT_THAT(check(nothing, oven_at(230), lasts), FailsWith(ErrorCode::bad_input));
  Oven full = oven_at(230);
  full.holds = 4;
  full.loaves = 5;
  EXPECT_THAT(check(usual_loaf(), full, lasts), FailsWith(ErrorCode::bad_input));
  full.holds.reset();
  full.loaves = 500;
  EXPECT_THAT(check(usual_loaf(), full, lasts), FailsWith(ErrorCode::bad_input));
  EXPECT_THAT(check(usual_loaf(), oven_at(230), Time{}), FailsWith(ErrorCode::bad_input));
  Oven steamed = oven_at(230);
  steamed.steam = 31.0 * minute;
  EXPECT_THAT(check(usual_loaf(), steamed, lasts), FailsWith(ErrorCode::bad_input));
}

}  // namespace

}  // namespace barm::oven
