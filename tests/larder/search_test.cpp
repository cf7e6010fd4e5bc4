#include <gmock/gmock.h>

#include "larder/larder.h"

namespace barm::larder {
namespace {

using testing::Contains;
using testing::ElementsAre;
using testing::IsEmpty;
using testing::SizeIs;

std::string key_of(std::string_view words) {
  const Ingredient* found = find(words);
  return found == nullptr ? "nothing" : found->key;
}

TEST(Find, MindsNeitherCaseNorBlanksNorHyphensNorUnderscores) {
  for (const char* words :
       {"dry mead", "Dry Mead", "dry_mead", "dry-mead", "DRYMEAD", " dry  mead "}) {
    EXPECT_EQ(key_of(words), "dry_mead") << words;
  }
}

TEST(Find, KnowsOtherNames) {
  EXPECT_EQ(key_of("honey wine"), "dry_mead");
  EXPECT_EQ(key_of("whole wheat flour"), "wholemeal_flour");
  EXPECT_EQ(key_of("levain"), "ripe_levain");
}

TEST(Find, ReadsAccentsOrTheirAbsence) {
  EXPECT_EQ(key_of("rosé wine"), "rose_wine");
  EXPECT_EQ(key_of("rose wine"), "rose_wine");
}

TEST(Find, FindsNothingForWhatIsNotThere) {
  EXPECT_EQ(find("motor oil"), nullptr);
  EXPECT_EQ(find(""), nullptr);
}

TEST(Find, FindsEveryIngredientByEachOfItsNames) {
  for (const Ingredient& ingredient : all()) {
    EXPECT_EQ(find(ingredient.key), &ingredient) << ingredient.key;
    EXPECT_EQ(find(ingredient.name), &ingredient) << ingredient.name;
    for (const std::string& other : ingredient.also) EXPECT_EQ(find(other), &ingredient) << other;
  }
}

TEST(Near, OffersWhatATypingMistakeMeant) {
  EXPECT_THAT(near("meade"), ElementsAre("mead", "dry mead", "sweet mead"));
  EXPECT_THAT(near("whtie bread flour", 1), ElementsAre("white bread flour"));
  EXPECT_THAT(near("komboocha", 1), ElementsAre("kombucha"));
  EXPECT_THAT(near("lagr", 1), ElementsAre("lager"));
  EXPECT_THAT(near("buttermlk", 1), ElementsAre("buttermilk"));
}

TEST(Near, OffersLongerAndShorterNames) {
  EXPECT_THAT(near("sesame seeds"), Contains("sesame seed"));
  EXPECT_THAT(near("red wine from the cellar"), Contains("red wine"));
  EXPECT_THAT(near("rye flour", 8), Contains("light rye flour"));
}

TEST(Near, OffersNothingFarFetched) {
  EXPECT_THAT(near("qqqqxxxxzzzz"), IsEmpty());
  EXPECT_THAT(near(""), IsEmpty());
}

TEST(Near, OffersNoMoreThanAsked) {
  EXPECT_THAT(near("flour", 5), SizeIs(5));
  EXPECT_THAT(near("flour", 0), IsEmpty());
}

}  // namespace
}  // namespace barm::larder
