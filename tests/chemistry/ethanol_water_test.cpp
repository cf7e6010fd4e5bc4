#include "chemistry/ethanol_water.h"

#include <gtest/gtest.h>

#include "base/require.h"
#include "support/matchers.h"
#include "units/units.h"

namespace barm::chemistry {

namespace {

using test::FailsWith;
using test::Holds;

TEST(EthanolWater, DensityRefusesWhatTheFormulaDoesNotCover) {
  const auto room = Temperature::from_celsius(20);
  EXPECT_THAT(density(MassFraction(-0.01), room), FailsWith(ErrorCode::bad_input));
  EXPECT_THAT(density(MassFraction(1.01), room), FailsWith(ErrorCode::bad_input));
  EXPECT_THAT(density(MassFraction(std::nan("")), room), FailsWith(ErrorCode::bad_input));
  EXPECT_THAT(density(MassFraction(0.1), Temperature::from_celsius(-20.1)),
              FailsWith(ErrorCode::bad_input));
  EXPECT_THAT(density(MassFraction(0.1), Temperature::from_celsius(40.1)),
              FailsWith(ErrorCode::bad_input));
}

TEST(EthanolWater, DensityHoldsAtTheEdgesOfItsRange) {
  EXPECT_THAT(density(MassFraction(0), Temperature::from_celsius(-20)), Holds());
  EXPECT_THAT(density(MassFraction(1), Temperature::from_celsius(40)), Holds());
}

TEST(EthanolWater, StrengthOutsideZeroToOneIsABrokenContract) {
  EXPECT_THROW((void)strength(MassFraction(1.5)), ContractViolation);
  EXPECT_THROW((void)ethanol_mass_fraction(AlcoholByVolume(-0.1)), ContractViolation);
}

TEST(EthanolWater, EthanolPerVolumeAndStrengthAreInverse) {
  const auto wine = AlcoholByVolume::from_percent(12.5);
  EXPECT_DOUBLE_EQ(strength_of(ethanol_per_volume(wine)).percent(), 12.5);
}

TEST(EthanolWater, EthanolPerVolumeIsTheMassFractionTimesTheDensity) {
  const auto p = MassFraction(0.3);
  const auto rho = density(p, Temperature::from_celsius(20));
  ASSERT_THAT(rho, Holds());
  EXPECT_NEAR(ethanol_per_volume(strength(p)).si(), p.value() * rho->si(), 1e-9);
}

TEST(EthanolWater, ContractionOfNothingIsNothing) {
  EXPECT_EQ(contraction(Mass{}, Mass{}).si(), 0);
}

}  // namespace

}  // namespace barm::chemistry
