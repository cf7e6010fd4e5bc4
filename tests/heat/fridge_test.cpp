#include "heat/fridge.h"

#include <gtest/gtest.h>

#include <cmath>

#include "support/matchers.h"
#include "units/units.h"

namespace barm::heat {

namespace {

using ::barm::test::FailsWith;
using ::barm::test::Holds;

Load load_of(int pieces) {
  const Makeup makeup{.water = 0.45,
                      .protein = 0.07,
                      .fat = 0.01,
                      .carbohydrate = 0.43,
                      .fibre = 0.02,
                      .ash = 0.02};
  Load load;
  load.body.material = material(makeup, Temperature::from_celsius(14), 0.25);
  load.each = 0.75 * kilogram;
  load.body.shape = loaf(load.each / load.body.material.density, 0.5);
  load.body.transfer = 4.7;
  load.pieces = pieces;
  return load;
}

// A baker's probe record of two pieces of 0.75 kg in a household's fridge: 20 C after 1 h, 15 after
// 2.75, 10 after 4, 5 after 7 h, the air settling at 4 C.
TEST(Chill, AgreesWithTheRecordOfAFridge) {
  Fridge fridge = usual_fridge();
  fridge.power = 300;
  const auto course = chill(fridge, load_of(2), 7.0 * hour);
  const auto at = [&](double hours) {
    return course[static_cast<std::size_t>(std::lround(hours / 0.05))].middle;
  };
  EXPECT_NEAR(at(1), 20, 3);
  EXPECT_NEAR(at(2.75), 15, 2);
  EXPECT_NEAR(at(4), 10, 2);
  EXPECT_NEAR(at(7), 5, 2);
}

TEST(Chill, KeepsHeat) {
  Fridge shut = usual_fridge();
  shut.power = 0;
  const Load load = load_of(4);
  const auto course = chill(shut, load, 30.0 * hour);
  const double doughs = 4 * load.each.si() * load.body.material.capacity.si();
  const double before = doughs * load.start.celsius() + shut.capacity * shut.set.celsius();
  const double after = doughs * course.back().mean + shut.capacity * course.back().air;
  EXPECT_NEAR(after / before, 1, 2e-3);
  EXPECT_NEAR(course.back().mean, course.back().air, 1);
}

TEST(Chill, ALargerLoadWarmsTheAirMoreAndLonger) {
  const auto few = chill(usual_fridge(), load_of(2), 6.0 * hour);
  const auto many = chill(usual_fridge(), load_of(100), 6.0 * hour);
  EXPECT_GT(many[20].air, few[20].air + 3);
  EXPECT_GT(many.back().middle, few.back().middle + 2);
}

TEST(MostAtOnce, IsTheLastThatStillComesCold) {
  const int most =
      most_at_once(usual_fridge(), load_of(1), Temperature::from_celsius(12), 4.0 * hour, 100);
  ASSERT_GT(most, 0);
  ASSERT_LT(most, 100);
  EXPECT_LE(chill(usual_fridge(), load_of(most), 4.0 * hour).back().middle, 12);
  EXPECT_GT(chill(usual_fridge(), load_of(most + 1), 4.0 * hour).back().middle, 12);
}

TEST(LearnFridge, FindsAFridgeByItsAir) {
  Fridge real;
  real.set = Temperature::from_celsius(3);
  real.power = 70;
  real.capacity = 35e3;
  const Load load = load_of(6);
  std::vector<ProbeReading> air;
  for (const Chilled& one : chill(real, load, 5.0 * hour)) {
    if (air.empty() || one.hours * hour - air.back().at >= 600.0 * second)
      air.push_back({one.hours * hour, Temperature::from_celsius(one.air)});
  }
  const auto learned = learn_fridge(air, load);
  ASSERT_THAT(learned, Holds());
  EXPECT_LT(learned->air_off, 0.5);
  const auto held_out = chill(learned->fridge, load_of(3), 5.0 * hour);
  const auto truth = chill(real, load_of(3), 5.0 * hour);
  for (std::size_t i = 0; i < truth.size(); i += 10)
    EXPECT_NEAR(held_out[i].middle, truth[i].middle, 1) << truth[i].hours;
  EXPECT_THAT(learn_fridge({air.begin(), air.begin() + 3}, load), FailsWith(ErrorCode::bad_input));
}

// A door that stands open every other half hour: no fridge has such an air.
TEST(LearnFridge, BelievesAFileNoFurtherThanItFits) {
  const Load load = load_of(6);
  std::vector<ProbeReading> steady, doors;
  for (const Chilled& one : chill(usual_fridge(), load, 5.0 * hour)) {
    const bool open = std::fmod(one.hours, 1.0) > 0.5;
    steady.push_back({one.hours * hour, Temperature::from_celsius(one.air + 3)});
    doors.push_back({one.hours * hour, Temperature::from_celsius(one.air + (open ? 9 : -3))});
  }
  const auto warm = learn_fridge(steady, load);
  const auto poor = learn_fridge(doors, load);
  ASSERT_THAT(warm, Holds());
  ASSERT_THAT(poor, Holds());
  EXPECT_LT(warm->air_off, poor_air);
  EXPECT_GT(poor->air_off, poor_air);
  // On the mean both are as much warmer; only the steady one is taken at its word.
  const double usual = usual_fridge().set.celsius();
  EXPECT_GT(warm->fridge.set.celsius(), usual + 2);
  EXPECT_LT(poor->fridge.set.celsius(), warm->fridge.set.celsius());
}

}  // namespace

}  // namespace barm::heat
