#include "estimation/belief.h"

#include <cmath>

namespace barm::estimation {

double Belief::sd(kinetics::Parameter parameter) const {
  const auto i = static_cast<std::size_t>(parameter);
  return std::sqrt(covariance[i * mean.size() + i]);
}

Belief book_belief() {
  const std::size_t n = kinetics::parameter_count;
  Belief belief{std::vector<double>(n, 0.0), std::vector<double>(n * n, 0.0)};
  for (const kinetics::Prior& prior : kinetics::priors()) {
    const auto i = static_cast<std::size_t>(prior.parameter);
    belief.covariance[i * n + i] = prior.doubt * prior.doubt;
  }
  return belief;
}

}  // namespace barm::estimation
