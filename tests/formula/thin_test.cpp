#include <gmock/gmock.h>

#include "chemistry/ethanol_water.h"
#include "formula/bakes.h"
#include "formula/solve.h"
#include "larder/larder.h"
#include "support/csv.h"
#include "support/validation.h"
#include "truth/at_60_f.h"

namespace barm::formula {

namespace {

using ::barm::test::FailsWith;
using ::barm::test::Holds;
using larder::Property;

larder::Ingredient spirit(double strength) {
  larder::Ingredient drink = *larder::find("neutral spirit");
  drink[Property::strength] = larder::Known{strength, strength, strength, nullptr, ""};
  return drink;
}

/// Pure alcohol and water, nothing else.
larder::Ingredient pure(double strength) {
  larder::Ingredient drink;
  drink.name = "spirit";
  drink.group = larder::Group::drink;
  drink[Property::strength] = larder::Known{strength, strength, strength, nullptr, ""};
  for (const Property none : {Property::total_sulphite,
                              Property::free_sulphite,
                              Property::sorbate,
                              Property::iso_alpha_acids,
                              Property::bakers_yeast}) {
    drink[none] = larder::Known{};
  }
  return drink;
}

// AL1, 27 CFR 30.64: 1000 lb of 200 proof and 82.03 lb of water are 190 proof. The manual keeps
// strength at 60 F, so 190 proof is taken over to 20 C through its mass fraction; it divides two
// table values of five digits, which leaves 0.02 lb of rounding in 1082 lb.
TEST(Thin, AgreesWithTheGaugingManual) {
  const double p = ::barm::test::mass_fraction_60_f(0.95);
  const Mass total = 1000 / p * pound;
  const auto thinned = thin(pure(1), chemistry::strength(MassFraction(p)), total);
  ASSERT_THAT(thinned, Holds());
  EXPECT_NEAR(thinned->drink.in(pound), 1000, 1e-6);
  EXPECT_NEAR(thinned->water.in(pound), 82.03, 0.03);
  ::barm::test::record("worked examples",
                       "water to thin 1000 lb of 200 proof to 190",
                       "27 CFR 30.64",
                       "82.03",
                       thinned->water.in(pound),
                       "lb",
                       std::abs(thinned->water.in(pound)-82.03) <= 0.03);
}

TEST(Thin, ReachesTheStrengthByMass) {
  for (const double wanted : {0.01, 0.05, 0.12, 0.2, 0.39}) {
    const auto thinned = thin(spirit(0.4), AlcoholByVolume(wanted), 1.0 * kilogram);
    ASSERT_THAT(thinned, Holds());
    EXPECT_NEAR((thinned->drink + thinned->water).in(gram), 1000, 1e-9);
    const auto c = larder::typical(spirit(0.4)).value();
    const double ethanol = c[Property::ethanol] * thinned->drink.si();
    const auto strength =
        chemistry::strength_of(Concentration::from_si(ethanol / thinned->together.si()));
    EXPECT_NEAR(strength.value(), wanted, 1e-9);
  }
}

// 500 mL + 500 mL: what alcohol and water lose on mixing, against the law of chemistry.
TEST(Thin, VolumesDoNotAdd) {
  const auto thinned = thin(pure(1), AlcoholByVolume(0.5), 1.0 * kilogram);
  ASSERT_THAT(thinned, Holds());
  const Volume gone = thinned->drink_volume + thinned->water_volume - thinned->together;
  EXPECT_NEAR(gone.in(millilitre),
              chemistry::contraction(thinned->drink, thinned->water).in(millilitre),
              1e-6);
  EXPECT_GT(gone.in(millilitre), 30);
  EXPECT_THAT(thinned->working, ::testing::Contains(::testing::HasSubstr("volumes do not add")));
}

TEST(Thin, ASweetLiqueurKeepsItsSolids) {
  const larder::Ingredient& liqueur = *larder::find("liqueur");
  const auto c = larder::typical(liqueur).value();
  const auto thinned = thin(liqueur, AlcoholByVolume(0.1), 1.0 * kilogram);
  ASSERT_THAT(thinned, Holds());
  const double ethanol = c[Property::ethanol] * thinned->drink.si();
  EXPECT_NEAR(ethanol / 789.24 / thinned->together.si(), 0.1, 1e-6);
  EXPECT_NEAR((thinned->drink / thinned->drink_volume).si(), c[Property::density], 1e-6);
}

TEST(Thin, ToItsOwnStrengthNeedsNoWater) {
  const auto thinned = thin(pure(0.4), AlcoholByVolume(0.4), 1.0 * kilogram);
  ASSERT_THAT(thinned, Holds());
  EXPECT_NEAR(thinned->water.in(gram), 0, 1e-5);
}

TEST(Thin, RefusesWhatWaterCannotDo) {
  EXPECT_THAT(thin(spirit(0.4), AlcoholByVolume(0.41), 1.0 * kilogram),
              FailsWith(ErrorCode::cannot_be_met));
  EXPECT_THAT(thin(spirit(0.4), AlcoholByVolume(0), 1.0 * kilogram),
              FailsWith(ErrorCode::bad_input));
  EXPECT_THAT(thin(spirit(0.4), AlcoholByVolume(0.1), Mass{}), FailsWith(ErrorCode::bad_input));
  EXPECT_THAT(thin(*larder::find("water"), AlcoholByVolume(0.1), 1.0 * kilogram),
              FailsWith(ErrorCode::cannot_be_met));
}

}  // namespace

}  // namespace barm::formula
