#include "numerics/quantiles.h"

#include <algorithm>
#include <cmath>

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

std::vector<double> sorted(std::vector<double> sample) {
  std::sort(sample.begin(), sample.end());
  return sample;
}

}  // namespace barm::numerics
