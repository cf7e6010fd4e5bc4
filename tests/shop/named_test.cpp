// Regulation (EU) No 1169/2011, Art. 22(1)(a): the quantity of an ingredient, or of a category of
// ingredients, that stands in the name.
#include "shop/named.h"

#include <gtest/gtest.h>

#include "larder/larder.h"

namespace barm::shop {

namespace {

/// Which of the ingredients the bread's name speaks of, parted by a comma.
std::string spoken(const char* bread,
                   const std::vector<const char*>& keys,
                   Tongue tongue = Tongue::en) {
  std::vector<larder::Ingredient> all;
  for (const char* key : keys) all.push_back(*larder::find(key));
  const auto named = named_in(bread, all, tongue);
  std::string out;
  for (std::size_t i = 0; i < all.size(); ++i) {
    if (named[i]) out += (out.empty() ? "" : ", ") + all[i].name;
  }
  return out;
}

TEST(Named, FindsPluralsOtherNamesAndPartsOfAName) {
  EXPECT_EQ(spoken("Walnut-raisin-apricot loaf",
                   {"white_bread_flour", "walnuts", "golden_raisins", "dried_apricots", "dates"}),
            "walnuts, golden raisins, dried apricots");
  EXPECT_EQ(spoken("Cheddar, olive and onion", {"cheddar", "olives", "onion", "olive_oil"}),
            "hard cow's milk cheese, black olives, onion");
  EXPECT_EQ(spoken("Figs and dates", {"dried_figs", "dates"}), "dried figs, dates");
}

TEST(Named, FindsCategories) {
  EXPECT_EQ(spoken("Beer bread", {"lager"}), "lager");
  EXPECT_EQ(spoken("Beer bread", {"stout", "rye_flour"}), "stout");
  EXPECT_EQ(spoken("Fruit loaf", {"raisins", "dried_apricots", "walnuts"}),
            "raisins, dried apricots");
  EXPECT_EQ(
      spoken("Four seeds", {"linseed", "sesame", "pumpkin_seed", "sunflower_seed", "almonds"}),
      "linseed, sesame seed, pumpkin seed, sunflower seed");
  EXPECT_EQ(spoken("Wine bread", {"white_wine"}), "white wine");
}

TEST(Named, GivesAWordOnlyToTheLongestName) {
  EXPECT_EQ(spoken("Poppy seed loaf", {"poppy_seed", "sunflower_seed"}), "poppy seed");
  EXPECT_EQ(spoken("Coconut milk loaf", {"coconut_milk", "whole_milk"}), "coconut milk");
  EXPECT_EQ(spoken("White bread with a strong crust", {"white_bread_flour", "salt", "water"}), "");
  EXPECT_EQ(spoken("Sunday loaf", {"stout", "walnuts"}), "");
}

TEST(Named, LooksForTheLabelsWordsInOtherLanguages) {
  EXPECT_EQ(spoken("Rotweinbrot", {"white_bread_flour", "red_wine"}, Tongue::de), "red wine");
  EXPECT_EQ(spoken("Roggenbrot", {"white_bread_flour", "rye_flour"}, Tongue::de),
            "medium rye flour");
  EXPECT_EQ(spoken("Pain aux noisettes", {"hazelnuts", "walnuts"}, Tongue::fr), "hazelnuts");
  EXPECT_EQ(spoken("Rotweinbrot", {"red_wine"}), "");
}

/// Umlauts, short words and categories: what the label's own names do not begin with.
TEST(Named, HearsTheWordsOfTheLanguageOfTheSale) {
  const std::vector<const char*> all = {
      "white_bread_flour", "walnuts", "dry_mead", "ale", "white_wine", "poppy_seed", "egg"};
  EXPECT_EQ(spoken("Walnussbrot", all, Tongue::de), "walnuts");
  EXPECT_EQ(spoken("Nussbrot", all, Tongue::de), "walnuts");
  EXPECT_EQ(spoken("Metbrot", all, Tongue::de), "dry mead");
  EXPECT_EQ(spoken("Brot mit Met und Bier", all, Tongue::de), "dry mead, pale ale");
  EXPECT_EQ(spoken("Weißbrot", all, Tongue::de), "");
  EXPECT_EQ(spoken("Weißweinbrot", all, Tongue::de), "white wine");
  EXPECT_EQ(spoken("Saatenbrot", all, Tongue::de), "poppy seed");
  EXPECT_EQ(spoken("Einkornbrot", all, Tongue::de), "");
  EXPECT_EQ(spoken("Vollkornbrot", {"wholemeal_flour"}, Tongue::de), "wholemeal wheat flour");
  EXPECT_EQ(spoken("Pain au vin et aux graines", all, Tongue::fr), "white wine, poppy seed");
  EXPECT_EQ(spoken("Pain blanc", all, Tongue::fr), "");
  EXPECT_EQ(spoken("Pane al vino", all, Tongue::it), "white wine");
  EXPECT_EQ(spoken("Pan de nuez", all, Tongue::es), "walnuts");
}

}  // namespace

}  // namespace barm::shop
