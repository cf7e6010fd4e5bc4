#include "forecast/spread.h"

#include <cmath>

#include "numerics/quantiles.h"

namespace barm::forecast {

Range range(std::vector<double> values) {
  const auto sample = numerics::sorted(std::move(values));
  return {numerics::quantile(sample, 0.1),
          numerics::quantile(sample, 0.5),
          numerics::quantile(sample, 0.9)};
}

Spread spread(std::vector<double> hours) {
  const auto sample = numerics::sorted(std::move(hours));
  const auto at = [&](double p) -> std::optional<Time> {
    const double h = numerics::quantile(sample, p);
    return std::isfinite(h) ? std::optional<Time>(h * hour) : std::nullopt;
  };
  return {at(0.05), at(0.10), at(0.50), at(0.90), at(0.95)};
}

Spread spread(const std::vector<double>& hours, const std::vector<double>& weights) {
  if (weights.empty()) return spread(hours);
  static constexpr double shares[] = {0.05, 0.10, 0.50, 0.90, 0.95};
  const auto of = numerics::weighted_quantiles(hours, weights, shares);
  const auto at = [](double h) {
    return std::isfinite(h) ? std::optional<Time>(h * hour) : std::nullopt;
  };
  return {at(of[0]), at(of[1]), at(of[2]), at(of[3]), at(of[4])};
}

}  // namespace barm::forecast
