#include "shop/nutrition.h"

#include <gtest/gtest.h>

#include "formula/read.h"
#include "larder/larder.h"
#include "support/matchers.h"
#include "support/printers.h"
#include "units/units.h"

namespace barm::shop {

namespace {

struct Loaf {
  formula::Bake bake;
  std::vector<larder::Composition> settled;
  formula::Bowl bowl;
};

Loaf loaf(const std::string& lines) {
  Loaf out;
  out.bake =
      formula::parse_bake(
          "pieces = 1\nloss = { handling = \"10 %\", bake = \"20 %\" }\n[bowl]\n\"white bread "
          "flour\" = \"1000 g\"\n" +
              lines,
          "b.toml")
          .value();
  out.settled = formula::settle(out.bake).value();
  out.bowl = formula::in_the_bowl(out.bake, out.settled).value();
  return out;
}

Nutrients of(const Loaf& loaf,
             const Fermented& fermented = {},
             double kept = 0.5,
             bool us = false) {
  return nutrients(loaf.bake, loaf.settled, loaf.bowl, fermented, {0.2, kept}, us);
}

TEST(Nutrients, AreWhatTheTableSaysOfTheFlour) {
  const Nutrients n = of(loaf("water = \"600 g\"\n"));
  // USDA 20129, 100 g: 1.66 g of fat, 0.244 g saturated, 11.98 g of protein by N x 5.70.
  EXPECT_NEAR(n[Nutrient::fat], 0.9 * 0.0166, 1e-6);
  EXPECT_NEAR(n[Nutrient::saturates], 0.9 * 0.00244, 1e-6);
  EXPECT_NEAR(n[Nutrient::protein], 0.9 * 0.1198 * 6.25 / 5.70, 1e-5);
  EXPECT_NEAR(n.mass, 1.6 * 0.9 * 0.8, 1e-9);
}

TEST(Nutrients, KeepTheTablesProteinAndCountFibreInAmerica) {
  const Loaf one = loaf("water = \"600 g\"\n");
  const Nutrients eu = of(one);
  const Nutrients us = of(one, {}, 0.5, true);
  EXPECT_NEAR(us[Nutrient::protein], 0.9 * 0.1198, 1e-6);
  EXPECT_NEAR(us[Nutrient::carbohydrate] - eu[Nutrient::carbohydrate], eu[Nutrient::fibre], 1e-6);
}

TEST(Nutrients, CountSaltAsSodiumTimesTwoAndAHalf) {
  const Loaf plain = loaf("water = \"600 g\"\n");
  const Loaf salted = loaf("water = \"600 g\"\nsalt = \"20 g\"\n");
  const double salt = of(salted)[Nutrient::salt] - of(plain)[Nutrient::salt];
  EXPECT_NEAR(salt, 0.9 * 0.020 * 2.5 / 2.542, 0.00005);
}

TEST(Nutrients, FollowWhatFermented) {
  const Loaf one = loaf("water = \"600 g\"\n");
  Fermented fermented;
  fermented.sugar_used = 20.0 * gram;
  fermented.alcohol = 9.0 * gram;
  fermented.acid = 3.0 * gram;
  fermented.sugar_left = 5.0 * gram;
  const Nutrients before = of(one);
  const Nutrients after = of(one, fermented);
  const double dough = 1.6 * 0.9;
  EXPECT_NEAR(before[Nutrient::carbohydrate] - after[Nutrient::carbohydrate], 0.018 * dough, 2e-5);
  EXPECT_NEAR(after[Nutrient::alcohol], 0.5 * 0.009 * dough, 1e-9);
  EXPECT_NEAR(after[Nutrient::sugars], 0.005 * dough, 1e-9);
  EXPECT_NEAR(after[Nutrient::acids] - before[Nutrient::acids], 0.003 * dough, 1e-9);
  // The alcohol that stays is 29 kJ/g.
  const Nutrients none = of(one, fermented, 0);
  EXPECT_NEAR(kilojoules(after) - kilojoules(none), 29 * 1000 * after[Nutrient::alcohol], 1e-6);
}

// USDA 20129, 100 g: 15 mg of calcium, 100 mg of potassium; tap water: 3 mg of calcium.
TEST(Nutrients, AddUpTheMinerals) {
  const Nutrients n = of(loaf("water = \"600 g\"\n"));
  EXPECT_NEAR(n[Nutrient::calcium], 0.9 * (15e-5 + 0.6 * 3e-5), 1e-8);
  EXPECT_NEAR(n[Nutrient::potassium], 0.9 * 100e-5, 1e-7);
}

// USDA 04053 has no protein and so a factor of 0 for its nitrogen: that is no protein, not no
// number.
TEST(Nutrients, OfAnOilAreNumbers) {
  const Nutrients n = of(loaf("water = \"600 g\"\n\"olive oil\" = \"50 g\"\n"));
  EXPECT_NEAR(n[Nutrient::protein], 0.9 * 0.1198 * 6.25 / 5.70, 1e-5);
  EXPECT_GT(kilojoules(n), 0);
}

TEST(Cholesterol, IsAbsentOnlyWhereTheLarderTellsSo) {
  for (const char* name : {"white bread flour", "water", "salt", "stout", "dry mead", "honey"})
    EXPECT_TRUE(holds_no_cholesterol(*larder::find(name))) << name;
  // Lard is a fat, milk stout is not in the larder; oil is a fat as well: not told.
  for (const char* name : {"butter", "milk", "egg", "lard", "olive oil", "cheddar"})
    EXPECT_FALSE(holds_no_cholesterol(*larder::find(name))) << name;
  larder::Ingredient own = *larder::find("white bread flour");
  own.name = "flour of my own";
  EXPECT_FALSE(holds_no_cholesterol(own));
}

}  // namespace

}  // namespace barm::shop
