#include "shop/label.h"

#include <gmock/gmock.h>

#include "formula/read.h"
#include "shop/bakes.h"
#include "shop/print.h"
#include "support/matchers.h"
#include "support/printers.h"

namespace barm::shop {

namespace {

using barm::test::bake;
using testing::HasSubstr;
using testing::Not;

LoafDraw loaf_of(const formula::Bake& of) {
  LoafDraw draw;
  draw.settled = formula::settle(of).value();
  draw.bowl = formula::in_the_bowl(of, draw.settled).value();
  draw.baked.loss = of.bake_loss;
  return draw;
}

Label labelled(const std::string& text, Law law = Law::eu) {
  const formula::Bake of = bake(text);
  return label(of, loaf_of(of), {}, {law, Mass()});
}

std::string loaf(const std::string& name, const std::string& lines) {
  return "name = \"" + name +
         "\"\npieces = 2\nloss = { handling = \"0 %\", bake = \"10 %\" }\n[bowl]\n"
         "\"white bread flour\" = \"1000 g\"\n" +
         lines;
}

std::string list(const Label& label) { return plain(label.ingredients.text, true); }

const LabelLine* line(const Label& label, const std::string& field) {
  for (const LabelLine& one : label.lines) {
    if (one.field == field) return &one;
  }
  return nullptr;
}

TEST(IngredientList, PutsWaterByWhatIsLeftOfIt) {
  // 1000 + 500 + 300 + 20 g, 1638 g baked: 318 g of water are left, under 450 g of milk.
  const Label made = labelled(
      loaf("Milk loaf", "water = \"500 g\"\n\"whole milk\" = \"450 g\"\nsalt = \"20 g\"\n"));
  EXPECT_EQ(list(made), "Ingredients: WHEAT flour, whole MILK 25 %, water, salt.");
  const Listed& water = made.ingredients.items[2];
  EXPECT_NEAR(water.left.in(gram), 0.9 * 1970 - 1000 - 450 - 20, 1.5);
  EXPECT_TRUE(made.ingredients.order_depends == false) << "water stands by its remainder in both";
}

TEST(IngredientList, CountsADrinkByWhatIsLeftOfIt) {
  const Label made = labelled(
      loaf("Stout loaf", "stout = \"700 g\"\n\"rye flour\" = \"550 g\"\nsalt = \"20 g\"\n"));
  EXPECT_EQ(list(made), "Ingredients: WHEAT flour, RYE flour, stout (BARLEY) 34 %, salt.");
  EXPECT_TRUE(made.ingredients.order_depends);
  EXPECT_THAT(made.ingredients.by_the_bowl, HasSubstr("stout (barley), rye flour"));
}

TEST(IngredientList, SaysTheQuantityOfWhatStandsInTheName) {
  const std::string lines = "\"red wine\" = \"640 g\"\nsalt = \"20 g\"\n";
  EXPECT_THAT(list(labelled(loaf("Red wine loaf", lines))), HasSubstr("red wine (SULPHITES) 43 %"));
  EXPECT_THAT(list(labelled(loaf("Sunday loaf", lines))), Not(HasSubstr("%")));
}

// 1000 g of flour and 900 g of beer, a third lost: over 100 g of both for 100 g of bread.
TEST(IngredientList, SaysGramsWhereQuantitiesPassTheWhole) {
  const Label made = labelled(
      "name = \"Wholemeal stout rusk\"\npieces = 1\nloss = { bake = \"45 %\" "
      "}\n[bowl]\n\"wholemeal "
      "flour\" = \"1000 g\"\nstout = \"900 g\"\n");
  EXPECT_THAT(list(made), HasSubstr("wholemeal WHEAT flour 96 g in 100 g"));
  EXPECT_THAT(list(made), HasSubstr("86 g in 100 g"));
}

TEST(IngredientList, MarksWhatIsUnderTwoPercent) {
  const Label made = labelled(loaf("Loaf", "water = \"600 g\"\nsalt = \"20 g\"\n"));
  EXPECT_TRUE(made.ingredients.items.back().under_two_percent);
  EXPECT_FALSE(made.ingredients.items.front().under_two_percent);
  const Label us = labelled(loaf("Loaf", "water = \"600 g\"\nsalt = \"20 g\"\n"), Law::us);
  EXPECT_EQ(list(us), "Ingredients: wheat flour, water; contains 2% or less of: salt.");
}

TEST(IngredientList, OpensTheLevain) {
  const Label made =
      labelled(loaf("Loaf", "water = \"600 g\"\nsalt = \"20 g\"\nlevain = \"200 g\"\n"));
  EXPECT_THAT(list(made), HasSubstr("sourdough (WHEAT flour, water)"));
}

TEST(IngredientList, AddsUpToTheLoaf) {
  const Label made = labelled(loaf(
      "Stout loaf", "stout = \"500 g\"\nwater = \"200 g\"\nhoney = \"50 g\"\nsalt = \"20 g\"\n"));
  double sum = 0;
  for (const Listed& item : made.ingredients.items) sum += item.of_loaf;
  EXPECT_NEAR(sum, 1, 1e-9);
}

TEST(Sulphites, AreNamedAboveTenAndAtTenInAmerica) {
  // 100 mg in a kilogram of loaf is 10 mg/kg exactly where the wine brings it alone.
  const auto at = [](double milligrams, Law law) {
    Nutrients n;
    n.mass = 1;
    n[Nutrient::sulphite] = milligrams * 1e-6;
    EXPECT_NEAR(sulphite_bound(n), milligrams, 1e-9);
    (void)law;
    return sulphite_bound(n);
  };
  EXPECT_GT(at(10.01, Law::eu), 10);
  const std::string much =
      loaf("Loaf",
           "\"white wine\" = \"600 g\"\n[bottle.\"white wine\"]\ntotal_sulphite = \"134 mg/L\"\n");
  const std::string none =
      loaf("Loaf",
           "\"white wine\" = \"600 g\"\n[bottle.\"white wine\"]\ntotal_sulphite = \"0 "
           "mg/L\"\nfree_sulphite = \"0 mg/L\"\n");
  EXPECT_EQ(labelled(much).sulphites, Sulphites::yes);
  EXPECT_EQ(labelled(none).sulphites, Sulphites::no);
  EXPECT_THAT(list(labelled(much)), HasSubstr("SULPHITES"));
  EXPECT_THAT(list(labelled(much, Law::us)), HasSubstr("white wine (sulfites)"));
}

TEST(Allergens, LeaveOutWhatAmericaDoesNotCount) {
  const std::string text = loaf("Loaf", "stout = \"600 g\"\nbutter = \"30 g\"\n");
  EXPECT_EQ(labelled(text).allergens, (std::vector<std::string>{"barley", "milk", "wheat"}));
  EXPECT_EQ(labelled(text, Law::us).allergens, (std::vector<std::string>{"milk", "wheat"}));
}

TEST(Questions, AskForFiningProtectedNamesAndAge) {
  const Label made =
      labelled(loaf("Sherry wine loaf", "\"white wine\" = \"600 g\"\nsalt = \"20 g\"\n"));
  std::string all;
  for (const LabelLine& one : made.questions) all += one.field + ": " + plain(one.text) + "\n";
  EXPECT_THAT(all, HasSubstr("egg white (eggs)"));
  EXPECT_THAT(all, HasSubstr("\"sherry\" may be a protected name"));
  EXPECT_THAT(all, HasSubstr("age and duty"));
  const Label port = labelled(loaf("Portland loaf", "water = \"600 g\"\n"));
  for (const LabelLine& one : port.questions) EXPECT_NE(one.field, "protected name");
}

TEST(Label, EveryLineNamesARuleAndSaysThatItIsADraft) {
  for (const Law law : {Law::eu, Law::uk, Law::us}) {
    const Label made = labelled(loaf("Stout loaf", "stout = \"600 g\"\nsalt = \"20 g\"\n"), law);
    EXPECT_THAT(made.draft, HasSubstr("draft"));
    for (const LabelLine& one : made.lines) EXPECT_FALSE(one.rules.empty()) << one.field;
    for (const LabelLine& one : made.questions) EXPECT_FALSE(one.rules.empty()) << one.field;
    for (const LabelLine& one : made.lines) {
      for (const std::string& id : one.rules) EXPECT_FALSE(label_rule(id).law.empty());
    }
    ASSERT_NE(line(made, "sulphites"), nullptr);
    EXPECT_THAT(line(made, "sulphites")->unknown.back(), HasSubstr("upper bound"));
  }
}

const NutritionLine* row(const Label& label, const std::string& name) {
  for (const NutritionLine& one : label.nutrition) {
    if (one.name == name) return &one;
  }
  return nullptr;
}

TEST(NutritionFacts, NameWhatIsNotKnownInsteadOfDroppingIt) {
  const Label made = labelled(loaf("Loaf", "water = \"600 g\"\nbutter = \"30 g\"\n"), Law::us);
  for (const char* name : {"Trans Fat", "Cholesterol", "Vitamin D", "Iron"}) {
    const NutritionLine* line = row(made, name);
    ASSERT_NE(line, nullptr) << name;
    EXPECT_FALSE(line->known) << name;
    EXPECT_EQ(line->said_portion, "not known") << name;
    EXPECT_EQ(line->daily_value, "") << name;
  }
  const std::string html = label_block(made, {});
  EXPECT_THAT(html, HasSubstr("<td>Vitamin D not known</td>"));
  EXPECT_THAT(html, HasSubstr("% Daily Value"));
}

TEST(NutritionFacts, HoldNoCholesterolWhereNothingComesOfAnAnimal) {
  const Label made = labelled(loaf("Loaf", "stout = \"600 g\"\nsalt = \"20 g\"\n"), Law::us);
  EXPECT_TRUE(row(made, "Cholesterol")->known);
  EXPECT_EQ(row(made, "Cholesterol")->said_portion, "0");
}

// 1000 g of flour and 600 g of milk, 1440 g of loaf; a portion of 50 g. USDA 20129 and 1077, 100 g:
// potassium 100 and 132 mg, calcium 15 and 113 mg.
TEST(NutritionFacts, CountMineralsAgainstTheDay) {
  const Label made = labelled(loaf("Loaf", "\"whole milk\" = \"600 g\"\n"), Law::us);
  const double potassium = (10 * 100 + 6 * 132) / 14.4;
  const double calcium = (10 * 15 + 6 * 113) / 14.4;
  EXPECT_NEAR(row(made, "Potassium")->in_100_g.middle, potassium, 0.01 * potassium);
  EXPECT_NEAR(row(made, "Calcium")->in_100_g.middle, calcium, 0.01 * calcium);
  EXPECT_EQ(row(made, "Calcium")->said_portion, "30");    // 28.8 mg
  EXPECT_EQ(row(made, "Calcium")->daily_value, "2");      // 2.2 % of 1300 mg
  EXPECT_EQ(row(made, "Potassium")->said_portion, "60");  // 62.2 mg
  EXPECT_EQ(row(made, "Potassium")->daily_value, "0");    // 1.3 % of 4700 mg
}

TEST(NutritionFacts, DoNotKnowAMineralOfWhatIsTheBakersOwn) {
  const Label made = labelled(loaf("Loaf",
                                   "water = \"600 g\"\n\"marsh herb\" = \"20 g\"\n"
                                   "[ingredient.\"marsh herb\"]\ngroup = \"other\"\n"
                                   "water = \"80 %\"\n"),
                              Law::us);
  EXPECT_FALSE(row(made, "Calcium")->known);
  std::string unknown;
  for (const std::string& one : line(made, "nutrition")->unknown) unknown += one + "\n";
  EXPECT_THAT(unknown, HasSubstr("calcium of marsh herb: so the loaf's is not known"));
}

TEST(Label, SaysThatAWeightIsMissingWhereThereAreNoPieces) {
  const Label made = labelled("[bowl]\n\"white bread flour\" = \"1000 g\"\nwater = \"600 g\"\n");
  EXPECT_EQ(made.loaf, Mass());
  EXPECT_EQ(plain(line(made, "weight")->text), "still to be weighed");
  EXPECT_FALSE(made.nutrition.empty());
}

TEST(Label, SaysTheWeightInOuncesInAmerica) {
  const auto said = [](double grams, Law law) {
    Label label;
    label.law = law;
    label.loaf = grams * gram;
    return weight_words(label);
  };
  // 1 oz = 28.349523125 g, 16 of them a pound.
  EXPECT_EQ(said(792, Law::eu), "792 g");
  EXPECT_EQ(said(792, Law::us), "Net Wt 1 lb 11.9 oz (792 g)");
  EXPECT_EQ(said(400, Law::us), "Net Wt 14.1 oz (400 g)");
  EXPECT_EQ(said(453.6, Law::us), "Net Wt 1 lb (454 g)");
  EXPECT_EQ(said(453, Law::us), "Net Wt 1 lb (453 g)");
}

TEST(Print, EscapesNamesAndLoadsNothing) {
  const Label made =
      labelled(loaf("<script>alert(1)</script> & \\\"stout\\\"", "stout = \"600 g\"\n"));
  const std::string html = page(made.name, {label_block(made, {})});
  EXPECT_THAT(html, Not(HasSubstr("<script")));
  EXPECT_THAT(html, HasSubstr("&lt;script&gt;"));
  for (const char* loads : {"http:", "https:", "src=", "url(", "@import", "<link"}) {
    EXPECT_THAT(html, Not(HasSubstr(loads)));
  }
  EXPECT_THAT(html, HasSubstr("<b>barley</b>"));
}

TEST(Print, LettersAreAsHighAsTheLawAsks) {
  EXPECT_NEAR(least_x_height(Law::eu, false).in(millimetre), 1.2, 1e-12);
  EXPECT_NEAR(least_x_height(Law::eu, true).in(millimetre), 0.9, 1e-12);
  for (const Law law : {Law::eu, Law::uk, Law::us}) {
    for (const bool small : {false, true}) {
      EXPECT_GT(printed_x_height(law, small), least_x_height(law, small));
    }
  }
}

}  // namespace

}  // namespace barm::shop
