// The factor method and the ice balance against printed worked examples
// (tests/truth/data/worked_examples.csv).
#include "formula/water_temperature.h"

#include <fmt/format.h>
#include <gtest/gtest.h>

#include "generated/constants.h"
#include "heat/mixer.h"
#include "support/matchers.h"
#include "support/validation.h"

namespace barm::formula {

namespace {

TemperatureDifference fahrenheit_steps(double steps) { return steps / 1.8 * kelvin; }

double water_in_fahrenheit(double dough, double flour, double room, double friction) {
  // A friction given as a part of the sum of three readings: a difference, no point on the scale.
  const auto water = water_temperature({.dough = Temperature::from_fahrenheit(dough),
                                        .flour = Temperature::from_fahrenheit(flour),
                                        .room = Temperature::from_fahrenheit(room),
                                        .levain = std::nullopt,
                                        .friction = fahrenheit_steps(friction)});
  EXPECT_THAT(water, test::Holds());
  return water->fahrenheit();
}

TEST(WaterTemperature, MeetsThePrintedExamples) {
  struct Row {
    const char* id;
    const char* source;
    double dough, flour, room, friction, published;
  };

  const Row rows[] = {
      {"DT1", "A Treatise on Baking, The Temperature of the Bread Dough", 78, 67, 85, 0, 82},
      {"DT2", "A Treatise on Baking, The Temperature of the Bread Dough", 78, 62, 72, 0, 100},
      {"DT3", "article quoted in a bakers' forum", 78, 60, 70, 16, 88},
  };
  for (const Row& row : rows) {
    const double ours = water_in_fahrenheit(row.dough, row.flour, row.room, row.friction);
    EXPECT_NEAR(ours, row.published, 1e-9) << row.id;
    test::record("worked examples",
                 fmt::format("{} water temperature", row.id),
                 row.source,
                 fmt::format("{}", row.published),
                 ours,
                 "°F",
                 std::abs(ours - row.published) < 1e-9);
  }
}

// DT3 counts 2 °F a minute in a sum of three: a dough that gains a third of 16 °F in 8 min. By the
// balance of heat it is what our usual mixer gives a dough of 2.9 kJ/(kg K), within its doubt.
TEST(WaterTemperature, TheUsualMixerWarmsADoughAsThePrintedExampleCounts) {
  const std::vector<heat::Poured> dough{
      {"dough", 1.0 * kilogram, heat::HeatCapacity::from_si(2900), Temperature::from_celsius(22)}};
  const heat::Mixer usual{
      constants::mixer::friction.value, 8.0 * minute, 0, Temperature::from_celsius(22)};
  const double ours = heat::mixed(dough, {}, {}, usual).by_friction.in(kelvin) * 1.8;
  const double published = 16.0 / 3;
  EXPECT_NEAR(ours, published, 1);
  test::record("worked examples",
               "DT3 what the mixer adds to the dough",
               "article quoted in a bakers' forum",
               fmt::format("{:.1f}", published),
               ours,
               "°F",
               std::abs(ours - published) < 1);
}

TEST(WaterTemperature, CountsTheLevainAsAFourth) {
  const auto water = water_temperature({.dough = Temperature::from_celsius(24),
                                        .flour = Temperature::from_celsius(20),
                                        .room = Temperature::from_celsius(22),
                                        .levain = Temperature::from_celsius(26),
                                        .friction = 4.0 * kelvin});
  ASSERT_THAT(water, test::Holds());
  EXPECT_NEAR(water->celsius(), 24, 1e-9);
}

TEST(WaterTemperature, SaysWhenNoWaterWillDo) {
  const auto with_flour = [](double celsius) {
    return water_temperature({.dough = Temperature::from_celsius(24),
                              .flour = Temperature::from_celsius(celsius),
                              .room = Temperature::from_celsius(celsius),
                              .levain = std::nullopt,
                              .friction = {}});
  };
  EXPECT_THAT(with_flour(45), test::FailsWith(ErrorCode::cannot_be_met));
  EXPECT_THAT(with_flour(2), test::FailsWith(ErrorCode::cannot_be_met));
}

TEST(Ice, MeetsThePrintedTableAndTheEnergyBalance) {
  struct Row {
    const char* id;
    double tap, wanted, published;
  };

  // A printed ice table in degrees Fahrenheit: pounds of ice in a pound of water, to three digits.
  const Row rows[] = {{"IC1", 60, 50, 0.057},
                      {"IC2", 60, 40, 0.115},
                      {"IC3", 70, 40, 0.163},
                      {"IC4", 80, 40, 0.206}};
  for (const Row& row : rows) {
    const auto mass = ice(1.0 * kilogram,
                          Temperature::from_fahrenheit(row.tap),
                          Temperature::from_fahrenheit(row.wanted));
    ASSERT_THAT(mass, test::Holds());
    const double ours = mass->in(kilogram);
    EXPECT_NEAR(ours, row.published, 0.003)
        << row.id;  // the table's own rounding of 144 BTU and of the share
    test::record("worked examples",
                 fmt::format("{} share of ice", row.id),
                 "ice table of an equipment maker",
                 fmt::format("{}", row.published),
                 ours,
                 "lb/lb",
                 std::abs(ours - row.published) <= 0.003);
  }
  // IC5: 40 kg from 20 to 10 C takes 4.00 kg by the energy balance; the printed 4.4 kg breaks it.
  const auto metric =
      ice(40.0 * kilogram, Temperature::from_celsius(20), Temperature::from_celsius(10));
  EXPECT_NEAR(metric->in(kilogram), 4.00, 0.02);
}

}  // namespace

}  // namespace barm::formula
