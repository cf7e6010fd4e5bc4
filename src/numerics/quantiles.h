#pragma once
#include <span>
#include <vector>

namespace barm::numerics {

/// Quantile of a sample in which some never happened (infinite): linear between order statistics
/// (Hyndman & Fan type 7). Infinite when the quantile falls among those that never happened.
/// `sorted` ascending, not empty; p in 0..1.
[[nodiscard]] double quantile(std::span<const double> sorted, double p);

/// The sample in ascending order.
[[nodiscard]] std::vector<double> sorted(std::vector<double> sample);

}  // namespace barm::numerics
