#include "estimation/belief.h"

#include <algorithm>
#include <cmath>

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

Belief book_belief() { return belief_of(kinetics::by_the_book()); }

Belief day_one_belief() { return belief_of(kinetics::day_one()); }

}  // namespace barm::estimation
