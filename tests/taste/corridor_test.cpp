// Taste and rise over the share of the drink.
#include "taste/corridor.h"

#include <gtest/gtest.h>

#include "taste/breads.h"

namespace barm::taste {

namespace {

using formula::test::example;

Corridor of_mead(CorridorQuestion question = {}) {
  question.options.draws = 100;
  question.shares = 11;
  const auto out = corridor(example("mead-loaf.toml"), question);
  if (out) return *out;
  ADD_FAILURE() << out.error().text();
  return {};
}

TEST(Corridor, WithoutTheDrinkThereIsNothingToTaste) {
  EXPECT_EQ(of_mead().points.front().noticed, 0);
  EXPECT_EQ(of_mead().points.front().share, 0);
  EXPECT_EQ(of_mead().points.back().share, 1);
}

TEST(Corridor, MoreIsLaterAndNoticedByMore) {
  const Corridor mead = of_mead();
  for (std::size_t i = 1; i < mead.points.size(); ++i) {
    EXPECT_LE(mead.points[i].ready, mead.points[i - 1].ready + 0.02) << i;
    EXPECT_GE(mead.points[i].noticed, mead.points[i - 1].noticed - 0.02) << i;
  }
}

TEST(Corridor, BothHoldWithinItAndNotBeyond) {
  CorridorQuestion question;
  question.within = 20.0 * hour;
  question.chance = 0.5;
  question.noticed = 0.3;
  const Corridor mead = of_mead(question);
  ASSERT_TRUE(mead.from && mead.to);
  EXPECT_LT(*mead.from, *mead.to);
  for (const CorridorPoint& point : mead.points) {
    const bool holds = point.ready >= 0.5 && point.noticed >= 0.3;
    EXPECT_EQ(holds, point.share >= *mead.from && point.share <= *mead.to) << point.share;
  }
}

TEST(Corridor, WhereNothingHoldsThereIsNone) {
  CorridorQuestion question;
  question.within = 2.0 * hour;
  EXPECT_FALSE(of_mead(question).from);
}

TEST(Corridor, WithASecondDrinkItEndsWhereNoWaterIsLeft) {
  CorridorQuestion question;
  question.drink = "dry mead";
  question.options.draws = 40;
  question.shares = 5;
  const auto out = corridor(formula::test::bake(formula::test::two_drinks), question);
  ASSERT_TRUE(out.has_value()) << out.error().text();
  EXPECT_NEAR(out->now, 0.4, 1e-9);
  EXPECT_NEAR(out->points.back().share, 0.8, 1e-9);
}

TEST(Corridor, TheBakesOwnShareIsSaid) { EXPECT_NEAR(of_mead().now, 0.5, 1e-6); }

TEST(Corridor, ANumberOutsideItsRangeIsRefused) {
  CorridorQuestion question;
  question.chance = 1;
  EXPECT_THAT(corridor(example("mead-loaf.toml"), question),
              barm::test::FailsWith(ErrorCode::bad_input));
}

}  // namespace

}  // namespace barm::taste
