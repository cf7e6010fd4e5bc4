// The map of chances against every cell computed.
#include "forecast/field.h"

#include <gtest/gtest.h>

#include <cmath>

#include "support/doughs.h"

namespace barm::forecast {

namespace {

// Dough with a share of its liquid replaced by something like wine.
void fill(double share, double celsius, int draw, Case& to_fill) {
  numerics::Random random(9, static_cast<std::uint64_t>(draw));
  to_fill.parameters = kinetics::drawn(random);
  to_fill.dough = test::plain_dough();
  to_fill.dough.ethanol = 45 * share;
  to_fill.dough.free_sulphite = 8 * share;
  to_fill.dough.ph = 5.83 - 1.3 * share;
  to_fill.temperature = Temperature::from_celsius(celsius);
}

FieldQuestion small_question() {
  FieldQuestion question;
  question.across = {0, 1, 33};
  question.up = {16, 38, 22};
  question.within = 18.0 * hour;
  question.draws = 40;
  question.checked = 10;
  return question;
}

double chance_by_brute_force(const FieldQuestion& question, int x, int y) {
  ManyOptions options = question.many;
  options.proving.horizon = question.within;
  options.proving.stop_at_target = true;
  const auto many = foresee_many(
      static_cast<std::size_t>(question.draws),
      [&](std::size_t i, Case& c) {
        fill(question.across.at(x), question.up.at(y), static_cast<int>(i), c);
      },
      options);
  int ready = 0;
  for (const Passed& passed : many->passed) ready += passed.is_ready() ? 1 : 0;
  return static_cast<double>(ready) / question.draws;
}

TEST(ChanceField, IsWhatEveryCellComputedWouldSay) {
  const FieldQuestion question = small_question();
  const auto field = chance_field(question, fill);
  ASSERT_TRUE(field);
  EXPECT_TRUE(field->finished);
  EXPECT_LT(field->forecasts, static_cast<std::size_t>(33 * 22 * 40) / 2);
  EXPECT_LE(field->error, 0.02);
  double least = 1;
  double most = 0;
  for (int y = 0; y < 22; ++y) {
    for (int x = 0; x < 33; ++x) {
      const double chance = field->at(x, y);
      EXPECT_NEAR(chance, chance_by_brute_force(question, x, y), 0.02) << x << "," << y;
      least = std::min(least, chance);
      most = std::max(most, chance);
    }
  }
  EXPECT_EQ(least, 0);
  EXPECT_EQ(most, 1);
}

TEST(ChanceField, IsRoughFirstAndNeverGoesBack) {
  std::vector<std::size_t> forecasts;
  std::vector<double> rough;
  const auto field = chance_field(small_question(), fill, [&](const Field& picture) {
    if (forecasts.empty()) rough = picture.chance;
    forecasts.push_back(picture.forecasts);
  });
  ASSERT_TRUE(field);
  ASSERT_GT(forecasts.size(), 2U);
  EXPECT_LT(forecasts.front(), forecasts.back() / 2);
  double off = 0;
  for (std::size_t i = 0; i < rough.size(); ++i) off += std::abs(rough[i] - field->chance[i]);
  EXPECT_LT(off / static_cast<double>(rough.size()), 0.1);
}

TEST(ChanceField, IsTheSameForAnyNumberOfThreads) {
  FieldQuestion question = small_question();
  question.many.threads = 1;
  const auto one = chance_field(question, fill);
  question.many.threads = 7;
  const auto seven = chance_field(question, fill);
  ASSERT_TRUE(one && seven);
  EXPECT_EQ(one->chance, seven->chance);
  EXPECT_EQ(one->error, seven->error);
}

TEST(ChanceField, CanBeCancelled) {
  FieldQuestion question = small_question();
  question.many.cancelled = [] { return true; };
  const auto field = chance_field(question, fill);
  ASSERT_FALSE(field);
  EXPECT_EQ(field.error().code, ErrorCode::cancelled);
}

}  // namespace

}  // namespace barm::forecast
