#include <gmock/gmock.h>

#include "formula/bakes.h"
#include "formula/internal/contents.h"
#include "formula/solve.h"

namespace barm::formula {

namespace {

using ::barm::test::FailsWith;
using ::barm::test::Holds;
using ::testing::Contains;
using ::testing::HasSubstr;

Bowl matched(const Bake& bake, const Solution& solution) {
  Bake with = bake;
  if (solution.masses.size() > bake.bowl.size()) with.bowl.push_back(internal::no_water());
  return test::bowl(by_weight(with, solution.masses));
}

void expect_same_shares(const Bowl& ours, const Bowl& theirs) {
  EXPECT_NEAR(ours.ethanol / ours.flour, theirs.ethanol / theirs.flour, 1e-6);
  EXPECT_NEAR(ours.added_water / ours.flour, theirs.added_water / theirs.flour, 1e-6);
}

TEST(Match, KeepsAlcoholAndWaterOnFlour) {
  const Bake spirit = test::example("spirit-loaf.toml");
  const Bake mead = test::example("mead-loaf.toml");
  const Bake perry = test::example("perry-loaf.toml");
  for (const Bake* other : {&mead, &perry}) {
    const auto solution = match(spirit, *other);
    ASSERT_THAT(solution, Holds());
    EXPECT_TRUE(solution->met);
    expect_same_shares(matched(spirit, *solution), test::bowl(*other));
    EXPECT_EQ(solution->masses[0], test::bowl(spirit).lines[0].plan);
  }
}

TEST(Match, AddsWaterToABowlThatHasNone) {
  const Bake wine =
      test::bake("[bowl]\n\"white bread flour\" = \"1 kg\"\n\"white wine\" = \"700 g\"\n");
  const Bake mead = test::example("mead-loaf.toml");
  const auto solution = match(wine, mead);
  ASSERT_THAT(solution, Holds());
  EXPECT_TRUE(solution->met);
  ASSERT_EQ(solution->masses.size(), 3U);
  expect_same_shares(matched(wine, *solution), test::bowl(mead));
}

TEST(Match, WithItselfChangesNothing) {
  const Bake mead = test::example("mead-loaf.toml");
  const auto solution = match(mead, mead);
  ASSERT_THAT(solution, Holds());
  const Bowl plan = test::bowl(mead);
  for (std::size_t i = 0; i < plan.lines.size(); ++i) {
    EXPECT_NEAR(test::grams(solution->masses[i]), test::grams(plan.lines[i].plan), 1e-3);
  }
}

TEST(Match, TellsTheWorkingAsOnAWhiteboard) {
  const Bake mead = test::bake("name = \"Mead\"\n" + test::mead);
  const Bake lager = test::bake(
      "name = \"Beer\"\n[bowl]\n\"white bread flour\" = \"2 kg\"\nlager = \"1.4 "
      "kg\"\n[bottle.lager]\nstrength = \"5 % vol\"\n");
  const auto solution = match(mead, lager);
  ASSERT_THAT(solution, Holds());
  EXPECT_THAT(solution->working, Contains(HasSubstr("Beer holds 55 g alcohol")));
  EXPECT_THAT(solution->working, Contains(HasSubstr("on 2000 g flour")));
  EXPECT_THAT(solution->working,
              Contains(HasSubstr("Mead has 1000 g flour: that asks for 27 g alcohol")));
  EXPECT_THAT(solution->working,
              Contains(HasSubstr("dry mead: 11.5 % vol = 91 g alcohol in a litre = 9.1 % by "
                                 "weight, not 11.5 g in 100 g")));
  EXPECT_THAT(solution->working, Contains("300 g dry mead, that is 302 mL"));
  EXPECT_THAT(solution->working, Contains(HasSubstr("so water rises from 350 g to")));
}

TEST(Match, SaysWhenTheBottleIsTooWeak) {
  const Bake lager = test::bake(
      "[bowl]\n\"white bread flour\" = \"1 kg\"\nlager = \"600 g\"\nwater = \"100 g\"\n");
  const Bake wine =
      test::bake("[bowl]\n\"white bread flour\" = \"1 kg\"\n\"white wine\" = \"700 g\"\n");
  const auto solution = match(lager, wine);
  ASSERT_THAT(solution, Holds());
  EXPECT_FALSE(solution->met);
  EXPECT_THAT(solution->working, Contains(HasSubstr("too weak")));
  EXPECT_EQ(solution->conflicts.size(), 2U);
  EXPECT_NEAR(test::grams(solution->masses[2]), 0, 1e-6);
  const Bowl ours = matched(lager, *solution);
  const Bowl theirs = test::bowl(wine);
  EXPECT_NEAR(ours.real_hydration(), theirs.real_hydration(), 1e-6);
  EXPECT_LT(ours.ethanol.si(), theirs.ethanol.si());
}

TEST(Match, NeedsADrink) {
  EXPECT_THAT(match(test::example("plain-loaf.toml"), test::example("mead-loaf.toml")),
              FailsWith(ErrorCode::not_found));
}

}  // namespace

}  // namespace barm::formula
