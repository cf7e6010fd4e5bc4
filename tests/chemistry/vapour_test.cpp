#include "chemistry/vapour.h"

#include <gtest/gtest.h>

#include "chemistry/gas.h"
#include "support/matchers.h"
#include "support/printers.h"
#include "units/units.h"

namespace barm::chemistry {

namespace {

using test::FailsWith;
using test::Holds;

constexpr auto sea_level = 101325 * pascal;

TEST(BoilingPoint, RefusesWhatTheFitDoesNotCover) {
  EXPECT_THAT(boiling_point(MoleFraction(-0.1), sea_level), FailsWith(ErrorCode::bad_input));
  EXPECT_THAT(boiling_point(MoleFraction(1.1), sea_level), FailsWith(ErrorCode::bad_input));
  EXPECT_THAT(boiling_point(MoleFraction(0.1), 49e3 * pascal), FailsWith(ErrorCode::bad_input));
  EXPECT_THAT(boiling_point(MoleFraction(0.1), 111e3 * pascal), FailsWith(ErrorCode::bad_input));
}

TEST(BoilingPoint, OfPureLiquidsGivesPureVapour) {
  const auto water = boiling_point(MoleFraction(0), sea_level);
  const auto ethanol = boiling_point(MoleFraction(1), sea_level);
  ASSERT_THAT(water, Holds());
  ASSERT_THAT(ethanol, Holds());
  EXPECT_NEAR(water->temperature.celsius(), 100, 0.1);
  EXPECT_EQ(water->vapour, MoleFraction(0));
  EXPECT_NEAR(ethanol->temperature.celsius(), 78.29, 0.1);
  EXPECT_NEAR(ethanol->vapour.value(), 1, 1e-9);
}

TEST(BoilingPoint, FallsWithPressure) {
  const auto high_up = boiling_point(MoleFraction(0.05), 60e3 * pascal);
  const auto sea = boiling_point(MoleFraction(0.05), sea_level);
  ASSERT_THAT(high_up, Holds());
  EXPECT_LT(high_up->temperature, sea->temperature);
}

TEST(BoilingPoint, DrinksGiveOffVapourRicherThanThemselves) {
  for (double x = 0.01; x < 0.85; x += 0.02) {
    EXPECT_GT(boiling_point(MoleFraction(x), sea_level).value().vapour.value(), x) << x;
  }
}

// 40 % vol is 33.3 % mass: 0.333/46.07 / (0.333/46.07 + 0.667/18.02) = 0.163.
TEST(MoleFraction, OfASpirit) {
  EXPECT_NEAR(mole_fraction(MassFraction(0.333)).value(), 0.1634, 0.0001);
}

TEST(PartialPressure, OverWineIsALittleAboveAKilopascal) {
  const auto wine = mole_fraction(MassFraction(0.096));  // 12 % vol
  const auto pressure = ethanol_partial_pressure(wine, Temperature::from_celsius(25));
  EXPECT_NEAR(pressure.si(), 0.0399 * 30.6e3, 30);
}

TEST(ActivityCoefficients, OfAPureLiquidAreOne) {
  const auto hot = Temperature::from_celsius(80);
  EXPECT_DOUBLE_EQ(activity_coefficients(MoleFraction(1), hot).ethanol, 1);
  EXPECT_DOUBLE_EQ(activity_coefficients(MoleFraction(0), hot).water, 1);
}

}  // namespace

}  // namespace barm::chemistry
