#include "testbakes/doughs_needed.h"

#include <boost/math/distributions/non_central_t.hpp>
#include <boost/math/distributions/students_t.hpp>
#include <cmath>

#include "base/require.h"
#include "generated/constants.h"

namespace barm::testbakes {

Scatter usual_scatter() {
  return {constants::scatter::dough.value.si(), constants::scatter::jar.value.si()};
}

double chance_to_show(
    double difference, int days, int jars, const Scatter& scatter, int doughs, double alpha) {
  const double sd = std::hypot(scatter.dough, scatter.jar / std::sqrt(jars));
  require(sd > 0 && days > 0 && jars > 0 && doughs > 1, "there is scatter and there are doughs");
  // `days` block means and doughs - 1 differences are estimated from doughs days means.
  const int freedom = (doughs - 1) * (days - 1);
  if (freedom < 1) return 0;
  const double delta = std::abs(difference) / (sd * std::sqrt(2.0 / days));
  const boost::math::students_t plain(freedom);
  const double bound = boost::math::quantile(boost::math::complement(plain, alpha / 2));
  if (delta > 30) return 1;
  const boost::math::non_central_t shifted(freedom, delta);
  return boost::math::cdf(boost::math::complement(shifted, bound)) +
         boost::math::cdf(shifted, -bound);
}

std::vector<DoughsNeeded> doughs_needed(double difference,
                                        const Scatter& scatter,
                                        int doughs,
                                        double power,
                                        int most_days,
                                        int most_jars) {
  require(difference > 0 && difference < 1, "a share of the speed");
  std::vector<DoughsNeeded> ways;
  for (int jars = 1; jars <= most_jars; ++jars) {
    for (int days = 1; days <= most_days; ++days) {
      const double chance = chance_to_show(std::log1p(-difference), days, jars, scatter, doughs);
      if (chance < power) continue;
      ways.push_back({days, jars, chance});
      break;
    }
  }
  return ways;
}

}  // namespace barm::testbakes
