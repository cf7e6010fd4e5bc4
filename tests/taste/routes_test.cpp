// What would bring more of the drink: the routes, money and hours.
#include "taste/routes.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <algorithm>

#include "taste/breads.h"

namespace barm::taste {

namespace {

using formula::test::example;

RoutesQuestion quick() {
  RoutesQuestion question;
  question.options.draws = 100;
  return question;
}

const Gain* found(const RoutesAnswer& answer, std::string_view means) {
  const auto at = std::find_if(answer.gains.begin(), answer.gains.end(), [&](const Gain& one) {
    return one.route.means == means;
  });
  return at == answer.gains.end() ? nullptr : &*at;
}

TEST(Routes, ASyrupOnTheColdLoafBringsTheFruitBackThatTheOvenTook) {
  const auto answer = routes(example("mead-loaf.toml"), quick());
  ASSERT_THAT(answer, barm::test::Holds());
  const Gain* syrup = found(*answer, "syrup");
  ASSERT_NE(syrup, nullptr);
  EXPECT_GT(test::note(syrup->tasted, "fruit").crust.p50,
            3 * test::note(answer->now, "fruit").crumb.p50);
  EXPECT_GT(syrup->times.p50, 1);
  EXPECT_FALSE(syrup->route.changes_dough);
  EXPECT_GT(syrup->route.coins, 0);
  EXPECT_FALSE(syrup->route.price_guessed);  // the bottle states its price
}

TEST(Routes, TheyStandByTasteAndThoseWithoutDifferenceLast) {
  const auto answer = routes(example("mead-loaf.toml"), quick());
  ASSERT_THAT(answer, barm::test::Holds());
  bool no_difference = false;
  double before = 1e9;
  for (const Gain& gain : answer->gains) {
    if (gain.no_difference && !no_difference) before = 1e9;
    no_difference = no_difference || gain.no_difference;
    EXPECT_EQ(gain.no_difference, no_difference);
    EXPECT_LE(gain.times.p50, before);
    before = gain.times.p50;
  }
}

TEST(Routes, WhatStaysUnbakedSaysWhoMustNotHaveIt) {
  const auto answer = routes(example("mead-loaf.toml"), quick());
  ASSERT_THAT(answer, barm::test::Holds());
  EXPECT_THAT(found(*answer, "brush")->route.cautions,
              testing::Contains(testing::HasSubstr("not for children")));
  EXPECT_GT(found(*answer, "brush")->alcohol, answer->alcohol);
}

TEST(Routes, ASimmeredDrinkHasNoAlcoholAndTheDoughIsSooner) {
  const auto answer = routes(example("mead-loaf.toml"), quick());
  ASSERT_THAT(answer, barm::test::Holds());
  const Gain* simmer = found(*answer, "simmer");
  ASSERT_NE(simmer, nullptr);
  EXPECT_LT(simmer->alcohol, 0.2 * answer->alcohol);
  ASSERT_TRUE(simmer->later);
  EXPECT_LT(simmer->later->in(hour), 0);
}

TEST(Routes, MoreOfTheDrinkIsStrongerAndLater) {
  const auto answer = routes(example("mead-loaf.toml"), quick());
  ASSERT_THAT(answer, barm::test::Holds());
  const Gain* more = found(*answer, "replace more");
  ASSERT_NE(more, nullptr);
  EXPECT_GT(more->times.p50, 1);
  EXPECT_TRUE(more->never || more->later->in(hour) > 0);
  EXPECT_NEAR(
      more->alcohol, 2 * answer->alcohol, 0.2 * answer->alcohol);  // of a loaf, twice the mead
}

TEST(Routes, ForMoneyNothingCostsMore) {
  for (const double coins : {0.05, 0.2, 1.0}) {
    const auto answer = for_money(example("mead-loaf.toml"), quick(), coins);
    ASSERT_THAT(answer, barm::test::Holds());
    EXPECT_FALSE(answer->gains.empty());
    for (const Gain& gain : answer->gains)
      EXPECT_LE(gain.route.coins, coins + 1e-9) << gain.route.what;
  }
}

TEST(Routes, MoreMoneyIsNoLessTaste) {
  const auto little = for_money(example("mead-loaf.toml"), quick(), 0.1);
  const auto much = for_money(example("mead-loaf.toml"), quick(), 0.4);
  ASSERT_TRUE(little && much);
  EXPECT_GE(found(*much, "brush")->times.p50, found(*little, "brush")->times.p50);
}

TEST(Routes, AsMuchTasteIsReadyByThen) {
  const Time within = 12.0 * hour;
  const auto answer = as_much_within(example("mead-loaf.toml"), quick(), within);
  ASSERT_THAT(answer, barm::test::Holds());
  EXPECT_LE(answer->ready.si(), within.si());
  EXPECT_GT(answer->share, 0);
  EXPECT_LT(answer->share, 1);
}

TEST(Routes, ABreadWithoutDrinkHasNoRoute) {
  EXPECT_THAT(routes(example("plain-loaf.toml"), quick()),
              barm::test::FailsWith(ErrorCode::not_found));
  EXPECT_THAT(for_money(example("mead-loaf.toml"), quick(), 0),
              barm::test::FailsWith(ErrorCode::bad_input));
}

TEST(Routes, CoffeeHasItsGrounds) {
  const auto answer = routes(example("cold-coffee-loaf.toml"), quick());
  ASSERT_THAT(answer, barm::test::Holds());
  ASSERT_NE(found(*answer, "grounds"), nullptr);
  EXPECT_GT(found(*answer, "grounds")->times.p50, 1);
  EXPECT_EQ(found(*answer, "malt"), nullptr);
}

}  // namespace

}  // namespace barm::taste
