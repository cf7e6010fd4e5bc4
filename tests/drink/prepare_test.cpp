#include "drink/prepare.h"

#include <gtest/gtest.h>

#include "larder/larder.h"
#include "support/matchers.h"
#include "units/units.h"

namespace barm::drink {

namespace {

using larder::Composition;
using larder::Property;
using test::FailsWith;
using test::Holds;

Composition typical(const char* name) { return *larder::typical(*larder::find(name)); }

TEST(Flat, LeavesNoMoreGasThanTheDrinkHad) {
  EXPECT_NEAR(flat(typical("lager"))[Property::carbon_dioxide], 0.5e-3, 1e-9);
  EXPECT_EQ(flat(typical("water"))[Property::carbon_dioxide], 0);
}

TEST(Steeped, BringsWhatDissolvesAndHoldsLiquidBack) {
  const auto tea = steeped(typical("stout"), typical("raisins"), 0.1);
  ASSERT_THAT(tea, Holds());
  EXPECT_GT(tea->composition[Property::glucose], typical("stout")[Property::glucose] + 0.015);
  EXPECT_GT(tea->needs, 1.1);
  EXPECT_THAT(steeped(typical("stout"), typical("raisins"), 0.49),
              FailsWith(ErrorCode::cannot_be_met));
}

TEST(Remade, HoldsWhatThePreparationLeftAsTheLarderSettlesIt) {
  const larder::Ingredient wine = *larder::find("red wine");
  const Composition before = typical("red wine");
  const Prepared half = thinned(before, 0.5);
  const auto again = larder::typical(remade(wine, before, half.composition, false));
  ASSERT_THAT(again, Holds());
  for (const Property property : {Property::ethanol,
                                  Property::tartaric_acid,
                                  Property::glycerol,
                                  Property::total_sulphite,
                                  Property::ash}) {
    EXPECT_NEAR((*again)[property], before[property] / 2, 1e-9) << name(property);
  }
  EXPECT_NEAR((*again)[Property::water], half.composition[Property::water], 1e-6);
}

TEST(Remade, SaysOfASimmeredSulphiteOnlyThatItMayAllBeThere) {
  const larder::Ingredient wine = *larder::find("white wine");
  const Composition before = typical("white wine");
  const larder::Ingredient left = remade(wine, before, before, true);
  EXPECT_EQ(left[Property::free_sulphite]->low, 0);
  EXPECT_EQ(left[Property::free_sulphite]->high, wine[Property::free_sulphite]->high);
  EXPECT_EQ(left[Property::total_sulphite]->high, wine[Property::total_sulphite]->high);
}

}  // namespace

}  // namespace barm::drink
