#include "shop/label.h"

#include <gmock/gmock.h>

#include "shop/labels.h"
#include "shop/print.h"
#include "support/matchers.h"
#include "support/printers.h"

namespace barm::shop {

namespace {

using barm::test::labelled;
using barm::test::loaf;
using testing::HasSubstr;
using testing::Not;

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
  EXPECT_THAT(barm::test::list_of(labelled(much)), HasSubstr("SULPHITES"));
  EXPECT_THAT(barm::test::list_of(labelled(much, Law::us)),
              HasSubstr("white wine (grapes, sulfites)"));
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
  // Annex II exempts isinglass of beer and wine; lysozyme comes of egg.
  EXPECT_THAT(all, HasSubstr("lysozyme (eggs)"));
  EXPECT_THAT(all, HasSubstr("isinglass (fish) is exempt"));
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
    ASSERT_NE(barm::test::line_of(made, "sulphites"), nullptr);
    EXPECT_THAT(barm::test::line_of(made, "sulphites")->unknown.back(), HasSubstr("upper bound"));
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
  // 21 CFR 101.9(c): a panel without them is none, so nothing is printed but what is missing.
  const std::string html = label_block(made, {});
  EXPECT_THAT(html, HasSubstr("Not to be printed yet"));
  EXPECT_THAT(html, HasSubstr("<li>Vitamin D in 100 g of the loaf</li>"));
  EXPECT_THAT(html, Not(HasSubstr("Nutrition Facts")));
}

TEST(NutritionFacts, HoldNoCholesterolWhereNothingComesOfAnAnimal) {
  const Label made = labelled(loaf("Loaf", "stout = \"600 g\"\nsalt = \"20 g\"\n"), Law::us);
  EXPECT_TRUE(row(made, "Cholesterol")->known);
  EXPECT_EQ(row(made, "Cholesterol")->said_portion, "0");
}

// 1000 g of flour and 600 g of milk, 1440 g in two loaves of 720 g: a serving of 1/15 loaf, 48 g.
// USDA 20129 and 1077, 100 g: potassium 100 and 132 mg, calcium 15 and 113 mg.
TEST(NutritionFacts, CountMineralsAgainstTheDay) {
  const Label made = labelled(loaf("Loaf", "\"whole milk\" = \"600 g\"\n"), Law::us);
  const double potassium = (10 * 100 + 6 * 132) / 14.4;
  const double calcium = (10 * 15 + 6 * 113) / 14.4;
  EXPECT_NEAR(row(made, "Potassium")->in_100_g.middle, potassium, 0.01 * potassium);
  EXPECT_NEAR(row(made, "Calcium")->in_100_g.middle, calcium, 0.01 * calcium);
  EXPECT_EQ(row(made, "Calcium")->said_portion, "30");    // 27.6 mg
  EXPECT_EQ(row(made, "Calcium")->daily_value, "2");      // 2.1 % of 1300 mg
  EXPECT_EQ(row(made, "Potassium")->said_portion, "60");  // 59.7 mg
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
  for (const std::string& one : barm::test::line_of(made, "nutrition")->unknown)
    unknown += one + "\n";
  EXPECT_THAT(unknown, HasSubstr("calcium of marsh herb: so the loaf's is not known"));
}

TEST(Label, SaysThatAWeightIsMissingWhereThereAreNoPieces) {
  const Label made = labelled("[bowl]\n\"white bread flour\" = \"1000 g\"\nwater = \"600 g\"\n");
  EXPECT_EQ(made.loaf, Mass());
  EXPECT_EQ(plain(barm::test::line_of(made, "weight")->text), "still to be weighed");
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
