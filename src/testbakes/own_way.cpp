#include "testbakes/internal/own_way.h"

#include <cmath>
#include <set>

#include "generated/constants.h"

namespace barm::testbakes::internal {

namespace {

/// ln R for a mean m and variance v of u.
double log_ratio(double m, double v, double wide) {
  const double sharp = 1 / v + 1 / wide - 1;
  return 0.5 * (m * m / (v * v * sharp) - m * m / v - std::log(wide * v * sharp));
}

}  // namespace

OwnWays own_ways(const JointModel& model, std::size_t doughs, const Fit& fit) {
  std::vector<std::set<std::size_t>> paces(doughs);
  for (std::size_t j = 0; j < model.jars().size(); ++j)
    paces[model.jars()[j].dough].insert(model.index_of_mixed(j));
  std::vector<double> ratio(doughs, 0);
  const double scatter = constants::scatter::dough.value.si();
  std::size_t mixed = 0;
  for (std::size_t d = 0; d < doughs; ++d) {
    if (paces[d].empty()) continue;
    ++mixed;
    const auto n = static_cast<double>(paces[d].size());
    double m = 0;
    double v = 0;
    for (const std::size_t a : paces[d]) {
      m += fit.z(static_cast<Eigen::Index>(a)) / std::sqrt(n);
      for (const std::size_t b : paces[d])
        v += fit.covariance(static_cast<Eigen::Index>(a), static_cast<Eigen::Index>(b)) / n;
    }
    ratio[d] = std::exp(log_ratio(m, v, 1 + n * std::pow(ln_own_way / scatter, 2)));
  }
  double all = 1 - chance_of_own_way;
  for (double& r : ratio) all += r *= chance_of_own_way / static_cast<double>(mixed);
  OwnWays out;
  out.log_gain = std::log(all);
  for (const double r : ratio) out.chance.push_back(r / all);
  return out;
}

}  // namespace barm::testbakes::internal
