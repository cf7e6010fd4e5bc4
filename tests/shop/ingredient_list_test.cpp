// Regulation (EU) No 1169/2011, Articles 18 to 22 and Annexes II, VII, VIII; 21 CFR 101.4.
#include "shop/ingredient_list.h"

#include <gmock/gmock.h>

#include "shop/labels.h"
#include "support/matchers.h"
#include "support/printers.h"

namespace barm::shop {

namespace {

using barm::test::labelled;
using barm::test::list_of;
using barm::test::loaf;
using barm::test::questions_of;
using testing::HasSubstr;
using testing::Not;

// --- Art. 18(1), Annex VII A 1: the order ---

TEST(IngredientList, PutsWaterByWhatTheOthersLeaveOfTheLoaf) {
  // 1000 + 500 + 450 + 20 g, 1773 g baked: 303 g of water by the rule, under 450 g of milk.
  const Label made = labelled(
      loaf("Milk loaf", "water = \"500 g\"\n\"whole milk\" = \"450 g\"\nsalt = \"20 g\"\n"));
  EXPECT_EQ(list_of(made), "Ingredients: WHEAT flour, whole MILK 25 %, water, salt.");
  const Listed& water = made.ingredients.items[2];
  EXPECT_NEAR(water.counted.in(gram), 0.9 * 1970 - 1000 - 450 - 20, 1e-6);
  EXPECT_NEAR(water.used.in(gram), 500, 1e-6);
}

/// Order and quantity on one basis: the drink as used. What is left of it stands in the working.
TEST(IngredientList, CountsADrinkAsUsedInOrderAndQuantity) {
  const Label made = labelled(
      loaf("Stout loaf", "stout = \"700 g\"\n\"rye flour\" = \"550 g\"\nsalt = \"20 g\"\n"));
  EXPECT_EQ(list_of(made), "Ingredients: WHEAT flour, stout (BARLEY) 34 %, RYE flour, salt.");
  EXPECT_TRUE(made.ingredients.order_depends);
  EXPECT_THAT(made.ingredients.by_what_is_left, HasSubstr("rye flour, stout (barley)"));
}

TEST(IngredientList, LeavesOutWaterWhereTheOthersWeighAsMuchAsTheLoaf) {
  // 1000 + 600 + 50 + 20 g, 1503 g baked: nothing is left for the water.
  const Label made =
      labelled(loaf("Loaf", "stout = \"600 g\"\nwater = \"50 g\"\nsalt = \"20 g\"\n"));
  EXPECT_THAT(list_of(made), Not(HasSubstr("water")));
  const Listed& water = made.ingredients.items.back();
  EXPECT_TRUE(water.left_out);
  EXPECT_TRUE(water.may_be_left_out);
  EXPECT_EQ(water.counted, Mass());
  EXPECT_NEAR(water.used.in(gram), 50, 1e-6);
}

TEST(IngredientList, MarksWhatIsUnderTwoPercent) {
  const std::string text = loaf("Loaf", "water = \"600 g\"\nsalt = \"20 g\"\n");
  const Label made = labelled(text);
  EXPECT_TRUE(made.ingredients.items.back().under_two_percent);
  EXPECT_FALSE(made.ingredients.items.front().under_two_percent);
  EXPECT_EQ(list_of(labelled(text, Law::us)),
            "Ingredients: wheat flour, water; contains 2% or less of: salt.");
}

// --- Art. 18(2), Annex VII C and E: names, categories, compounds ---

TEST(IngredientList, OpensTheSourdoughWithBothItsFlours) {
  EXPECT_THAT(list_of(labelled(loaf("Loaf", "water = \"600 g\"\nlevain = \"200 g\"\n"))),
              HasSubstr("sourdough (WHEAT flour, water)"));
  const Label rye = labelled(loaf("Loaf",
                                  "water = \"600 g\"\nlevain = \"200 g\"\n",
                                  "[levain]\nstarter = \"stiff ripe levain\"\n"
                                  "flour = \"rye flour\"\n"));
  EXPECT_THAT(list_of(rye), HasSubstr("sourdough (RYE flour, WHEAT flour, water)"));
  EXPECT_THAT(list_of(labelled(loaf("Loaf", "water = \"600 g\"\n\"rye sour\" = \"200 g\"\n"))),
              HasSubstr("sourdough (RYE flour, water)"));
}

TEST(IngredientList, TakesAPoolishApart) {
  const Label made = labelled(loaf("Loaf",
                                   "water = \"200 g\"\nsalt = \"20 g\"\nlevain = \"800 g\"\n",
                                   "[levain]\nstarter = \"fresh yeast\"\nfeed = \"0.002:1:1\"\n"
                                   "flour = \"white bread flour\"\n"));
  EXPECT_EQ(list_of(made), "Ingredients: WHEAT flour, water, salt, yeast.");
}

TEST(IngredientList, GivesWeakDrinksAndCompoundsAListOfTheirOwn) {
  const auto has = [](const std::string& line, const std::string& words, Law law = Law::eu) {
    EXPECT_THAT(list_of(labelled(loaf("Loaf", line), law)), HasSubstr(words));
  };
  // Art. 16(4): none is asked of a drink above 1.2 % vol, so one at most that strong has one.
  has("\"alcohol-free beer\" = \"600 g\"\n", "alcohol-free beer (water, BARLEY malt, hops, yeast)");
  has("kombucha = \"600 g\"\n", "kombucha (water, sugar, tea, kombucha culture)");
  has("\"oat drink\" = \"600 g\"\n", "OAT drink (water, OATS)");
  has("lager = \"600 g\"\n", "beer (BARLEY)");
  has("lager = \"600 g\"\n[bottle.lager]\nstrength = \"0.5 % vol\"\n",
      "beer (water, BARLEY malt, hops, yeast)");
  has("water = \"600 g\"\nolives = \"100 g\"\n",
      "black olives (olives, water, salt, stabiliser: ferrous gluconate)");
  has("water = \"600 g\"\n\"dried cranberries\" = \"100 g\"\n",
      "sweetened dried cranberries (cranberries, sugar, sunflower oil)");
  // 21 CFR 101.4(b)(2): in the United States whatever the strength.
  has("lager = \"600 g\"\n", "beer (water, malted barley, hops, yeast)", Law::us);
  has("\"red wine\" = \"600 g\"\n", "red wine (grapes, sulfites)", Law::us);
}

TEST(IngredientList, TakesTheNameAndListOfOnesOwn) {
  const std::string text =
      loaf("Loaf",
           "water = \"600 g\"\n\"house chocolate, 70 %\" = \"90 g\"\n",
           "[ingredient.\"house chocolate, 70 %\"]\ngroup = \"other\"\n"
           "water = \"1 %\"\nfat = \"40 %\"\nsaturates = \"25 %\"\n"
           "label_name = \"dark chocolate\"\n"
           "list = \"cocoa mass, sugar, whole {milk} powder, {soya} lecithin\"\n"
           "allergens = [\"milk\", \"soy\"]\n");
  const Label made = labelled(text);
  EXPECT_THAT(list_of(made),
              HasSubstr("dark chocolate (cocoa mass, sugar, whole MILK powder, SOYA lecithin)"));
  EXPECT_EQ(made.allergens, (std::vector<std::string>{"milk", "soya", "wheat"}));
  EXPECT_TRUE(made.missing.empty());
}

TEST(IngredientList, PutsTheCategoryBeforeAnAdditiveAndItsStrengthNowhere) {
  const std::string acid = list_of(labelled(loaf(
      "Loaf", "water = \"600 g\"\n\"lactic acid\" = \"9 g\"\n\"cream of tartar\" = \"9 g\"\n")));
  EXPECT_THAT(acid, HasSubstr("acid: lactic acid"));
  EXPECT_THAT(acid, HasSubstr("acidity regulator: potassium tartrates"));
  EXPECT_THAT(acid, Not(HasSubstr("80 %")));
  EXPECT_THAT(
      list_of(labelled(loaf("Loaf", "water = \"600 g\"\n\"metabisulphite solution\" = \"9 g\"\n"))),
      HasSubstr("preservative: potassium metabiSULPHITE"));
}

// --- Art. 21, Annex II: nothing that is known is left out ---

TEST(IngredientList, SetsOffSulphitesOfFruitAndPreservative) {
  for (const char* line : {"\"golden raisins\" = \"200 g\"\n",
                           "\"dried apricots\" = \"200 g\"\n",
                           "\"dried apples\" = \"200 g\"\n"}) {
    const Label made = labelled(loaf("Loaf", std::string("water = \"600 g\"\n") + line));
    EXPECT_NE(made.sulphites, Sulphites::no) << line;
    EXPECT_THAT(list_of(made), HasSubstr("preservative: SULPHUR DIOXIDE")) << line;
  }
  // A pinch of them keeps the loaf under 10 mg/kg: nothing is set off.
  const Label pinch = labelled(loaf("Loaf", "water = \"600 g\"\n\"golden raisins\" = \"5 g\"\n"));
  EXPECT_EQ(pinch.sulphites, Sulphites::no);
  EXPECT_THAT(list_of(pinch), HasSubstr("preservative: sulphur dioxide"));
  EXPECT_THAT(list_of(labelled(loaf("Loaf", "water = \"600 g\"\n\"golden raisins\" = \"200 g\"\n"),
                               Law::us)),
              HasSubstr("sulfur dioxide"));
}

TEST(IngredientList, AsksForTheAllergensOfOnesOwnAndPrintsNothingBefore) {
  const std::string table = "[ingredient.\"walnut paste\"]\ngroup = \"other\"\nwater = \"5 %\"\n";
  const Label asked =
      labelled(loaf("Loaf", "water = \"600 g\"\n\"walnut paste\" = \"90 g\"\n", table));
  EXPECT_THAT(asked.missing, testing::ElementsAre("the allergens of walnut paste"));
  EXPECT_THAT(questions_of(asked), HasSubstr("Which allergens does walnut paste hold?"));
  EXPECT_THAT(questions_of(asked), HasSubstr("walnut paste sounds of walnuts"));
  const Label said = labelled(loaf("Loaf",
                                   "water = \"600 g\"\n\"walnut paste\" = \"90 g\"\n",
                                   table + "allergens = [\"Walnut\"]\n"));
  EXPECT_TRUE(said.missing.empty());
  EXPECT_THAT(list_of(said), HasSubstr("WALNUT paste"));
  EXPECT_THAT(questions_of(said), Not(HasSubstr("sounds of")));
  const Label none = labelled(loaf("Loaf",
                                   "water = \"600 g\"\n\"marsh herb\" = \"9 g\"\n",
                                   "[ingredient.\"marsh herb\"]\ngroup = \"other\"\n"
                                   "water = \"80 %\"\nallergens = []\n"));
  EXPECT_TRUE(none.missing.empty());
}

TEST(IngredientList, AsksWhereTheNameSpeaksOfAnAllergenThatIsNotThere) {
  EXPECT_THAT(questions_of(labelled(loaf("Walnut loaf", "water = \"600 g\"\n"))),
              HasSubstr("The bread's name speaks of walnuts"));
  EXPECT_THAT(
      questions_of(labelled(loaf("Walnut loaf", "water = \"600 g\"\nwalnuts = \"90 g\"\n"))),
      Not(HasSubstr("The bread's name speaks of")));
}

/// A drink of the baker's own above 1.2 % vol has no list, its allergens are set off all the same.
TEST(IngredientList, SetsOffWhatTheUnprintedListOfAStrongDrinkHolds) {
  const Label made = labelled(loaf("Loaf",
                                   "\"cream liqueur\" = \"100 g\"\nwater = \"500 g\"\n",
                                   "[ingredient.\"cream liqueur\"]\nlike = \"liqueur\"\n"
                                   "allergens = []\nlist = \"spirit, {milk}, sugar\"\n"));
  EXPECT_THAT(list_of(made), HasSubstr("cream liqueur (MILK)"));
  EXPECT_EQ(made.allergens, (std::vector<std::string>{"milk", "wheat"}));
}

TEST(IngredientList, NamesTheNutInAmericaAndNeitherLupinNorCelery) {
  const Label made =
      labelled(loaf("Loaf",
                    "water = \"600 g\"\npecans = \"90 g\"\n\"dyke flour\" = \"90 g\"\n",
                    "[ingredient.\"dyke flour\"]\nlike = \"chickpea flour\"\n"
                    "allergens = [\"lupin\", \"celery\"]\n"),
               Law::us);
  EXPECT_EQ(plain(barm::test::line_of(made, "allergens")->text), "Contains: Pecans, Wheat.");
}

// --- Art. 22, Annex VIII: quantities ---

TEST(IngredientList, SaysTheQuantityOfWhatStandsInTheName) {
  const std::string lines = "\"red wine\" = \"640 g\"\nsalt = \"20 g\"\n";
  EXPECT_THAT(list_of(labelled(loaf("Red wine loaf", lines))),
              HasSubstr("red wine (SULPHITES) 43 %"));
  EXPECT_THAT(list_of(labelled(loaf("Sunday loaf", lines))), Not(HasSubstr("%")));
}

TEST(IngredientList, CountsTheWholeRyeOfBowlAndSourdough) {
  // 300 g in the bowl and 200 / 1.5 g, all but the ripe part, in the sourdough; 1890 g of bread.
  const Label made = labelled(loaf("Rye loaf",
                                   "\"rye flour\" = \"300 g\"\nwater = \"600 g\"\n"
                                   "\"rye sour\" = \"200 g\"\n"));
  const formula::Bake of = barm::test::bake(loaf("Rye loaf",
                                                 "\"rye flour\" = \"300 g\"\nwater = \"600 g\"\n"
                                                 "\"rye sour\" = \"200 g\"\n"));
  const double hydration = formula::settle(of).value().back()[larder::Property::hydration];
  const double share = (300 + 200 / (1 + hydration)) / (0.9 * 2100);
  for (const Listed& item : made.ingredients.items) {
    if (plain(item.name) == "rye flour") {
      EXPECT_NEAR(item.quantity, share, 1e-9);
    }
  }
  EXPECT_THAT(list_of(made), HasSubstr("RYE flour 2"));
  const Label sour = labelled(loaf("Rye loaf", "water = \"600 g\"\n\"rye sour\" = \"200 g\"\n"));
  EXPECT_THAT(list_of(sour), testing::ContainsRegex("sourdough \\(RYE flour [0-9]+ %, water\\)"));
}

// 1000 g of flour and 900 g of beer, a third lost: over 100 g of both for 100 g of bread.
TEST(IngredientList, SaysGramsWhereQuantitiesPassTheWhole) {
  const Label made = labelled(
      "name = \"Wholemeal stout rusk\"\npieces = 1\nloss = { bake = \"45 %\" "
      "}\n[bowl]\n\"wholemeal "
      "flour\" = \"1000 g\"\nstout = \"900 g\"\n");
  EXPECT_THAT(list_of(made), HasSubstr("wholemeal WHEAT flour 96 g in 100 g"));
  EXPECT_THAT(list_of(made), HasSubstr("86 g in 100 g"));
}

}  // namespace

}  // namespace barm::shop
