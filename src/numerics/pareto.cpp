#include "numerics/pareto.h"

#include <algorithm>
#include <cmath>
#include <limits>
#include <numeric>

#include "base/require.h"

namespace barm::numerics {

namespace {

// Chosen by the authors of the method.
constexpr double prior_of_bound = 3;
constexpr double prior_shape = 0.5;
constexpr double prior_worth = 10;  // values
constexpr std::size_t least_tail = 5;

// Mean of ln(1 - theta x): minus the shape k of Zhang & Stephens for this theta.
double mean_log(std::span<const double> x, double theta) {
  double sum = 0;
  for (const double value : x) sum += std::log1p(-theta * value);
  return sum / static_cast<double>(x.size());
}

// ln of the profile likelihood of theta = -k/scale, for each value.
double profile(std::span<const double> x, double theta) {
  const double k = mean_log(x, theta);
  return static_cast<double>(x.size()) * (std::log(-theta / k) - k - 1);
}

// Where the values stand in ascending order.
std::vector<std::size_t> order_of(std::span<const double> values) {
  std::vector<std::size_t> order(values.size());
  std::iota(order.begin(), order.end(), std::size_t{0});
  std::sort(order.begin(), order.end(), [&](std::size_t a, std::size_t b) {
    return values[a] < values[b];
  });
  return order;
}

// Replaces the largest weights by what the fitted law expects of them; returns its shape.
double smooth_tail(std::vector<double>& log_weight) {
  const std::size_t count = log_weight.size();
  const auto s = static_cast<double>(count);
  const auto tail = static_cast<std::size_t>(std::ceil(std::min(0.2 * s, 3 * std::sqrt(s))));
  if (tail < least_tail || tail >= count) return std::numeric_limits<double>::infinity();
  const std::vector<std::size_t> order = order_of(log_weight);
  const double cut = std::exp(log_weight[order[count - tail - 1]]);
  std::vector<double> beyond;
  for (std::size_t i = count - tail; i < count; ++i)
    beyond.push_back(std::exp(log_weight[order[i]]) - cut);
  if (!(beyond.front() > 0) || beyond.back() - beyond.front() < 1e-12 * beyond.back()) return 0;
  const Pareto law = fit_pareto(beyond);
  if (!std::isfinite(law.k)) return std::numeric_limits<double>::infinity();
  for (std::size_t i = 0; i < tail; ++i) {
    const double p = (static_cast<double>(i) + 0.5) / static_cast<double>(tail);
    const double quantile = std::abs(law.k) < 1e-12
                                ? -law.scale * std::log1p(-p)
                                : law.scale * std::expm1(-law.k * std::log1p(-p)) / law.k;
    log_weight[order[count - tail + i]] = std::min(0.0, std::log(quantile + cut));
  }
  return law.k;
}

}  // namespace

Pareto fit_pareto(std::span<const double> ascending) {
  require(ascending.size() >= least_tail, "a tail needs five values");
  const std::size_t n = ascending.size();
  const auto grid = 30 + static_cast<std::size_t>(std::sqrt(static_cast<double>(n)));
  const double quarter = ascending[(n + 2) / 4 - 1];
  std::vector<double> theta(grid);
  std::vector<double> likelihood(grid);
  for (std::size_t j = 0; j < grid; ++j) {
    const double part = static_cast<double>(grid) / (static_cast<double>(j) + 0.5);
    theta[j] = 1 / ascending.back() + (1 - std::sqrt(part)) / (prior_of_bound * quarter);
    likelihood[j] = profile(ascending, theta[j]);
  }
  const double most = *std::max_element(likelihood.begin(), likelihood.end());
  double sum = 0;
  double mean = 0;
  for (std::size_t j = 0; j < grid; ++j) {
    const double weight = std::exp(likelihood[j] - most);
    if (!std::isfinite(weight)) continue;
    sum += weight;
    mean += weight * theta[j];
  }
  mean /= sum;
  const double k = mean_log(ascending, mean);
  const auto worth = static_cast<double>(n);
  return {(worth * k + prior_worth * prior_shape) / (worth + prior_worth), -k / mean};
}

double most_trusted(std::size_t draws) {
  return std::min(1 - 1 / std::log10(static_cast<double>(draws)), 0.7);
}

Smoothed pareto_smooth(std::span<const double> log_weights) {
  std::vector<double> log_weight(log_weights.begin(), log_weights.end());
  for (double& w : log_weight) {
    if (std::isnan(w)) w = -std::numeric_limits<double>::infinity();
  }
  const double most = *std::max_element(log_weight.begin(), log_weight.end());
  require(std::isfinite(most), "no draw has a finite weight");
  for (double& w : log_weight) w -= most;
  Smoothed out;
  out.k_hat = smooth_tail(log_weight);
  double sum = 0;
  for (const double w : log_weight) sum += std::exp(w);
  double squares = 0;
  for (const double w : log_weight) {
    out.weight.push_back(std::exp(w) / sum);
    squares += out.weight.back() * out.weight.back();
  }
  out.effective = 1 / squares;
  out.log_mean = most + std::log(sum / static_cast<double>(log_weight.size()));
  return out;
}

}  // namespace barm::numerics
