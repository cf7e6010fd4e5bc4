// What the tongue has of a bread.
#include "taste/tongue.h"

#include <gtest/gtest.h>

#include <algorithm>

#include "taste/breads.h"

namespace barm::taste {

namespace {

using test::loaf;
using test::tasted_of;

TEST(Tongue, SournessIsOfTheAcidsAndStaysInTheOven) {
  const Tasted cider = tasted_of(loaf("dry cider", 650, 0));
  const Tasted water = tasted_of(loaf("", 0, 650));
  const Sense& sour = cider.tongue.senses[0];
  EXPECT_GT(sour.strength, water.tongue.senses[0].strength);
  EXPECT_EQ(sour.most, "malic acid");
  EXPECT_GT(sour.left, 0.9);
}

TEST(Tongue, HopsAreBitter) {
  const Tasted beer = tasted_of(loaf("hoppy pale ale", 650, 0));
  EXPECT_EQ(beer.tongue.senses[1].most, "iso-alpha-acids");
}

TEST(Tongue, AnAcidBelowItsPkHasItsGroups) {
  EXPECT_NEAR(with_acid_group(chemistry::Acid::acetic, 4.76, 0), 0.5, 0.01);
  EXPECT_GT(with_acid_group(chemistry::Acid::tartaric, 3.5, 0.2), 0.5);
  EXPECT_LT(with_acid_group(chemistry::Acid::lactic, 6, 0.2), 0.02);
}

TEST(Tongue, BitterIsOverTheThresholdByHand) {
  // 45 mg/L of hop acids, 650 g of ale in 1680 g of dough, a tenth lost, half of it free, 7.1 mg/L.
  const Tasted beer = tasted_of(loaf("hoppy pale ale", 650, 0));
  const auto in = test::contents_of(test::bake(loaf("hoppy pale ale", 650, 0)));
  double hops = 0;
  for (const Bitter& one : in.bitter) hops = std::max(hops, one.amount.middle);
  EXPECT_NEAR(beer.tongue.senses[1].strength, hops / 0.9 * 0.5 / 7.1, 1e-9);
}

TEST(Tongue, SugarThatTheFermentLeavesIsSweet) {
  const auto in = test::contents_of(test::bake(loaf("", 0, 650)));
  Luck luck(50, 1);
  const AtTheOven much{.ph = 5, .sugar = 30, .known = true};
  const AtTheOven little{.ph = 5, .sugar = 3, .known = true};
  const auto sweet = [&](const AtTheOven& dough) {
    return tongue(in, usual_baking(0.1), dough, 1, luck).senses[2].strength;
  };
  EXPECT_NEAR(sweet(much), 10 * sweet(little), 1e-9);
}

}  // namespace

}  // namespace barm::taste
