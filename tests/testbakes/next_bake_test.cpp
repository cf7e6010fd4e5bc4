#include "testbakes/next_bake.h"

#include <algorithm>

#include "mead_test.h"
#include "support/matchers.h"

namespace barm::testbakes {

namespace {

using test::FailsWith;
using test::Holds;

const Candidate& made(const std::string& words, const std::vector<Candidate>& all) {
  for (const Candidate& one : all)
    if (one.recipe.words == words) return one;
  throw std::out_of_range(words);
}

TEST(NextBake, AWaterAndWineBakeAsksForOneCauseAlone) {
  // Water and wine are baked; alcohol and acid cannot be told apart. A dough with one of the two
  // alone must tell more than wine again.
  const auto test =
      test::from_text(
          "base = \"../mead-loaf.toml\"\ncauses = [\"alcohol\", \"acid\"]\n"
          "within = \"14 h\"\n[[dough]]\nname = \"mead\"\n[[dough]]\nmake = \"plain\"\n")
          .value();
  const auto doughs = rivals(test).value();
  std::vector<Recipe> recipes;
  for (const char* words :
       {"plain", "plain, match alcohol", "plain, match acid", "plain, match alcohol, match acid"})
    recipes.push_back(parse_recipe(words, base_of(test).value(), "here").value());
  NextOptions options;
  const auto ranked = rank_next(test, doughs, std::nullopt, recipes, options);
  ASSERT_THAT(ranked, Holds());
  ASSERT_EQ(ranked->size(), 4U);
  for (std::size_t i = 1; i < ranked->size(); ++i)
    EXPECT_GE((*ranked)[i - 1].nats, (*ranked)[i].nats);
  EXPECT_LT(made("plain", *ranked).settles, 0.05);
  EXPECT_GT(made("plain, match alcohol", *ranked).settles, 0.1);
  EXPECT_GT(made("plain, match acid", *ranked).settles, 0.1);
  EXPECT_THAT(made("plain, match acid", *ranked).reason,
              testing::HasSubstr("acid without alcohol"));
}

TEST(NextBake, UsualCandidatesCanAllBeWeighedOutAndDrinksHaveTheirPrice) {
  const auto test = test::mead_test().value();
  const auto candidates = usual_candidates(test);
  EXPECT_GE(candidates.size(), 20U);
  EXPECT_LE(candidates.size(), 40U);
  NextOptions options;
  options.draws = 24;
  options.readings = 50;
  double last = 0;
  options.progress = [&](double share) {
    EXPECT_GE(share, last);
    last = share;
  };
  const auto ranked = rank_next(test, rivals(test).value(), std::nullopt, candidates, options);
  ASSERT_THAT(ranked, Holds());
  EXPECT_NEAR(last, 1, 1e-9);
  const Candidate& half = made("dry mead 50 % of the liquid", *ranked);
  ASSERT_TRUE(half.price.has_value());
  // Half of the liquid of a 400 g dough is 78 g of a mead at 9.60 for 750 mL (0.99 kg/L).
  EXPECT_NEAR(*half.price, 9.60 * 0.078 / 0.745, 0.02);
  EXPECT_EQ(half.currency, "EUR");
}

TEST(NextBake, CanBeStopped) {
  const auto test = test::mead_test().value();
  NextOptions options;
  options.cancelled = [] { return true; };
  EXPECT_THAT(rank_next(test, rivals(test).value(), std::nullopt, usual_candidates(test), options),
              FailsWith(ErrorCode::cancelled));
}

}  // namespace

}  // namespace barm::testbakes
