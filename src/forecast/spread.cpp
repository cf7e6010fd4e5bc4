#include "forecast/spread.h"

#include <cmath>

#include "numerics/quantiles.h"

namespace barm::forecast {

Spread spread(std::vector<double> hours) {
  const auto sample = numerics::sorted(std::move(hours));
  const auto at = [&](double p) -> std::optional<Time> {
    const double h = numerics::quantile(sample, p);
    return std::isfinite(h) ? std::optional<Time>(h * hour) : std::nullopt;
  };
  return {at(0.05), at(0.10), at(0.50), at(0.90), at(0.95)};
}

}  // namespace barm::forecast
