// The way of a scent: what must hold of each step.
#include "taste/passage.h"

#include <gtest/gtest.h>

#include <cmath>

#include "support/matchers.h"

namespace barm::taste {

namespace {

constexpr Phases lean{.water = 0.42, .dry_flour = 0.54, .fat = 0.004};
constexpr Phases rich{.water = 0.35, .dry_flour = 0.46, .fat = 0.1};

const Scent& scent(std::string_view name) { return scents()[scent_named(name).value()]; }

Passage on(std::string_view name, double loss = 0.1, const Phases& phases = lean) {
  return usual_passage(scent(name), phases, usual_baking(loss)).value();
}

TEST(Passage, CrumbAndCrustLoseJustWhatTheScaleSays) {
  for (const double loss : {0.05, 0.1, 0.15, 0.2, 0.3}) {
    const Baking baking = usual_baking(loss);
    const double crust = crust_share(lean, baking).value();
    const double water =
        lean.water * ((1 - crust) * baking.vented + crust * (1 - std::exp(-baking.crust_depth)));
    EXPECT_NEAR(water, loss, 1e-12);
  }
}

TEST(Passage, ALoafThatLosesAlmostNothingHasNoCrust) {
  EXPECT_EQ(crust_share(lean, usual_baking(0.01)).value(), 0);
}

TEST(Passage, MoreThanAllWaterCannotLeave) {
  EXPECT_THAT(crust_share(lean, usual_baking(0.4)), barm::test::FailsWith(ErrorCode::bad_input));
}

TEST(Passage, ACrustShareThatIsGivenStands) {
  Baking baking = usual_baking(0.1);
  baking.crust_share = 0.4;
  EXPECT_EQ(crust_share(lean, baking).value(), 0.4);
}

TEST(Passage, EveryScentKeepsAShareBetweenNothingAndAll) {
  for (const Scent& one : scents()) {
    for (const Phases& phases : {lean, rich}) {
      const Passage way = usual_passage(one, phases, usual_baking(0.12)).value();
      for (const double share : {way.free, way.gas, way.crumb, way.crust, way.loaf}) {
        EXPECT_GT(share, 0) << one.name;
        EXPECT_LE(share, 1) << one.name;
      }
      EXPECT_LE(way.crust, way.crumb) << one.name;
    }
  }
}

TEST(Passage, ADrierLoafKeepsLess) {
  double before = 1;
  for (const double loss : {0.02, 0.06, 0.1, 0.14, 0.2}) {
    const double left = on("isoamyl acetate", loss).loaf;
    EXPECT_LT(left, before);
    before = left;
  }
}

TEST(Passage, FatHoldsAScentAgainstTheOvenAndAgainstTheNose) {
  EXPECT_GT(on("isoamyl acetate", 0.1, rich).crumb, 5 * on("isoamyl acetate").crumb);
  const Baking baking = usual_baking(0.1);
  const double lean_nose = matrix(scent("isoamyl acetate"), lean, baking, 2);
  const double rich_nose = matrix(scent("isoamyl acetate"), rich, baking, 2);
  EXPECT_GT(rich_nose, 4 * lean_nose);
}

TEST(Passage, WhatHardlyBoilsStaysAndWhatSmellsOfFruitGoes) {
  EXPECT_GT(on("vanillin").loaf, 0.99);
  EXPECT_GT(on("sotolon").loaf, 0.99);
  EXPECT_LT(on("isoamyl acetate").loaf, 0.1);
}

TEST(Passage, AnAcidLeavesByItsUndissociatedShare) {
  Baking sharp = usual_baking(0.1);
  sharp.ph = 3;
  Baking mild = usual_baking(0.1);
  mild.ph = 6;
  const Scent& acetic = scent("acetic acid");
  EXPECT_LT(usual_passage(acetic, lean, sharp)->loaf, usual_passage(acetic, lean, mild)->loaf);
  EXPECT_NEAR(left_in_pan(acetic, 0.5, 2.0), std::pow(0.5, acetic.volatility), 2e-3);
}

}  // namespace

}  // namespace barm::taste
