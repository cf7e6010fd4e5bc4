// What of a bake's drinks is smelt: what must hold whatever the numbers.
#include "taste/taste.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <algorithm>

#include "taste/breads.h"
#include "taste/words.h"

namespace barm::taste {

namespace {

using test::loaf;
using test::note;
using test::tasted_of;
using testing::HasSubstr;
using testing::Not;

TEST(Taste, ABreadWithoutDrinkBringsNothing) {
  const Tasted plain = tasted_of(loaf("", 0, 650));
  EXPECT_THAT(plain.notes, testing::IsEmpty());
  EXPECT_EQ(plain.noticed, 0);
  EXPECT_EQ(plain.alcohol.p90, 0);
  EXPECT_EQ(*std::max_element(plain.strength.begin(), plain.strength.end()), 0);
  for (const Sense& sense : plain.tongue.senses) EXPECT_EQ(sense.of_drink, 0) << sense.what;
}

TEST(Taste, MoreDrinkIsNeverLessTaste) {
  std::vector<double> before(200, 0.0);
  double noticed = 0;
  for (const int grams : {50, 150, 300, 450, 650}) {
    const Tasted here = tasted_of(loaf("dry mead", grams, 650 - grams));
    for (std::size_t d = 0; d < before.size(); ++d) {
      EXPECT_GE(here.strength[d] * (1 + 1e-9), before[d]) << grams << " g, draw " << d;
    }
    EXPECT_GE(here.noticed, noticed);
    noticed = here.noticed;
    before = here.strength;
  }
}

TEST(Taste, OfMeadTheFruitGoesAndTheRoseStays) {
  const Tasted mead = tasted_of(loaf("dry mead", 650, 0));
  EXPECT_LT(note(mead, "fruit").left.p50, 0.15);
  EXPECT_LT(note(mead, "honey").left.p50, 0.35);
  EXPECT_GT(note(mead, "rose").left.p50, 0.6);
}

TEST(Taste, VanillaAndOakOfWhiskyStay) {
  const Tasted whisky = tasted_of(loaf("whisky", 60, 590));
  EXPECT_GT(note(whisky, "oak").left.p50, 0.6);
  EXPECT_GT(note(whisky, "vanilla").left_crumb.p50, 0.4);  // yeast turns a part into its alcohol
}

TEST(Taste, TheBreadsOwnCoversItsMalt) {
  const Tasted stout = tasted_of(loaf("stout", 650, 0));
  const Note& malt = note(stout, "malt");
  EXPECT_FALSE(malt.cover.empty());
  EXPECT_LT(malt.noticed, 0.2);
}

TEST(Taste, WhatABottleStatesIsExactAndStandsInForTheTable) {
  const std::string bottle = "[bottle.\"dry mead\"]\nscents = [\"isoamyl acetate 20 mg/L\"]\n";
  const Tasted stated = tasted_of(loaf("dry mead", 650, 0, bottle));
  const Tasted book = tasted_of(loaf("dry mead", 650, 0));
  EXPECT_GT(note(stated, "fruit").crumb.p50, 10 * note(book, "fruit").crumb.p50);
  EXPECT_EQ(note(stated, "rose").crumb.p50, note(book, "rose").crumb.p50);
}

TEST(Taste, ADrinkThatOnlyResemblesAnotherIsLessSure) {
  const Tasted white = tasted_of(loaf("white wine", 650, 0));
  const Tasted rose = tasted_of(loaf("rosé wine", 650, 0));
  const auto width = [](const Range& range) { return range.p90 / range.p10; };
  EXPECT_GT(width(note(rose, "fruit").crumb), width(note(white, "fruit").crumb));
}

TEST(Taste, ADrinkNobodyKnowsIsNamed) {
  const auto in = test::contents_of(test::bake(loaf("herb tea", 650, 0)));
  EXPECT_THAT(in.unknown, testing::ElementsAre("herb tea"));
}

TEST(Taste, WhatIsStillSmeltIsNotSaidToBeGone) {
  int little = 0;
  for (const char* drink : {"dry mead", "stout", "dry cider", "red wine", "filter coffee"}) {
    const Tasted in_bread = tasted_of(loaf(drink, 600, 0));
    const std::string line = in_a_line(in_bread);
    const std::string gone = line.substr(0, line.find(" nearly gone") + 1);
    for (const Note& one : in_bread.notes) {
      if (one.level < Level::there || !says_which_drink(one.family)) continue;
      EXPECT_THAT(gone, Not(HasSubstr(one.family))) << line;
      if (one.in_drink >= 1 && one.left.p50 < 0.12) ++little;
    }
  }
  EXPECT_GT(little, 0);
}

TEST(Taste, WhatIsGuessedAndDecidesIsNamed) {
  const Tasted mead = tasted_of(loaf("dry mead", 650, 0));
  const Note& rose = note(mead, "rose");
  ASSERT_FALSE(rose.decides.empty());
  EXPECT_THAT(rose.decides.front(), testing::HasSubstr("(from memory)"));
}

TEST(Taste, ThatIsTheSameForTheSameSeedAndTheSameLuckForOtherDrinks) {
  EXPECT_EQ(tasted_of(loaf("dry mead", 300, 350)).strength,
            tasted_of(loaf("dry mead", 300, 350)).strength);
}

// What is brushed on the cold crust is smelt there and not in the crumb.
TEST(Taste, WhatIsBrushedOnIsOnTheCrust) {
  const auto in = test::contents_of(test::bake(loaf("", 0, 650)));
  const auto isoamyl = scent_named("isoamyl acetate").value();
  Applied brushed;
  brushed.scents = {{.scent = isoamyl, .amount = {0.002, 0.002, 0.002}}};
  brushed.onto = 150.0 * gram;
  Luck luck(200, 1);
  const auto out = tasted(
      {.contents = &in, .baking = usual_baking(0.1), .dough = {}, .applied = {brushed}}, luck);
  ASSERT_TRUE(out);
  EXPECT_EQ(note(*out, "fruit").crumb.p50, 0);
  EXPECT_GT(note(*out, "fruit").crust.p50, 0);
}

}  // namespace

}  // namespace barm::taste
