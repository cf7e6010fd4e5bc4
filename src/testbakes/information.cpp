#include "testbakes/internal/information.h"

#include <algorithm>
#include <cmath>
#include <map>

#include "numerics/random.h"

namespace barm::testbakes::internal {

double uncertainty(const std::vector<double>& weights, const std::vector<int>& group) {
  std::map<int, double> sums;
  for (std::size_t m = 0; m < weights.size(); ++m) sums[group[m]] += weights[m];
  double h = 0;
  for (const auto& [name, w] : sums) h -= w > 0 ? w * std::log(w) : 0;
  return h;
}

double expected_information(const std::vector<Foretold>& hypotheses,
                            const std::vector<int>& group,
                            int draws,
                            std::uint64_t seed) {
  const std::size_t n = hypotheses.size();
  std::vector<Eigen::MatrixXd> factor;
  std::vector<double> log_volume;
  std::vector<double> weights;
  for (const Foretold& one : hypotheses) {
    factor.emplace_back(one.covariance.llt().matrixL());
    log_volume.push_back(factor.back().diagonal().array().log().sum());
    weights.push_back(one.weight);
  }
  numerics::Random random(seed, 21);
  double left = 0;
  for (std::size_t m = 0; m < n; ++m) {
    // Every hypothesis gets its share of the draws, so that their weights bring no luck of their
    // own.
    const int own = std::max(1, static_cast<int>(std::lround(draws * weights[m])));
    if (weights[m] < 1e-6) continue;
    double sum = 0;
    for (int i = 0; i < own; ++i) {
      Eigen::VectorXd normal(hypotheses[m].mean.size());
      for (double& x : normal) x = random.normal();
      const Eigen::VectorXd y = hypotheses[m].mean + factor[m] * normal;
      std::vector<double> logs(n);
      for (std::size_t k = 0; k < n; ++k) {
        const Eigen::VectorXd off =
            factor[k].triangularView<Eigen::Lower>().solve(y - hypotheses[k].mean);
        logs[k] = std::log(std::max(weights[k], 1e-300)) - log_volume[k] - 0.5 * off.squaredNorm();
      }
      const double most = *std::max_element(logs.begin(), logs.end());
      double all = 0;
      for (double& log : logs) all += log = std::exp(log - most);
      for (double& log : logs) log /= all;
      sum += uncertainty(logs, group);
    }
    left += weights[m] * sum / own;
  }
  return std::max(0.0, uncertainty(weights, group) - left);
}

}  // namespace barm::testbakes::internal
