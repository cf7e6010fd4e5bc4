// Regulation (EU) No 1169/2011, Annex II: the closed list.
#include "larder/allergens.h"

#include <gmock/gmock.h>

#include <set>

#include "larder/larder.h"

namespace barm::larder {

namespace {

TEST(Allergens, AreTheFourteenPointsOfTheAnnex) {
  std::set<int> points;
  for (const Allergen& one : allergens()) points.insert(one.point);
  points.erase(0);
  EXPECT_EQ(points.size(), 14U);
  EXPECT_EQ(*points.rbegin(), 14);
}

TEST(Allergens, HoldEveryOneOfTheLarder) {
  for (const Ingredient& one : all()) {
    for (const std::string& allergen : one.allergens) {
      const Allergen* known = find_allergen(allergen);
      ASSERT_NE(known, nullptr) << one.name;
      EXPECT_EQ(known->key, allergen) << one.name;
    }
  }
}

TEST(Allergens, AreFoundByOtherWords) {
  EXPECT_EQ(find_allergen("Walnut")->key, "walnuts");
  EXPECT_EQ(find_allergen("soy")->key, "soya");
  EXPECT_EQ(find_allergen("spelt")->key, "wheat");
  EXPECT_EQ(find_allergen("wheaat"), nullptr);
}

TEST(Allergens, AreHeardInAName) {
  using testing::ElementsAre;
  EXPECT_THAT(allergens_named_in("walnut paste"), ElementsAre("walnuts"));
  EXPECT_THAT(allergens_named_in("Grandmother's cheese and mustard mix"),
              ElementsAre("milk", "mustard"));
  EXPECT_THAT(allergens_named_in("buckwheat, coconut, eggplant"), ElementsAre());
  EXPECT_THAT(allergens_named_in("coconut milk and cocoa butter"), ElementsAre());
  EXPECT_THAT(allergens_named_in("milk, coconut milk"), ElementsAre("milk"));
}

}  // namespace

}  // namespace barm::larder
