#include "testbakes/rivals.h"

#include "forecast/course.h"
#include "forecast/dough_of.h"
#include "formula/bakes.h"
#include "mead_test.h"
#include "support/matchers.h"
#include "testbakes/causes.h"

namespace barm::testbakes {

namespace {

using test::FailsWith;
using test::from_text;
using test::Holds;
using testing::HasSubstr;

Result<Rival> made(const formula::Bake& base, const std::string& words) {
  const auto recipe = parse_recipe(words, base, "here");
  if (!recipe) return failure(recipe);
  return make(base, *recipe);
}

formula::Bake wine() {
  const auto read = from_text(
      "base = \"../../tests/testbakes/wine-loaf.toml\"\n[[dough]]\nname = "
      "\"wine\"\n[[dough]]\nmake = \"plain\"\n");
  return base_of(read.value()).value();
}

Rival as_it_is(const formula::Bake& base) { return make(base, Recipe{"base", {}, "", {}}).value(); }

TEST(Rivals, WithoutAStepTheBaseStaysToTheGram) {
  const auto base = wine();
  const Rival same = as_it_is(base);
  ASSERT_EQ(same.bake.bowl.size(), base.bowl.size());
  for (std::size_t i = 0; i < base.bowl.size(); ++i)
    EXPECT_NEAR(same.bake.bowl[i].amount, base.bowl[i].amount, 1e-9);
}

TEST(Rivals, OnlyTheNamedThingsDiffer) {
  const auto base = wine();
  const Rival wine_dough = as_it_is(base);
  const auto plain = made(base, "plain");
  ASSERT_THAT(plain, Holds());
  EXPECT_TRUE(plain->plain);
  EXPECT_NEAR(plain->bowl.real_hydration(), wine_dough.bowl.real_hydration(), 1e-7);

  const auto alcohol = made(base, "plain, match alcohol");
  ASSERT_THAT(alcohol, Holds());
  EXPECT_NEAR(alcohol->bowl.ethanol.in(gram), wine_dough.bowl.ethanol.in(gram), 1e-5);
  EXPECT_NEAR(alcohol->bowl.real_hydration(), wine_dough.bowl.real_hydration(), 1e-7);
  EXPECT_NEAR(alcohol->bowl.salt.in(gram), 20, 0.02);  // flour and wine bring a trace
  EXPECT_NEAR(alcohol->bowl.ph.value(), plain->bowl.ph.value(), 0.02);

  const auto acid = made(base, "plain, match acid with tartaric acid");
  ASSERT_THAT(acid, Holds());
  EXPECT_NEAR(acid->bowl.ph.value(), wine_dough.bowl.ph.value(), 1e-5);
  EXPECT_NEAR(acid->bowl.ethanol.in(gram), plain->bowl.ethanol.in(gram), 1e-9);

  const auto sulphite = made(base, "plain, match sulphite");
  ASSERT_THAT(sulphite, Holds());
  EXPECT_NEAR(sulphite->bowl.free_sulphite.in(milligram),
              wine_dough.bowl.free_sulphite.in(milligram),
              1e-4);
  EXPECT_NEAR(sulphite->bowl.ph.value(), plain->bowl.ph.value(), 0.02);

  const auto sugar = made(base, "plain, match sugar");
  ASSERT_THAT(sugar, Holds());
  const auto sugars = [](const formula::Bowl& b) { return b.hexose + b.sucrose + b.maltose; };
  EXPECT_NEAR(sugars(sugar->bowl).in(gram), sugars(wine_dough.bowl).in(gram), 1e-5);

  const auto all = made(base, "plain, match alcohol, match sulphite, match acid, match sugar");
  ASSERT_THAT(all, Holds());
  EXPECT_NEAR(all->bowl.ethanol.in(gram), wine_dough.bowl.ethanol.in(gram), 1e-4);
  EXPECT_NEAR(all->bowl.ph.value(), wine_dough.bowl.ph.value(), 1e-4);
  EXPECT_NEAR(
      all->bowl.free_sulphite.in(milligram), wine_dough.bowl.free_sulphite.in(milligram), 1e-3);
  EXPECT_NEAR(all->bowl.real_hydration(), wine_dough.bowl.real_hydration(), 1e-6);
  for (const auto& d : differences(all->bowl, wine_dough.bowl))
    EXPECT_TRUE(d.what == "bound sulphite" || d.what == "glycerol" || d.what == "carbon dioxide")
        << in_words(d);
}

TEST(Rivals, SwappedDrinkIsMatchedFromSpirit) {
  const auto base = wine();
  const auto swapped = made(base, "swap white wine for perry, match alcohol");
  ASSERT_THAT(swapped, Holds());
  const Rival wine_dough = as_it_is(base);
  EXPECT_NEAR(swapped->bowl.ethanol.in(gram), wine_dough.bowl.ethanol.in(gram), 1e-4);
  EXPECT_NEAR(swapped->bowl.real_hydration(), wine_dough.bowl.real_hydration(), 1e-6);
}

TEST(Rivals, WhatIsTooMuchAlreadyCannotBeMatched) {
  const auto base = wine();
  const auto stronger = made(base, "swap white wine for rum, match alcohol");
  ASSERT_THAT(stronger, FailsWith(ErrorCode::cannot_be_met));
  EXPECT_THAT(stronger.error().message, HasSubstr("nothing can be taken out"));
}

TEST(Rivals, SimmeringLeavesWhatTheTableSays) {
  // USDA Table of Nutrient Retention Factors 6: simmered 60 min 25 %, 150 min 5 %.
  EXPECT_DOUBLE_EQ(alcohol_left(60.0 * minute), 0.25);
  EXPECT_DOUBLE_EQ(alcohol_left(150.0 * minute), 0.05);
  EXPECT_DOUBLE_EQ(alcohol_left(45.0 * minute), 0.30);
  const auto base = wine();
  const auto simmered = made(base, "simmer white wine for 60 min");
  ASSERT_THAT(simmered, Holds());
  const Rival wine_dough = as_it_is(base);
  const auto plain = made(base, "plain");
  const double own = (wine_dough.bowl.ethanol - plain->bowl.ethanol).in(gram);
  EXPECT_NEAR((simmered->bowl.ethanol - plain->bowl.ethanol).in(gram), 0.25 * own, 0.01 * own);
  EXPECT_NEAR(simmered->bowl.ph.value(), wine_dough.bowl.ph.value(), 0.05);
  EXPECT_FALSE(simmered->notes.empty());
}

TEST(Rivals, StockSolutionCanBeWeighedOnAKitchenScale) {
  const auto read = from_text(
      "base = \"../../tests/testbakes/wine-loaf.toml\"\namount = \"400 g\"\n"
      "[[dough]]\nname = \"wine\"\n[[dough]]\nmake = [\"plain\", \"match "
      "sulphite\"]\n");
  ASSERT_THAT(read, Holds());
  const auto doughs = rivals(*read);
  ASSERT_THAT(doughs, Holds());
  ASSERT_EQ((*doughs)[1].stocks.size(), 1U);
  const Stock& stock = (*doughs)[1].stocks.front();
  EXPECT_GE(stock.dose.in(gram), 2.0);
  // What is dissolved and dosed holds the sulphite that was asked for: 0.576 g SO2 in a gram of
  // salt, of which the larder has a little as lost (data/larder/pantry.toml: 53 of 57.6 free).
  const double salt_dosed = stock.dose.in(milligram)*stock.strength.value();
  const double free = (*doughs)[0].bowl.free_sulphite.in(milligram);
  EXPECT_NEAR(salt_dosed * 0.576 * 53 / 57.6, free, 0.01 * free);
  if (stock.in_two_steps) {
    const double first = stock.first_salt / (stock.first_salt + stock.first_water);
    EXPECT_NEAR(first * (stock.from_first / (stock.from_first + stock.water)).si(),
                stock.strength.value(),
                1e-9);
  } else {
    EXPECT_NEAR((stock.salt / (stock.salt + stock.water)).si(), stock.strength.value(), 1e-9);
  }
}

TEST(Rivals, AThinnedDrinkBringsItsShare) {
  const auto base = wine();
  const auto half = made(base, "white wine 50 % of the liquid");
  ASSERT_THAT(half, Holds());
  const Rival wine_dough = as_it_is(base);
  const auto plain = made(base, "plain");
  const double own = (wine_dough.bowl.ethanol - plain->bowl.ethanol).in(gram);
  EXPECT_NEAR((half->bowl.ethanol - plain->bowl.ethanol).in(gram), own * 50 / 75, 0.01 * own);
}

TEST(Rivals, AShareIsOfAllTheLiquid) {
  TestBake test;
  test.base = formula::test::bake(formula::test::two_drinks);
  const formula::Bake base = base_of(test).value();
  const auto quarter = made(base, "dry mead 25 % of the liquid");
  ASSERT_THAT(quarter, Holds());
  EXPECT_NEAR(formula::test::line(quarter->bowl, "dry mead").actual.in(gram), 0.25 * 700, 1e-6);
  EXPECT_NEAR(formula::test::line(quarter->bowl, "apple juice").actual.in(gram), 0.2 * 700, 1e-6);
  EXPECT_THAT(made(base, "dry mead 90 % of the liquid"), FailsWith(ErrorCode::cannot_be_met));
}

TEST(Causes, DosesOfMatchedDoughsAreAlike) {
  const auto base = wine();
  const Doses drink = doses_of(as_it_is(base));
  const Doses matched =
      doses_of(made(base, "plain, match alcohol, match acid, match sulphite").value());
  const auto at = [](const Doses& doses, Cause cause) {
    return doses[static_cast<std::size_t>(cause)];
  };
  for (const Cause cause : {Cause::alcohol, Cause::acid, Cause::sulphite})
    EXPECT_NEAR(at(matched, cause), at(drink, cause), 0.06 * at(drink, cause)) << name(cause);
  EXPECT_GT(at(drink, Cause::alcohol), 50);
}

double hours_to(const Rival& rival, double target) {
  forecast::Proving proving;
  proving.target = target;
  proving.stop_at_target = true;
  return forecast::run(forecast::dough_of(rival.bowl, rival.settled), kinetics::book(), proving)
      ->ready.value_or(72.0 * hour)
      .in(hour);
}

// Common practice, no source: a spirit dough of the same alcohol behaves like the wine dough, and a
// drink thinned to about 4 % rises well.
TEST(Rivals, ASpiritDoughOfTheSameAlcoholBehavesLikeTheWineDough) {
  const auto base = wine();
  const Rival wine_dough = as_it_is(base);
  const auto spirit = made(base, "plain, match alcohol").value();
  const auto plain = made(base, "plain").value();
  EXPECT_NEAR(hours_to(spirit, 1.5) / hours_to(wine_dough, 1.5), 1, 0.25);
  EXPECT_GT(hours_to(wine_dough, 1.5), 1.6 * hours_to(plain, 1.5));
  const auto thinned = made(base, "white wine 33 % of the liquid").value();
  EXPECT_NEAR(thinned.bowl.strength_of_liquid().percent(), 4, 0.3);
  EXPECT_LT(hours_to(thinned, 2), 1.5 * hours_to(plain, 2));
}

Answered about(Cause cause, const std::vector<Rival>& doughs) {
  for (const Answered& one : already_answered(doughs)) {
    if (one.cause == cause) return one;
  }
  return {};
}

TEST(Causes, ChemistryAnswersAboutSulphiteAtDoughPh) {
  // oiv_so2: above pH 4.5 less than 0.3 % of free sulphite is molecular, and published thresholds
  // against yeast are 0.3 to 0.8 mg/L of that.
  const auto doughs = rivals(test::mead_test().value()).value();
  const Answered mild = about(Cause::sulphite, doughs);
  EXPECT_TRUE(mild.cannot_bite);
  EXPECT_GT(mild.largest_dose, 0);
  EXPECT_LT(mild.largest_dose, 0.01);
  EXPECT_THAT(mild.words, HasSubstr("no need to spend flour on it"));
}

TEST(Causes, AVerySourWineDoughIsWorthAsking) {
  const Rival sour = as_it_is(wine());
  ASSERT_LT(sour.bowl.ph.value(), 4.3);
  EXPECT_FALSE(about(Cause::sulphite, {sour}).cannot_bite);
  EXPECT_FALSE(about(Cause::alcohol, {sour}).cannot_bite);
}

}  // namespace

}  // namespace barm::testbakes
