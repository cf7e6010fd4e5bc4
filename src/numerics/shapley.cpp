#include "numerics/shapley.h"

#include <bit>

#include "base/require.h"

namespace barm::numerics {

std::vector<double> shapley(std::size_t n, const std::function<double(unsigned)>& value) {
  require(n <= 16, "Shapley values of more than 16 factors");
  const unsigned masks = 1U << n;
  std::vector<double> values(masks);
  for (unsigned mask = 0; mask < masks; ++mask) values[mask] = value(mask);

  // weight of a coalition of size s that a factor joins: s! (n-1-s)! / n!
  std::vector<double> weight(n, 0.0);
  for (std::size_t s = 0; s < n; ++s) {
    double w = 1.0 / static_cast<double>(n);
    for (std::size_t i = 1; i <= s; ++i) w *= static_cast<double>(i) / static_cast<double>(n - i);
    weight[s] = w;
  }
  std::vector<double> shares(n, 0.0);
  for (unsigned mask = 0; mask < masks; ++mask) {
    for (std::size_t i = 0; i < n; ++i) {
      if ((mask >> i) & 1U) continue;
      shares[i] += weight[static_cast<std::size_t>(std::popcount(mask))] *
                   (values[mask | (1U << i)] - values[mask]);
    }
  }
  return shares;
}

}  // namespace barm::numerics
