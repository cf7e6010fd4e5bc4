// What a bottle's label says, laid over the larder.
#include <gtest/gtest.h>

#include "chemistry/acids.h"
#include "formula/bakes.h"
#include "larder/larder.h"

namespace barm::formula {

namespace {

using larder::Property;

Portion drink(const std::string& label, const std::string& name = "dry mead") {
  return test::bake("[bowl]\n\"white bread flour\" = \"1 kg\"\n\"" + name +
                    "\" = \"700 g\"\n[bottle.\"" + name + "\"]\n" + label)
      .bowl[1];
}

larder::Composition inside(const Portion& portion) {
  return larder::typical(portion.ingredient).value();
}

TEST(Bottle, StatesItsStrengthExactly) {
  const Portion mead = drink("strength = \"11,5 % vol\"\n");
  EXPECT_EQ(mead.ingredient[Property::strength]->low, mead.ingredient[Property::strength]->high);
  const auto c = inside(mead);
  EXPECT_NEAR(c[Property::strength], 0.115, 1e-9);
  EXPECT_NEAR(c[Property::ethanol] * c[Property::density], 0.115 * 789.24, 1e-3);
}

TEST(Bottle, SugarPerLitreComesOutAgain) {
  const auto c = inside(drink("strength = \"11.5 % vol\"\nsugar = \"80 g/L\"\n"));
  const double sugar =
      c[Property::glucose] + c[Property::fructose] + c[Property::sucrose] + c[Property::maltose];
  EXPECT_NEAR(sugar * c[Property::density], 80, 1e-6);
  EXPECT_NEAR(c[Property::fructose] / c[Property::glucose], 1.5, 1e-9);  // as the larder divides it
}

TEST(Bottle, EveryPartPerLitreComesOutAgain) {
  const auto c = inside(drink(
      "free_sulphite = \"30 mg/L\"\ntotal_sulphite = \"90 mg/L\"\nsorbate = \"120 "
      "mg/L\"\ncarbon_dioxide = \"2 g/L\"\nsalt = \"1 g/L\"\nbitterness = \"35 IBU\"\nph = 3.4\n"));
  const double density = c[Property::density];
  EXPECT_NEAR(c[Property::free_sulphite] * density, 0.030, 1e-9);
  EXPECT_NEAR(c[Property::total_sulphite] * density, 0.090, 1e-9);
  EXPECT_NEAR(c[Property::sorbate] * density, 0.120, 1e-9);
  EXPECT_NEAR(c[Property::carbon_dioxide] * density, 2, 1e-6);
  EXPECT_NEAR(c[Property::salt] * density, 1, 1e-6);
  EXPECT_NEAR(c[Property::iso_alpha_acids] * density, 0.035, 1e-9);
  EXPECT_EQ(c.ph(), Ph(3.4));
}

TEST(Bottle, FreeSulphiteIsPartOfTheTotal) {
  const auto none = inside(drink("total_sulphite = \"0 mg/L\"\n", "white wine"));
  EXPECT_EQ(none[Property::free_sulphite], 0);
  const auto much = inside(drink("free_sulphite = \"500 mg/L\"\n", "white wine"));
  EXPECT_GE(much[Property::total_sulphite], much[Property::free_sulphite]);
}

// 6 g/L as tartaric is 6 / 150.09 x 2 = 80 mmol/L of acid that titration to pH 7 finds.
TEST(Bottle, AcidIsWhatTitrationFinds) {
  const Portion wine = drink("acid = \"6 g/L as tartaric\"\nph = 3.2\n", "white wine");
  EXPECT_TRUE(wine.reading.empty());
  const auto c = inside(wine);
  const Property of[] = {Property::lactic_acid,
                         Property::acetic_acid,
                         Property::tartaric_acid,
                         Property::malic_acid,
                         Property::citric_acid,
                         Property::succinic_acid,
                         Property::gluconic_acid};
  double titrated = 0;
  for (std::size_t k = 0; k < std::size(of); ++k) {
    const auto acid = static_cast<chemistry::Acid>(k);
    titrated += c[of[k]] * c[Property::density] / chemistry::molar_mass(acid).si() *
                (chemistry::dissociated(acid, Ph(7), Molality{}) -
                 chemistry::dissociated(acid, Ph(3.2), Molality{}));
  }
  EXPECT_NEAR(titrated, 2 * 6 / chemistry::molar_mass(chemistry::Acid::tartaric).si(), 1e-6);
}

TEST(Bottle, AcidWithoutANameIsReadAsTheMainOneAndSaysSo) {
  EXPECT_EQ(drink("acid = \"5 g/L\"\n", "perry").reading, "acid read as malic acid, titrated");
  EXPECT_EQ(drink("acid = \"5 g/L\"\n", "white wine").reading,
            "acid read as tartaric acid, titrated");
}

TEST(Bottle, AcidOfADrinkThatTheLarderCallsSweetIsAdded) {
  const auto c = inside(drink("acid = \"3 g/L as citric\"\nph = 3.5\n", "water"));
  EXPECT_GT(c[Property::citric_acid] * c[Property::density],
            3);  // a part of it is neutralised at pH 3.5
  EXPECT_LT(c[Property::citric_acid] * c[Property::density], 5);
}

TEST(Bottle, PriceIsPerKilogramInItsCurrency) {
  const Portion mead = drink("density = \"0.99 g/mL\"\nprice = \"9.60 EUR / 750 mL\"\n");
  EXPECT_EQ(mead.currency, "EUR");
  EXPECT_NEAR(mead.price.value(), 9.60 / (0.75 * 0.99), 1e-9);
  EXPECT_NEAR(drink("price = \"1,20 €/kg\"\n").price.value(), 1.2, 1e-12);
  EXPECT_NEAR(drink("price = \"12 CHF / 25 kg\"\n").price.value(), 0.48, 1e-12);
}

TEST(Bottle, KeepsWhatItDoesNotSay) {
  const Portion mead = drink("strength = \"11 % vol\"\n");
  const larder::Ingredient& known = *larder::find("dry mead");
  EXPECT_EQ(mead.ingredient[Property::malic_acid]->low, known[Property::malic_acid]->low);
  EXPECT_EQ(mead.ingredient[Property::ph]->high, known[Property::ph]->high);
}

TEST(OwnIngredient, StartsFromAnotherOrFromNothing) {
  const Bake bake = test::bake(R"([bowl]
"white bread flour" = "1 kg"
"dyke perry" = "500 g"
"samphire brine" = "100 g"
[ingredient."dyke perry"]
like = "perry"
allergens = ["sulphites", "milk"]
[bottle."dyke perry"]
strength = "6.2 % vol"
[ingredient."samphire brine"]
group = "other"
water = "90 g/100 g"
salt = "10 g/100 g"
total_sulphite = "0 mg/kg"
free_sulphite = "0 mg/kg"
sorbate = "0 mg/kg"
ph = 6.5
)");
  const auto perry = inside(bake.bowl[1]);
  EXPECT_NEAR(perry[Property::strength], 0.062, 1e-9);
  EXPECT_GT(perry[Property::malic_acid], 0);
  EXPECT_EQ(bake.bowl[1].ingredient.allergens.size(), 2U);
  EXPECT_EQ(bake.find("Dyke  Perry"), 1U);
  const auto brine = inside(bake.bowl[2]);
  EXPECT_NEAR(brine[Property::salt], 0.1, 1e-12);
  EXPECT_EQ(brine.ph(), Ph(6.5));
}

TEST(OwnIngredient, GoesBeforeTheLarder) {
  const Bake bake = test::bake(
      "[bowl]\n\"white bread flour\" = \"1 kg\"\nperry = \"500 g\"\n[ingredient.perry]\ngroup = "
      "\"drink\"\nstrength = \"1 % vol\"\n");
  EXPECT_NEAR(inside(bake.bowl[1])[Property::strength], 0.01, 1e-9);
}

TEST(Bottle, StatesItsScents) {
  const Portion mead = drink(
      "smells_like = \"aromatic white wine\"\nscents = [\"isoamyl acetate 2 mg/L\", \"Vanillin 60 "
      "ug/L\"]\n");
  const double density = inside(mead)[Property::density];
  ASSERT_EQ(mead.ingredient.scents.size(), 2);
  EXPECT_EQ(mead.ingredient.scents[0].name, "isoamyl acetate");
  EXPECT_NEAR(mead.ingredient.scents[0].share * density, 0.002, 1e-9);
  EXPECT_NEAR(mead.ingredient.scents[1].share * density, 60e-6, 1e-12);
  EXPECT_EQ(mead.ingredient.smells_like, "aromatic white wine");
}

TEST(Bottle, AScentThatIsNoneIsRefusedWithNearNames) {
  const auto refused = [](const std::string& label) {
    const auto read = parse_bake(
        "[bowl]\n\"white bread flour\" = \"1 kg\"\n\"dry mead\" = \"700 "
        "g\"\n[bottle.\"dry mead\"]\n" +
            label,
        "test.toml");
    return read ? std::string("read") : read.error().text();
  };
  EXPECT_NE(refused("scents = [\"isoamyl acetat 2 mg/L\"]\n").find("Near it: isoamyl acetate"),
            std::string::npos);
  EXPECT_NE(refused("scents = [\"vanillin 2 IBU\"]\n").find("is no unit here"), std::string::npos);
  EXPECT_NE(refused("scents = [\"vanillin\"]\n").find("names a scent and its amount"),
            std::string::npos);
  EXPECT_NE(refused("scents = \"vanillin 2 mg/L\"\n").find("is a list"), std::string::npos);
  EXPECT_NE(refused("smells_like = \"meat\"\n").find("Near it: mead"), std::string::npos);
}

}  // namespace

}  // namespace barm::formula
