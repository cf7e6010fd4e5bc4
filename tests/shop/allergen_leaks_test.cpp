// Regulation (EU) No 1169/2011, Art. 9(1)(c), 21(1)(b) and Annex II: each way in which an allergen
// was once known, or within reach, and did not stand on the label.
#include <gmock/gmock.h>

#include <algorithm>

#include "shop/labels.h"
#include "shop/print.h"
#include "shop/wording.h"

namespace barm::shop {

namespace {

using barm::test::bake;
using barm::test::book_loaf;
using barm::test::labelled;
using barm::test::line_of;
using barm::test::list_of;
using barm::test::loaf;
using barm::test::questions_of;
using testing::AllOf;
using testing::Contains;
using testing::HasSubstr;
using testing::Not;

/// An own ingredient of which 50 g are in the bowl, with these lines in its table.
std::string with_own(const std::string& lines, const std::string& head = "group = \"other\"\n") {
  return loaf("Loaf",
              "water = \"600 g\"\nthing = \"50 g\"\n",
              "[ingredient.thing]\n" + head + "water = \"5 %\"\n" + lines);
}

std::string list_in(const char* language, const std::string& text) {
  return list_of(labelled(text + "[label]\nlanguage = \"" + language + "\"\n"));
}

TEST(AllergenLeaks, NoOtherWordTakesTheEmphasis) {
  // "Ei" is not in "Eispulver", nor are walnuts in a coconut or wheat in buckwheat.
  const auto own = [](const char* name, const char* allergen) {
    return with_own(std::string("label_name = \"") + name + "\"\nallergens = [\"" + allergen +
                    "\"]\n");
  };
  EXPECT_THAT(list_in("de", own("Eispulver", "eggs")), HasSubstr("Eispulver (EI"));
  EXPECT_THAT(list_in("de", own("Eipulver (Ei)", "eggs")), HasSubstr("Eipulver (EI"));
  EXPECT_THAT(list_in("fr", own("mélange noix de coco", "walnuts")),
              AllOf(HasSubstr("noix de coco ("), HasSubstr("NOIX)")));
  EXPECT_THAT(list_in("it", own("misto di grano saraceno", "wheat")),
              AllOf(HasSubstr("grano saraceno ("), HasSubstr("GRANO)")));
  EXPECT_THAT(list_in("es", own("mezcla de nuez moscada", "walnuts")),
              AllOf(HasSubstr("nuez moscada ("), HasSubstr("NUECES)")));
  EXPECT_THAT(list_in("en", own("coconut milk chips", "milk")), HasSubstr("chips (MILK"));
  EXPECT_THAT(list_in("de", own("Vollmilchpulver", "milk")), HasSubstr("VollMILCHpulver"));
}

TEST(AllergenLeaks, WhatTheOwnListSpeaksOfIsSetOffWithoutBraces) {
  const std::string english = with_own(
      "list = \"cocoa mass, sugar, whole milk powder, cocoa butter, coconut milk\"\n"
      "allergens = [\"soya\"]\n");
  EXPECT_THAT(list_of(labelled(english)),
              HasSubstr("whole MILK powder, cocoa butter, coconut milk"));
  EXPECT_THAT(list_of(labelled(english)), HasSubstr("SOYA"));
  EXPECT_EQ(plain(line_of(labelled(english, Law::us), "allergens")->text),
            "Contains: Milk, Soy, Wheat.");
  const std::string german =
      with_own("list = \"Kakaomasse, Vollmilchpulver, Milchsäure\"\nallergens = []\n");
  EXPECT_THAT(list_in("de", german), HasSubstr("VollMILCHpulver, Milchsäure"));
  EXPECT_THAT(list_in("fr", with_own("list = \"sucre, farine d’orge, laitue\"\nallergens = []\n")),
              HasSubstr("sucre, farine d’ORGE, laitue"));
}

TEST(AllergenLeaks, AWordInBracesIsReadByWholeShortWords) {
  EXPECT_EQ(set_off_in("{Speisequark}", Tongue::de), (std::set<std::string>{"speisequark"}));
  EXPECT_EQ(set_off_in("{Reis}", Tongue::de), (std::set<std::string>{"reis"}));
  EXPECT_EQ(set_off_in("Butter{milch}", Tongue::de), (std::set<std::string>{"milk"}));
  EXPECT_EQ(set_off_in("{Buttermilch}", Tongue::de), (std::set<std::string>{"milk"}));
  EXPECT_EQ(set_off_in("{Eigelb}", Tongue::de), (std::set<std::string>{"eggs"}));
  EXPECT_EQ(set_off_in("{Milch}", Tongue::en), (std::set<std::string>{"milk"}));
  EXPECT_EQ(set_off_in("{crayfish}", Tongue::en), (std::set<std::string>{"crustaceans"}));
}

TEST(AllergenLeaks, TheFlourOfALevainIsAskedToo) {
  const Label made = labelled(loaf("Loaf",
                                   "water = \"600 g\"\nlevain = \"200 g\"\n",
                                   "[levain]\nstarter = \"stiff ripe levain\"\nflour = \"mill "
                                   "mix\"\n[ingredient.\"mill mix\"]\nlike = \"rice flour\"\n"));
  EXPECT_THAT(made.missing, Contains("the allergens of mill mix"));
  EXPECT_THAT(questions_of(made), HasSubstr("Which allergens does mill mix hold?"));
  EXPECT_THAT(plain(line_of(made, "allergens")->text),
              HasSubstr("Not known yet: the allergens of mill mix."));
}

TEST(AllergenLeaks, WaterThatHoldsAnAllergenIsNeverLeftOut) {
  // 1000 + 600 + 50 + 20 g, 1503 g baked: nothing would be left for it as water.
  for (const char* name : {"pasta water", "water"}) {
    const std::string text = loaf(
        "Loaf",
        "stout = \"600 g\"\nwater = \"20 g\"\n\"cooking liquor\" = \"30 g\"\nsalt = \"20 g\"\n",
        std::string("[ingredient.\"cooking liquor\"]\ngroup = \"water\"\nallergens = "
                    "[\"eggs\"]\nlabel_name = \"") +
            name + "\"\n");
    const Label made = labelled(text);
    EXPECT_THAT(list_of(made), HasSubstr(std::string(name) + " (EGGS)"));
    const auto& items = made.ingredients.items;
    EXPECT_EQ(std::count_if(
                  items.begin(),
                  items.end(),
                  [](const Listed& one) { return one.may_be_left_out && !one.set_off.empty(); }),
              0);
  }
}

/// Annex II point 12: where a sack says sulphites and nobody how much, they are named.
TEST(AllergenLeaks, SulphitesThatAreToldStandThereWithoutAFigure) {
  const std::string figs = with_own("allergens = [\"sulphites\"]\n", "like = \"dried figs\"\n");
  EXPECT_EQ(labelled(figs).sulphites, Sulphites::perhaps);
  EXPECT_THAT(list_of(labelled(figs)), HasSubstr("thing (SULPHITES)"));
  EXPECT_THAT(list_of(labelled(with_own("list = \"figs, sulphur dioxide\"\nallergens = []\n",
                                        "like = \"dried figs\"\n"))),
              HasSubstr("figs, SULPHUR DIOXIDE"));
  // A figure settles it: 50 g of 20 mg/kg in 1485 g.
  const Label settled = labelled(with_own(
      "allergens = [\"sulphites\"]\ntotal_sulphite = \"20 mg/kg\"\n", "like = \"dried figs\"\n"));
  EXPECT_EQ(settled.sulphites, Sulphites::no);
}

TEST(AllergenLeaks, AllergensLeftOutOfWhatItIsLikeAreAsked) {
  const std::string malted = with_own("allergens = [\"barley\"]\n", "like = \"plain flour\"\n");
  EXPECT_THAT(
      questions_of(labelled(malted)),
      HasSubstr("thing is like plain white flour, which holds wheat, and its own allergens leave "
                "that out: is it free of it?"));
  const std::string both =
      with_own("allergens = [\"barley\", \"wheat\"]\n", "like = \"plain flour\"\n");
  EXPECT_THAT(questions_of(labelled(both)), Not(HasSubstr("leave that out")));
}

TEST(AllergenLeaks, ANameInTheLanguageOfTheSaleIsHeard) {
  const std::string text = with_own("label_name = \"Haselnussmus\"\nallergens = []\n");
  EXPECT_THAT(questions_of(labelled(text + "[label]\nlanguage = \"de\"\n")),
              HasSubstr("thing sounds of hazelnuts"));
}

TEST(AllergenLeaks, WhatTheMillAddsIsAsked) {
  for (const Law law : {Law::eu, Law::uk, Law::us})
    EXPECT_THAT(questions_of(labelled(loaf("Loaf", "water = \"600 g\"\n"), law)),
                HasSubstr("Does the mill add anything to the flour, such as malt flour (barley)"));
}

TEST(AllergenLeaks, WhatComesOnTheLoafIsAsked) {
  for (const Law law : {Law::eu, Law::uk, Law::us})
    EXPECT_THAT(questions_of(labelled(loaf("Loaf", "water = \"600 g\"\n"), law)),
                HasSubstr("egg wash, seeds, flour for dusting, butter in the tin"));
}

/// The list of one of the baker's own goes on with another that is like it.
TEST(AllergenLeaks, WhatAnOwnListHoldsIsHeldByWhatIsLikeIt) {
  const Label made = labelled(
      loaf("Loaf",
           "water = \"600 g\"\n\"dark thing\" = \"50 g\"\n",
           "[ingredient.thing]\ngroup = \"other\"\nwater = \"1 %\"\nlist = \"cocoa mass, {milk} "
           "powder\"\nallergens = [\"soya\"]\n[ingredient.\"dark thing\"]\nlike = \"thing\"\n"));
  EXPECT_THAT(list_of(made), HasSubstr("cocoa mass, MILK powder"));
  EXPECT_EQ(made.allergens, (std::vector<std::string>{"milk", "soya", "wheat"}));
}

TEST(AllergenLeaks, WhatThePlainOneDoesNotHoldIsAsked) {
  const auto asked = [](const std::string& drink, const std::string& tables = "") {
    return questions_of(
        labelled(loaf("Loaf", "water = \"300 g\"\n" + drink + " = \"300 g\"\n", tables)));
  };
  EXPECT_THAT(asked("stout"),
              HasSubstr("Does the stout hold wheat, oats, rye or milk sugar (milk)?"));
  EXPECT_THAT(asked("liqueur"), HasSubstr("Does the liqueur hold milk, eggs or nuts?"));
  EXPECT_THAT(asked("\"lemon juice\""), HasSubstr("Does the lemon juice hold sulphites?"));
  EXPECT_THAT(asked("\"dry mead\""), Not(HasSubstr("Does the dry mead hold")));
  EXPECT_THAT(asked("\"milk stout\"",
                    "[ingredient.\"milk stout\"]\nlike = \"stout\"\nallergens = [\"barley\", "
                    "\"milk\"]\n"),
              Not(HasSubstr("Does the milk stout hold")));
}

/// What is asked can be answered: the bottle's sulphites then stand in the list.
TEST(AllergenLeaks, SulphitesOfABottleOfLemonJuiceCanBeSaid) {
  const std::string text = with_own("allergens = [\"sulphites\"]\n", "like = \"lemon juice\"\n");
  EXPECT_THAT(list_of(labelled(text)), HasSubstr("thing (SULPHITES)"));
}

TEST(AllergenLeaks, ACardThatWouldNameOnlySomeSaysSo) {
  ShelfCard card;
  card.name = "Loaf";
  card.allergens = {"wheat"};
  card.not_said = "mill mix";
  EXPECT_THAT(
      card_block(card),
      AllOf(HasSubstr("the allergens of mill mix are not known"), Not(HasSubstr("Contains"))));
  card.not_said.clear();
  card.tongue = Tongue::de;
  card.allergens = {"Weizen"};
  EXPECT_THAT(card_block(card), HasSubstr("Enthält <b>Weizen</b>"));
}

}  // namespace

}  // namespace barm::shop
