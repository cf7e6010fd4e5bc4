#include "numerics/pareto.h"

#include <gmock/gmock.h>

#include <algorithm>
#include <cmath>
#include <limits>

#include "numerics/random.h"

namespace barm::numerics {
namespace {

// Drawing from Exp(rate) for a target Exp(1) gives weights w ~ exp((rate - 1) x), whose tail is
// P(w > t) ~ t^(-rate / (rate - 1)): a Pareto law of shape k = 1 - 1/rate, exactly.
std::vector<double> log_weights(double rate, int count, std::uint64_t seed) {
  std::vector<double> out;
  for (int i = 0; i < count; ++i) {
    Random random(seed, static_cast<std::uint64_t>(i));
    const double x = -std::log(random.uniform()) / rate;
    out.push_back((rate - 1) * x - std::log(rate));
  }
  return out;
}

TEST(ParetoSmoothing, FindsTheShapeOfExponentialDrawsForAnExponentialTarget) {
  for (const double rate : {1.5, 2.0, 3.0, 5.0}) {
    const double k = 1 - 1 / rate;
    const Smoothed smoothed = pareto_smooth(log_weights(rate, 40000, 3));
    // 600 values in the tail leave k an sd of (1 + k)/sqrt(600), at most 0.073: three of them.
    EXPECT_NEAR(smoothed.k_hat, k, 3 * (1 + k) / std::sqrt(600)) << "rate " << rate;
  }
}

TEST(ParetoSmoothing, KeepsTheMeanOfTheWeights) {
  // The mean weight is 1 whatever the rate.
  const Smoothed smoothed = pareto_smooth(log_weights(1.5, 40000, 5));
  EXPECT_NEAR(smoothed.log_mean, 0, 0.02);
  EXPECT_LT(smoothed.k_hat, most_trusted(40000));
}

TEST(ParetoSmoothing, WarnsWhenThereIsNoVariance) {
  EXPECT_GT(pareto_smooth(log_weights(5, 4000, 7)).k_hat, most_trusted(4000));
}

TEST(ParetoSmoothing, GivesEqualWeightsToEqualDraws) {
  const std::vector<double> same(1000, -3.5);
  const Smoothed smoothed = pareto_smooth(same);
  EXPECT_NEAR(smoothed.effective, 1000, 1e-6);
  EXPECT_NEAR(smoothed.log_mean, -3.5, 1e-12);
}

TEST(ParetoSmoothing, CountsWeightsThatAreNoNumbersAsNothing) {
  std::vector<double> some = log_weights(1.2, 1000, 9);
  some[17] = std::nan("");
  some[18] = -std::numeric_limits<double>::infinity();
  const Smoothed smoothed = pareto_smooth(some);
  EXPECT_EQ(smoothed.weight[17], 0);
  EXPECT_EQ(smoothed.weight[18], 0);
  double sum = 0;
  for (const double w : smoothed.weight) sum += w;
  EXPECT_NEAR(sum, 1, 1e-12);
}

// The sample-size rule as published: github.com/stan-dev/loo, notes of version 2.7.0.
TEST(ParetoSmoothing, TrustsAsMuchAsTheDrawsAllow) {
  EXPECT_NEAR(most_trusted(100), 0.5, 1e-12);
  EXPECT_NEAR(most_trusted(320), 0.6, 0.005);
  EXPECT_NEAR(most_trusted(1000), 0.667, 0.001);
  EXPECT_NEAR(most_trusted(2200), 0.7, 0.002);
  EXPECT_NEAR(most_trusted(100000), 0.7, 1e-12);
}

TEST(FitPareto, FindsTheLawItsValuesCameFrom) {
  for (const double k : {-0.3, 0.0, 0.4, 0.8}) {
    std::vector<double> values;
    for (int i = 0; i < 5000; ++i) {
      const double p = (i + 0.5) / 5000;
      values.push_back(k == 0 ? -2 * std::log1p(-p) : 2 * std::expm1(-k * std::log1p(-p)) / k);
    }
    const Pareto law = fit_pareto(values);
    EXPECT_NEAR(law.k, k, 0.02);
    EXPECT_NEAR(law.scale, 2, 0.06);
  }
}

}  // namespace
}  // namespace barm::numerics
