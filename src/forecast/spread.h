#pragma once
#include <optional>
#include <vector>

#include "units/units.h"

namespace barm::forecast {

/// Quantiles of a time among draws. Empty where that share never gets there within the horizon.
struct Spread {
  std::optional<Time> p05, p10, p50, p90, p95;
};

/// The quantiles of so many hours, infinite for those that never get there; at least one.
[[nodiscard]] Spread spread(std::vector<double> hours);

}  // namespace barm::forecast
