#include "chemistry/water_activity.h"

#include <gtest/gtest.h>

#include "support/molal.h"
#include "units/units.h"

namespace barm::chemistry {

namespace {

using barm::test::molal;

TEST(WaterActivity, OfPureWaterIsOne) {
  EXPECT_EQ(water_activity(Solutes{}), 1);
  EXPECT_EQ(salt_osmotic_coefficient(Molality{}), 1);
}

// Ideal: 1 / (1 + 0.0180153 m).
TEST(WaterActivity, EthanolCountsAsIdeal) {
  EXPECT_NEAR(water_activity({.ethanol = molal(2)}), 1 / 1.0360306, 1e-12);
}

TEST(WaterActivity, OfAMixtureIsTheProductOfItsParts) {
  const double salt = water_activity({.salt = molal(0.4)});
  const double sugar = water_activity({.disaccharide = molal(0.5)});
  EXPECT_NEAR(
      water_activity({.salt = molal(0.4), .disaccharide = molal(0.5)}), salt * sugar, 1e-15);
}

TEST(WaterActivity, FallsWithEverySolute) {
  const Molality one = molal(1);
  const Solutes each[] = {{.salt = one},
                          {.hexose = one},
                          {.disaccharide = one},
                          {.lactose = one},
                          {.ethanol = one},
                          {.glycerol = one}};
  for (const Solutes& solutes : each) {
    EXPECT_LT(water_activity(solutes), 0.985);
    EXPECT_GT(water_activity(solutes), 0.96);
  }
}

}  // namespace

}  // namespace barm::chemistry
