// A panel weighs the model.
#include "taste/tasting.h"

#include <gtest/gtest.h>

#include <cmath>
#include <numeric>

#include "taste/breads.h"

namespace barm::taste {

namespace {

using test::loaf;
using test::tasted_of;

const Tasted& mead() {
  static const Tasted out = tasted_of(loaf("dry mead", 150, 500), 0.1, 1000);
  return out;
}

Judged by(const std::string& text) {
  const auto tasting = parse_tasting(text);
  if (!tasting) {
    ADD_FAILURE() << tasting.error().text();
    return {};
  }
  return judged(mead(), {*tasting}).value();
}

TEST(Tasting, ManyRightMakesItStrongerAndFewWeaker) {
  const Judged all = by("24 of 24 right");
  EXPECT_GT(all.told_after, all.told_before);
  const Judged few = by("8 of 24 right");
  EXPECT_LT(few.told_after, few.told_before);
  EXPECT_GT(by("24 of 24").strength_after.p50, by("8 of 24").strength_after.p50);
}

TEST(Tasting, WordsAreEvidenceToo) {
  EXPECT_GT(by("loud, loud, loud").strength_after.p50, by("gone, gone, a hint").strength_after.p50);
}

TEST(Tasting, WeightsAreTheBinomialsByHand) {
  const Judged judged = by("9 of 12");
  std::vector<double> hand;
  for (const double tells : mead().tells) {
    const double p = std::min(1.0 / 3 + 2.0 / 3 * tells, 1 - 1e-6);
    hand.push_back(std::pow(p, 9) * std::pow(1 - p, 3));
  }
  const double sum = std::accumulate(hand.begin(), hand.end(), 0.0);
  for (std::size_t d = 0; d < hand.size(); ++d)
    EXPECT_NEAR(judged.weights[d], hand[d] / sum, 1e-12);
  EXPECT_NEAR(std::accumulate(judged.weights.begin(), judged.weights.end(), 0.0), 1, 1e-12);
}

// A person in two says which draw was true: the panel's own draws get most of the weight.
TEST(Tasting, APanelFindsTheStrengthItWasDrawnFrom) {
  const std::size_t truth = 17;
  const double p = 1.0 / 3 + 2.0 / 3 * mead().tells[truth];
  const int tasters = 200;
  const int right = static_cast<int>(std::lround(p * tasters));
  const Judged found = by(std::to_string(right) + " of " + std::to_string(tasters));
  EXPECT_NEAR(found.told_after, mead().tells[truth], 0.08);
}

TEST(Tasting, WhatCannotBeReadSaysHow) {
  for (const char* text : {"", "13 of 12", "9 / 12", "9 of 12 wrong", "strong", "-1 of 3", "9 of"})
    EXPECT_THAT(parse_tasting(text), barm::test::FailsWith(ErrorCode::bad_input)) << text;
  EXPECT_THAT(judged(mead(), {}), barm::test::FailsWith(ErrorCode::bad_input));
}

}  // namespace

}  // namespace barm::taste
