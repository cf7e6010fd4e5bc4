#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <limits>
#include <numeric>
#include <utility>
#include <vector>

#include "numerics/generic.h"
#include "numerics/quantiles.h"
#include "numerics/random.h"
#include "numerics/shapley.h"

namespace barm::numerics {

namespace {

TEST(NormalQuantile, AgreesWithThePublishedTable) {
  // Abramowitz & Stegun, Handbook of Mathematical Functions (1964), table 26.5.
  EXPECT_NEAR(normal_quantile(0.975), 1.959963984540, 1e-8);
  EXPECT_NEAR(normal_quantile(0.9), 1.281551565545, 1e-8);
  EXPECT_NEAR(normal_quantile(0.001), -3.090232306168, 1e-8);
  EXPECT_NEAR(normal_quantile(0.5), 0, 1e-12);
}

TEST(Random, SameSeedAndStreamGiveTheSameNumbers) {
  Random a(7, 3);
  Random b(7, 3);
  Random other(7, 4);
  EXPECT_EQ(a.bits(), b.bits());
  EXPECT_NE(a.bits(), other.bits());
}

TEST(Random, NormalsHaveMeanZeroAndVarianceOne) {
  // 100 000 numbers over streams: five standard errors, a false alarm in about two million runs.
  double sum = 0;
  double square = 0;
  constexpr int n = 100000;
  for (int i = 0; i < n; ++i) {
    Random random(11, static_cast<std::uint64_t>(i));
    const double z = random.normal();
    sum += z;
    square += z * z;
  }
  EXPECT_NEAR(sum / n, 0, 5 / std::sqrt(n));
  EXPECT_NEAR(square / n, 1, 5 * std::sqrt(2.0 / n));
}

TEST(Quantile, RunsStraightBetweenOrderStatistics) {
  const std::vector<double> sample{1, 2, 4, 8};
  EXPECT_DOUBLE_EQ(quantile(sample, 0), 1);
  EXPECT_DOUBLE_EQ(quantile(sample, 0.5), 3);
  EXPECT_DOUBLE_EQ(quantile(sample, 1), 8);
}

TEST(Quantile, IsInfiniteAmongThoseThatNeverHappened) {
  const double never = std::numeric_limits<double>::infinity();
  const std::vector<double> sample{1, 2, never, never};
  EXPECT_EQ(quantile(sample, 0.9), never);
  EXPECT_EQ(quantile(sample, 0.5), never);
  EXPECT_DOUBLE_EQ(quantile(sample, 1.0 / 3), 2);
}

TEST(Shapley, SharesAGlovesGameAsPublished) {
  // One left glove, two right gloves: 2/3, 1/6, 1/6 (Shapley 1953; textbook example of the glove
  // game).
  const auto pairs = [](unsigned mask) { return (mask & 1U) != 0 && (mask & 6U) != 0 ? 1.0 : 0.0; };
  const auto shares = shapley(3, pairs);
  EXPECT_NEAR(shares[0], 2.0 / 3, 1e-12);
  EXPECT_NEAR(shares[1], 1.0 / 6, 1e-12);
  EXPECT_NEAR(shares[2], 1.0 / 6, 1e-12);
}

TEST(Shapley, SharesAddUpToTheWhole) {
  const auto value = [](unsigned mask) { return std::sqrt(static_cast<double>(mask * 37 % 19)); };
  const auto shares = shapley(5, value);
  EXPECT_NEAR(std::accumulate(shares.begin(), shares.end(), 0.0), value(31) - value(0), 1e-12);
}

// A weight of 3 is a value that stands there three times, all but the straight line between values.
TEST(Quantile, IsTheSameWithoutSorting) {
  const double shares[] = {0.0, 0.1, 0.11, 0.5, 0.9, 1.0};
  for (std::size_t n = 1; n < 60; ++n) {
    Random random(3, n);
    std::vector<double> sample;
    for (std::size_t i = 0; i < n; ++i) {
      const double z = random.normal();
      sample.push_back(z > 1 ? std::numeric_limits<double>::infinity() : std::round(4 * z));
    }
    const auto ordered = sorted(sample);
    const auto found = quantiles(sample, shares);
    for (std::size_t s = 0; s < std::size(shares); ++s)
      EXPECT_EQ(found[s], quantile(ordered, shares[s])) << n << " numbers, share " << shares[s];
  }
}

TEST(WeightedQuantile, CountsAValueAsOftenAsItsWeight) {
  const std::vector<double> values{5, 1, 3};
  const std::vector<double> weights{1, 2, 1};
  EXPECT_EQ(weighted_quantile(values, weights, 0.0), 1);
  EXPECT_EQ(weighted_quantile(values, weights, 0.25), 1);
  EXPECT_NEAR(weighted_quantile(values, weights, 0.625), 3, 1e-12);
  EXPECT_NEAR(weighted_quantile(values, weights, 0.875), 5, 1e-12);
  EXPECT_EQ(weighted_quantile(values, weights, 1.0), 5);
}

TEST(WeightedQuantile, LeavesOutWhatWeighsNothingAndKeepsWhatNeverHappens) {
  const double never = std::numeric_limits<double>::infinity();
  const std::vector<double> values{2, never, 4, 100};
  const std::vector<double> weights{1, 1, 1, 0};
  EXPECT_LT(weighted_quantile(values, weights, 0.5), 5);
  EXPECT_EQ(weighted_quantile(values, weights, 0.9), never);
  EXPECT_LE(weighted_quantile(values, weights, 0.6), never);
}

TEST(WeightedQuantile, OfManyValuesIsThatOfAllInOrder) {
  const double shares[] = {0, 0.003, 0.1, 0.5, 0.9, 0.999, 1};
  for (const std::size_t n : {1U, 40U, 500U, 6001U}) {
    Random random(n, 0);
    std::vector<double> values;
    std::vector<double> weights;
    for (std::size_t i = 0; i < n; ++i) {
      // Some alike, some never, some that weigh nothing, one in fifty that outweighs the rest.
      values.push_back(i % 7 == 0 ? 3 : i % 11 == 0 ? HUGE_VAL : random.normal());
      weights.push_back(i % 5 == 4 ? 0 : i % 50 == 3 ? 40 : std::exp(2 * random.normal()));
    }
    std::vector<std::size_t> order(n);
    std::iota(order.begin(), order.end(), 0);
    std::sort(order.begin(), order.end(), [&](std::size_t a, std::size_t b) {
      return std::pair(values[a], weights[a]) < std::pair(values[b], weights[b]);
    });
    const double all = std::accumulate(weights.begin(), weights.end(), 0.0);
    const auto found = weighted_quantiles(values, weights, shares);
    for (std::size_t s = 0; s < std::size(shares); ++s) {
      double below = 0;
      double last_middle = 0;
      double last = std::nan("");
      double wanted = std::nan("");
      for (const std::size_t i : order) {
        if (weights[i] == 0) continue;
        const double middle = (below + weights[i] / 2) / all;
        if (std::isnan(wanted) && middle >= shares[s]) {
          const double part = (shares[s] - last_middle) / (middle - last_middle);
          wanted = std::isnan(last) || std::isinf(values[i]) ? values[i]
                                                             : last + part * (values[i] - last);
        }
        below += weights[i];
        last_middle = middle;
        last = values[i];
      }
      if (std::isnan(wanted)) wanted = last;
      if (std::isinf(wanted)) {
        EXPECT_EQ(found[s], wanted) << n << ", share " << shares[s];
      } else {
        EXPECT_NEAR(found[s], wanted, 1e-9) << n << ", share " << shares[s];
      }
    }
  }
}

TEST(WeightedQuantile, AgreesWithTheNormalLawOfManyDraws) {
  std::vector<double> values;
  std::vector<double> weights;
  for (int i = 0; i < 4000; ++i) {
    // Uniform draws with the normal density as their weight.
    const double x = -5 + 10 * (i + 0.5) / 4000;
    values.push_back(x);
    weights.push_back(std::exp(-x * x / 2));
  }
  for (const double p : {0.1, 0.5, 0.9})
    EXPECT_NEAR(weighted_quantile(values, weights, p), normal_quantile(p), 0.005);
}

TEST(Power, AgreesWithTheLibrary) {
  for (const double k : {0.5, 1.0, 1.9, 2.0, 2.5, 3.0, 4.0, 8.0, 10.0}) {
    for (const double x : {0.0, 1e-6, 0.3, 1.0, 7.5}) {
      EXPECT_NEAR(power(x, k), std::pow(x, k), 1e-12 * std::max(1.0, std::pow(x, k)))
          << x << "^" << k;
    }
  }
}

}  // namespace

}  // namespace barm::numerics
