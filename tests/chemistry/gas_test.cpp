#include "chemistry/gas.h"

#include <gtest/gtest.h>

#include "units/units.h"

namespace barm::chemistry {

namespace {

TEST(Gas, DissolvesLessInWarmth) {
  for (double t = 1; t < 50; ++t) {
    EXPECT_LT(carbon_dioxide_solubility(Temperature::from_celsius(t)),
              carbon_dioxide_solubility(Temperature::from_celsius(t - 1)));
  }
}

// Steam tables from memory: 0.611 kPa at 0 C, 3.17 kPa at 25 C; Antoine's numbers are good to a
// percent there.
TEST(Gas, WaterVapourPressureAtRoomTemperature) {
  EXPECT_NEAR(water_vapour_pressure(Temperature::from_celsius(0)).si() / 611, 1, 0.01);
  EXPECT_NEAR(water_vapour_pressure(Temperature::from_celsius(25)).si() / 3170, 1, 0.01);
}

TEST(Gas, EthanolIsTheMoreVolatile) {
  for (double t = 5; t < 96; ++t) {
    EXPECT_GT(ethanol_vapour_pressure(Temperature::from_celsius(t)),
              water_vapour_pressure(Temperature::from_celsius(t)));
  }
}

}  // namespace

}  // namespace barm::chemistry
