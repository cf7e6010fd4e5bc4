#include "numerics/quantiles.h"

#include <algorithm>
#include <cmath>
#include <utility>

#include "base/require.h"

namespace barm::numerics {

double quantile(std::span<const double> sorted, double p) {
  require(!sorted.empty() && p >= 0 && p <= 1, "a quantile needs a sample and a share of it");
  const double position = p * static_cast<double>(sorted.size() - 1);
  const auto below = static_cast<std::size_t>(position);
  const double part = position - static_cast<double>(below);
  if (part == 0 || below + 1 >= sorted.size() || std::isinf(sorted[below])) return sorted[below];
  return sorted[below] + part * (sorted[below + 1] - sorted[below]);
}

std::vector<double> quantiles(std::span<double> sample, std::span<const double> shares) {
  std::vector<double> out;
  auto in_order = sample.begin();  // what is before has its place
  for (const double p : shares) {
    require(!sample.empty() && p >= 0 && p <= 1, "a quantile needs a sample and a share of it");
    const double position = p * static_cast<double>(sample.size() - 1);
    const auto below = sample.begin() + static_cast<std::ptrdiff_t>(position);
    if (below >= in_order) std::nth_element(in_order, below, sample.end());
    if (below + 1 < sample.end())
      std::iter_swap(below + 1, std::min_element(below + 1, sample.end()));
    in_order = below;
    out.push_back(quantile(sample, p));
  }
  return out;
}

std::vector<double> sorted(std::vector<double> sample) {
  std::sort(sample.begin(), sample.end());
  return sample;
}

double weighted_quantile(std::span<const double> values,
                         std::span<const double> weights,
                         double p) {
  return weighted_quantiles(values, weights, std::span(&p, 1)).front();
}

std::vector<double> weighted_quantiles(std::span<const double> values,
                                       std::span<const double> weights,
                                       std::span<const double> shares) {
  require(!values.empty() && values.size() == weights.size(),
          "a quantile needs values and as many weights");
  std::vector<std::pair<double, double>> pairs;
  pairs.reserve(values.size());
  double all = 0;
  for (std::size_t i = 0; i < values.size(); ++i) {
    if (!(weights[i] > 0)) continue;
    pairs.emplace_back(values[i], weights[i]);
    all += weights[i];
  }
  require(!pairs.empty(), "all weights are 0");
  std::sort(pairs.begin(), pairs.end());
  const auto at = [&](double p) {
    require(p >= 0 && p <= 1, "a share of a sample");
    double below = 0;
    double last_middle = 0;
    for (std::size_t i = 0; i < pairs.size(); ++i) {
      const double middle = (below + 0.5 * pairs[i].second) / all;
      if (middle >= p) {
        if (i == 0 || std::isinf(pairs[i].first)) return pairs[i].first;
        const double part = (p - last_middle) / (middle - last_middle);
        return pairs[i - 1].first + part * (pairs[i].first - pairs[i - 1].first);
      }
      below += pairs[i].second;
      last_middle = middle;
    }
    return pairs.back().first;
  };
  std::vector<double> out;
  for (const double p : shares) out.push_back(at(p));
  return out;
}

}  // namespace barm::numerics
