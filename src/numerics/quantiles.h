#pragma once
#include <span>
#include <vector>

namespace barm::numerics {

/// Quantile of a sample in which some never happened (infinite): linear between order statistics
/// (Hyndman & Fan type 7). Infinite when the quantile falls among those that never happened.
/// `sorted` ascending, not empty; p in 0..1.
[[nodiscard]] double quantile(std::span<const double> sorted, double p);

/// Several quantiles of a sample in any order, which is left in another; `shares` ascending.
/// Cheaper than to sort it.
[[nodiscard]] std::vector<double> quantiles(std::span<double> sample,
                                            std::span<const double> shares);

/// The sample in ascending order.
[[nodiscard]] std::vector<double> sorted(std::vector<double> sample);

/// Quantile of values with weights, some of which may never have happened (infinite): the value at
/// which the weight of those up to it reaches p, between values straight by the middles of their
/// weights. Infinite where the quantile falls among those that never happened. Weights sum to more
/// than 0; values need no order.
[[nodiscard]] double weighted_quantile(std::span<const double> values,
                                       std::span<const double> weights,
                                       double p);

/// Several quantiles of the same values at once, in the order of `shares`.
[[nodiscard]] std::vector<double> weighted_quantiles(std::span<const double> values,
                                                     std::span<const double> weights,
                                                     std::span<const double> shares);

}  // namespace barm::numerics
