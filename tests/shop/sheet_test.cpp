// What is printed, and what is asked before: Regulation (EU) No 1169/2011, Art. 9, 13 to 17, 24,
// 33; Directive 76/211/EEC; 21 CFR 101.9 and 136.
#include <gmock/gmock.h>

#include "larder/larder.h"
#include "shop/labels.h"
#include "shop/print.h"
#include "support/matchers.h"
#include "support/printers.h"
#include "time/date.h"

namespace barm::shop {

namespace {

using barm::test::labelled;
using barm::test::line_of;
using barm::test::list_of;
using barm::test::loaf;
using barm::test::questions_of;
using testing::HasSubstr;
using testing::Not;

std::string sheet(const Label& label) { return label_block(label, {}); }

const std::string plain_lines = "water = \"600 g\"\nsalt = \"20 g\"\n";

/// All that the United States ask to be measured.
const std::string measured =
    "[label]\ntrans_fat = \"0 g\"\ncholesterol = \"0 mg\"\nvitamin_d = \"0 ug\"\niron = \"1.3 "
    "mg\"\n";

// --- weight and letters ---

TEST(Sheet, PrintsTheWeightInItsLegalHeight) {
  const auto height = [](double grams, Law law) {
    Label label;
    label.law = law;
    label.loaf = grams * gram;
    return weight_height(label).in(millimetre);
  };
  // Directive 76/211/EEC, annex I 3.1; from memory.
  EXPECT_DOUBLE_EQ(height(50, Law::eu), 2);
  EXPECT_DOUBLE_EQ(height(51, Law::eu), 3);
  EXPECT_DOUBLE_EQ(height(200, Law::uk), 3);
  EXPECT_DOUBLE_EQ(height(201, Law::uk), 4);
  EXPECT_DOUBLE_EQ(height(1000, Law::eu), 4);
  EXPECT_DOUBLE_EQ(height(1001, Law::eu), 6);
  EXPECT_DOUBLE_EQ(height(792, Law::us), 25.4 * 3 / 16);
  EXPECT_THAT(sheet(labelled(loaf("Loaf", plain_lines))), HasSubstr("class=\"weight\""));
}

// --- Art. 33: by the portion only where it is asked, with the number of portions ---

TEST(Sheet, HasPortionsOnlyWhenAsked) {
  const std::string text = loaf("Loaf", plain_lines);
  const Label none = labelled(text);
  EXPECT_EQ(none.nutrition.front().said_portion, "");
  EXPECT_THAT(sheet(none), Not(HasSubstr("portion")));
  const Label fifty = labelled(text, Law::eu, 50.0 * gram);
  EXPECT_NE(fifty.nutrition.front().said_portion, "");
  EXPECT_THAT(sheet(fifty), HasSubstr("portions: about 15"));  // 729 g
  EXPECT_THAT(sheet(fifty), HasSubstr(">50 g<"));
}

// --- Art. 9 and 15: fields, in the language of the sale ---

const std::string fields =
    "[label]\nlegal_name = \"Weizenbrot\"\nmaker = \"Dyke End\"\naddress = \"Saltmarsh Lane 1\"\n"
    "storage = \"Trocken lagern.\"\nlot = \"332\"\nbest_before = 2026-12-03\nlanguage = \"de\"\n";

TEST(Sheet, SpeaksTheLanguageOfTheSale) {
  const Label made =
      labelled("mixed = \"2026-11-28T07:00\"\n" +
               loaf("Roggenbrot", "\"rye flour\" = \"300 g\"\n" + plain_lines, fields));
  const std::string html = sheet(made);
  for (const char* words : {"lang=\"de\"",
                            "Zutaten: ",
                            "<b>Weizen</b>mehl",
                            "<b>Roggen</b>mehl 17 %",
                            "Speisesalz",
                            "Weizenbrot",
                            "mindestens haltbar bis 3. Dezember",
                            "Los 332",
                            "Dyke End, Saltmarsh Lane 1",
                            "Trocken lagern.",
                            "davon gesättigte Fettsäuren"})
    EXPECT_THAT(html, HasSubstr(words));
  EXPECT_THAT(html, Not(HasSubstr("2026"))) << "day and month, for what keeps three months at most";
  EXPECT_THAT(html, testing::ContainsRegex("[0-9],[0-9]")) << "figures with a comma";
  const std::string french =
      sheet(labelled(loaf("Loaf", plain_lines, "[label]\nlanguage = \"fr\"\n")));
  EXPECT_THAT(french, HasSubstr("farine de <b>blé</b>"));
  EXPECT_THAT(french, HasSubstr("dont acides gras saturés"));
}

TEST(Sheet, SetsOffInCapitalsWithTheirAccents) {
  const auto list = [](const char* language) {
    return list_of(labelled(loaf("Loaf",
                                 plain_lines + "egg = \"100 g\"\nwalnuts = \"50 g\"\n",
                                 std::string("[label]\nlanguage = \"") + language + "\"\n")));
  };
  EXPECT_EQ(list("fr"), "Ingrédients: farine de BLÉ, eau, ŒUFS, NOIX, sel.");
  EXPECT_EQ(list("de"), "Zutaten: WEIZENmehl, Wasser, EI, WALNÜSSE, Speisesalz.");
  EXPECT_EQ(list("it"), "Ingredienti: farina di GRANO tenero, acqua, UOVA, NOCI, sale.");
  EXPECT_EQ(list("es"), "Ingredientes: harina de TRIGO, agua, HUEVO, NUECES, sal.");
}

TEST(Sheet, HasEveryTermAndNameInEveryLanguage) {
  for (const Tongue tongue : {Tongue::en, Tongue::de, Tongue::fr, Tongue::it, Tongue::es}) {
    for (const auto& one : larder::all())
      EXPECT_FALSE(label_word(one.key, tongue).name.empty()) << one.key;
    for (const char* key :
         {"ingredients", "contains", "best_before", "nutrition", "salt", "month 12"})
      EXPECT_FALSE(term(key, tongue).empty()) << key;
  }
}

TEST(Sheet, SaysTheYearWhereItMayKeepLonger) {
  const Label made = labelled(loaf("Loaf", plain_lines, "[label]\nbest_before = 2026-12-03\n"));
  EXPECT_EQ(best_before_words(made, std::nullopt), "best before 3 December 2026");
  EXPECT_EQ(best_before_words(made, time::parse_date("2026-11-28")), "best before 3 December");
  EXPECT_EQ(best_before_words(made, time::parse_date("2026-08-01")), "best before 3 December 2026");
  // Annex X 1(d): none on what is eaten within a day of being made.
  const Label day = labelled(loaf("Loaf", plain_lines, "[label]\nbest_before = \"same day\"\n"));
  EXPECT_EQ(best_before_words(day, std::nullopt), "");
  EXPECT_THAT(sheet(day), Not(HasSubstr("best before")));
}

TEST(Sheet, SaysWhichFieldsAreMissing) {
  const Label made = labelled(loaf("Loaf", plain_lines));
  for (const char* field : {"legal name", "best before", "storage", "maker"}) {
    ASSERT_NE(line_of(made, field), nullptr) << field;
    EXPECT_THAT(line_of(made, field)->unknown.front(), HasSubstr("still missing")) << field;
  }
  EXPECT_EQ(plain(line_of(labelled(loaf("Loaf", plain_lines, fields)), "maker")->text),
            "Dyke End, Saltmarsh Lane 1");
}

// Art. 16(2): on under 10 cm2 the allergens will do, on under 25 no nutrition table is wanted.
TEST(Sheet, IsShortOnASmallPack) {
  const auto of_side = [](const char* side) {
    return sheet(labelled(
        loaf("Loaf", plain_lines, std::string("[label]\nlargest_side = \"") + side + "\"\n")));
  };
  EXPECT_THAT(of_side("9 cm2"), HasSubstr("contains <b>wheat</b>"));
  EXPECT_THAT(of_side("9 cm2"), Not(HasSubstr("Ingredients")));
  EXPECT_THAT(of_side("24 cm2"), HasSubstr("Ingredients"));
  EXPECT_THAT(of_side("24 cm2"), Not(HasSubstr("<table>")));
  EXPECT_THAT(of_side("79 cm2"), HasSubstr("the law asks for 0.90 mm"));
  EXPECT_THAT(of_side("80 cm2"), HasSubstr("the law asks for 1.20 mm"));
}

TEST(Sheet, IsNotPrintedWhileAnAllergenIsNotSaid) {
  const Label made = labelled(loaf("Loaf",
                                   plain_lines + "paste = \"50 g\"\n",
                                   "[ingredient.paste]\ngroup = \"other\"\nwater = \"5 %\"\n"));
  EXPECT_THAT(sheet(made), HasSubstr("Not to be printed yet"));
  EXPECT_THAT(sheet(made), HasSubstr("the allergens of paste"));
  EXPECT_THAT(sheet(made), Not(HasSubstr("Ingredients:")));
}

// --- the United States ---

TEST(Panel, IsWholeWhereAllIsKnown) {
  const Label made =
      labelled(loaf("Honey loaf", plain_lines + "honey = \"100 g\"\n", measured), Law::us);
  EXPECT_TRUE(made.missing.empty());
  const std::string html = sheet(made);
  for (const char* words : {"Nutrition Facts",
                            "servings per container",
                            "Serving size 1/15 loaf (52g)",
                            "Includes 0g Added Sugars",
                            "Trans Fat 0g",
                            "Vitamin D 0mcg",
                            "<b>Total Fat</b>",
                            "class=\"j\"",
                            "*The % Daily Value (DV) tells you",
                            "2,000 calories a day"})
    EXPECT_THAT(html, HasSubstr(words));
  EXPECT_THAT(html, Not(HasSubstr("not known")));
}

TEST(Panel, HasASecondColumnForAPieceOfTwoToThreeServings) {
  const auto of_pieces = [](int pieces) {
    return labelled(
        "name = \"Rolls\"\npieces = " + std::to_string(pieces) +
            "\nloss = { bake = \"10 %\" }\n[bowl]\n\"white bread flour\" = \"1000 g\"\n" +
            plain_lines + measured,
        Law::us);
  };
  const Label large = of_pieces(12);  // 1458 g: 121 g each
  EXPECT_TRUE(large.serving.whole_too);
  EXPECT_NE(large.nutrition.front().said_whole, "");
  EXPECT_THAT(sheet(large), HasSubstr("per container"));
  const Label small = of_pieces(20);  // 73 g: one serving
  EXPECT_FALSE(small.serving.whole_too);
  EXPECT_EQ(small.serving.measure, "1 roll");
  EXPECT_THAT(sheet(small), HasSubstr("1 serving per container"));
}

/// 21 CFR 101.9(c)(6)(iii): honey, syrups, malt extract, sweetened fruit; not milk, not raisins.
TEST(Panel, CountsAddedSugarsOfSyrupsAndSweetenedFruit) {
  const auto added = [](const std::string& line, const std::string& table = "") {
    const formula::Bake of = barm::test::bake(loaf("Loaf", "water = \"600 g\"\n" + line, table));
    LoafDraw draw = barm::test::book_loaf(of);
    draw.fermented.sugar_left = 100.0 * gram;  // nothing of it is eaten
    const Nutrients n = nutrients(of, draw.settled, draw.bowl, draw.fermented, draw.baked, true);
    return 1000 * n[Nutrient::added_sugars];
  };
  EXPECT_GT(added("\"malt syrup\" = \"100 g\"\n"), 50);
  EXPECT_GT(added("honey = \"100 g\"\n"), 70);
  EXPECT_GT(added("\"dried cranberries\" = \"100 g\"\n"), 55);
  EXPECT_EQ(added("raisins = \"100 g\"\n"), 0);
  EXPECT_EQ(added("\"whole milk\" = \"100 g\"\n"), 0);
  EXPECT_NEAR(added("paste = \"100 g\"\n",
                    "[ingredient.paste]\ngroup = \"other\"\nwater = \"5 %\"\n"
                    "added_sugars = \"40 %\"\n"),
              40,
              1e-9);
}

TEST(Panel, AsksForStandardsOfIdentity) {
  const auto asked = [](const char* name) {
    return questions_of(labelled(loaf(name, plain_lines), Law::us));
  };
  EXPECT_THAT(asked("Raisin bread"), HasSubstr("50 parts of raisins"));
  EXPECT_THAT(asked("Milk bread"), HasSubstr("is milk"));
  EXPECT_THAT(asked("Whole wheat bread"), HasSubstr("the only flour"));
  EXPECT_THAT(asked("Enriched bread"), HasSubstr("thiamin, riboflavin"));
  EXPECT_THAT(asked("Sunday bread"), Not(HasSubstr("standard of identity")));
  EXPECT_THAT(asked("Sunday bread"), HasSubstr("enriched flour"));
}

// --- drinks and fat ---

TEST(Questions, AskForIsinglassOfCiderAndMead) {
  for (const char* drink : {"dry cider", "dry mead"}) {
    const std::string asked =
        questions_of(labelled(loaf("Loaf", std::string("\"") + drink + "\" = \"600 g\"\n")));
    EXPECT_THAT(asked, HasSubstr("isinglass (fish)")) << drink;
    EXPECT_THAT(asked, Not(HasSubstr("isinglass (fish) is exempt"))) << drink;
  }
}

TEST(Questions, DoubtWhetherAWinesOwnListIsRepeated) {
  const std::string wine = loaf("Loaf", "\"red wine\" = \"600 g\"\n");
  EXPECT_THAT(questions_of(labelled(wine)), HasSubstr("its bottle has a list of ingredients"));
  EXPECT_THAT(questions_of(labelled(wine, Law::uk)), Not(HasSubstr("its bottle has a list")));
}

// USDA 04002, lard: 39.2 g of 100 g of fat are saturated; from memory.
TEST(Saturates, OfLardAreKnown) {
  const formula::Bake of = barm::test::bake(loaf("Loaf", "lard = \"100 g\"\n"));
  const formula::Bake without = barm::test::bake(loaf("Loaf", "water = \"100 g\"\n"));
  const auto saturates = [](const formula::Bake& bake) {
    const LoafDraw draw = barm::test::book_loaf(bake);
    return 1000 * nutrients(bake, draw.settled, draw.bowl, {}, draw.baked)[Nutrient::saturates];
  };
  EXPECT_NEAR(saturates(of) - saturates(without), 39.2, 0.1);
}

TEST(Remembered, StandsTheWorstFirst) {
  const Label made = labelled(loaf("Wine loaf", "\"red wine\" = \"600 g\"\n" + plain_lines));
  ASSERT_GT(made.remembered.size(), 5U);
  for (std::size_t i = 1; i < made.remembered.size(); ++i)
    EXPECT_LE(label_rule(made.remembered[i - 1]).harm, label_rule(made.remembered[i]).harm);
  for (const std::string& id : made.remembered) EXPECT_EQ(label_rule(id).standing, "remembered");
  EXPECT_EQ(label_rule(made.remembered.front()).harm, 1);
}

}  // namespace

}  // namespace barm::shop
