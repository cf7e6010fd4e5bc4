#pragma once
#include <optional>
#include <vector>

#include "units/units.h"

namespace barm::forecast {

/// Quantiles of a time among draws. Empty where that share never gets there within the horizon.
struct Spread {
  std::optional<Time> p05, p10, p50, p90, p95;
};

/// Three quantiles of a number among draws.
struct Range {
  double p10 = 0, p50 = 0, p90 = 0;
};

/// The quantiles of so many numbers; at least one.
[[nodiscard]] Range range(std::vector<double> values);

/// The quantiles of so many hours, infinite for those that never get there; at least one.
[[nodiscard]] Spread spread(std::vector<double> hours);

/// The same of draws with weights; without any they are alike likely.
[[nodiscard]] Spread spread(const std::vector<double>& hours, const std::vector<double>& weights);

}  // namespace barm::forecast
