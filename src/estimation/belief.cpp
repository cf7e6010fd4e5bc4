#include "estimation/belief.h"

#include <algorithm>
#include <cmath>

#include "base/require.h"

namespace barm::estimation {

double Belief::sd(kinetics::Parameter parameter) const {
  const auto i = static_cast<std::size_t>(parameter);
  return std::sqrt(covariance[i * mean.size() + i]);
}

Belief belief_of(const kinetics::JointPrior& prior) {
  const std::size_t n = kinetics::parameter_count;
  Belief belief{std::vector<double>(prior.centre.begin(), prior.centre.end()),
                std::vector<double>(n * n, 0.0)};
  for (std::size_t i = 0; i < n; ++i) {
    for (std::size_t j = 0; j < n; ++j) {
      for (std::size_t k = 0; k <= std::min(i, j); ++k)
        belief.covariance[i * n + j] += prior.factor[i][k] * prior.factor[j][k];
    }
  }
  return belief;
}

kinetics::JointPrior prior_of(const Belief& belief) {
  const std::size_t n = kinetics::parameter_count;
  require(belief.mean.size() == n && belief.covariance.size() == n * n,
          "a belief holds every parameter");
  kinetics::JointPrior prior;
  std::copy(belief.mean.begin(), belief.mean.end(), prior.centre.begin());
  // Cholesky's factor; a parameter without doubt of its own keeps an empty column.
  for (std::size_t j = 0; j < n; ++j) {
    for (std::size_t i = j; i < n; ++i) {
      double left = belief.covariance[i * n + j];
      for (std::size_t k = 0; k < j; ++k) left -= prior.factor[i][k] * prior.factor[j][k];
      if (i == j)
        prior.factor[j][j] = std::sqrt(std::max(0.0, left));
      else if (prior.factor[j][j] > 0)
        prior.factor[i][j] = left / prior.factor[j][j];
    }
  }
  return prior;
}

Belief published_belief() { return belief_of(kinetics::published()); }

Belief day_one_belief() { return belief_of(kinetics::day_one()); }

}  // namespace barm::estimation
