#include "chemistry/mixing_heat.h"

#include <gtest/gtest.h>

namespace barm::chemistry {

namespace {

TEST(LiquidCapacity, IsLargerWithALittleEthanolAndSmallerWithMuch) {
  EXPECT_NEAR(liquid_capacity(MassFraction(0)).si(), 4180, 1e-9);
  EXPECT_NEAR(liquid_capacity(MassFraction(0.1)).si(), 4300, 1e-9);
  EXPECT_NEAR(liquid_capacity(MassFraction(0.3)).si(), 0.5 * (4330 + 3980), 1e-9);
  EXPECT_NEAR(liquid_capacity(MassFraction(1)).si(), 2440, 1e-9);
}

// 46.069 g of ethanol and 18.0153 * 17/3 g of water: x = 0.15, 780 J for each of 6.667 mol.
TEST(HeatOfMixing, IsSetFreeAsTheTableHasIt) {
  const Energy heat = heat_of_mixing(46.069 * gram, 18.0153 * 17 / 3 * gram);
  EXPECT_NEAR(heat.si(), 780 / 0.15, 1e-6);
  EXPECT_EQ(heat_of_mixing(1.0 * kilogram, {}).si(), 0);
  EXPECT_EQ(heat_of_mixing({}, {}).si(), 0);
}

}  // namespace

}  // namespace barm::chemistry
