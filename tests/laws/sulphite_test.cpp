// What must hold for the share of sulphite that bites.
#include "chemistry/sulphite.h"

#include <gtest/gtest.h>

namespace barm::chemistry {

namespace {

constexpr auto wine = AlcoholByVolume::from_percent(12);
constexpr auto warm = Temperature::from_celsius(24);

TEST(MolecularShare, FallsWithPhFromAllToNone) {
  double before = molecular_share(Ph(-3), wine, warm);
  EXPECT_NEAR(before, 1, 1e-4);
  for (double ph = -2.9; ph < 8; ph += 0.1) {
    const double now = molecular_share(Ph(ph), wine, warm);
    EXPECT_LT(now, before) << ph;
    before = now;
  }
  EXPECT_NEAR(before, 0, 1e-4);
}

TEST(MolecularShare, IsOneHalfAtThePk) {
  EXPECT_NEAR(molecular_share(Ph(sulphite_pk(wine, warm)), wine, warm), 0.5, 1e-14);
}

// A pH unit is a power of ten once little is left.
TEST(MolecularShare, FallsTenfoldForEveryPhAboveFive) {
  const double five = molecular_share(Ph(5), wine, warm);
  const double six = molecular_share(Ph(6), wine, warm);
  EXPECT_NEAR(five / six, 10, 0.02);
}

TEST(MolecularShare, RisesWithStrengthAndWarmth) {
  const auto stronger = AlcoholByVolume::from_percent(15);
  const auto warmer = Temperature::from_celsius(28);
  EXPECT_GT(molecular_share(Ph(3.5), stronger, warm), molecular_share(Ph(3.5), wine, warm));
  EXPECT_GT(molecular_share(Ph(3.5), wine, warmer), molecular_share(Ph(3.5), wine, warm));
}

TEST(SorbicShare, FallsWithPh) {
  for (double ph = 2; ph < 8; ph += 0.1) {
    EXPECT_LT(undissociated_sorbic_share(Ph(ph + 0.1)), undissociated_sorbic_share(Ph(ph)));
  }
}

}  // namespace

}  // namespace barm::chemistry
