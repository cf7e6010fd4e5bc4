#pragma once
// A dough that goes its own way: mixed, warmed or labelled otherwise than the others, or slowed by
// something nobody asked about.
#include <cstddef>
#include <vector>

#include "testbakes/internal/fit.h"
#include "testbakes/joint_model.h"

namespace barm::testbakes::internal {

// Guesses of ours.
inline constexpr double chance_of_own_way = 0.1;  ///< of one among the doughs
inline constexpr double ln_own_way = 0.5;         ///< sd of the ln of its speed against the others

/// One hypothesis with and without such a dough.
struct OwnWays {
  double log_gain = 0;         ///< of the evidence, all ways together
  std::vector<double> chance;  ///< of each dough, under this hypothesis
};

/// Besides its scatter one dough may be faster or slower by e^delta on all days, delta ~ N(0,
/// 0.5^2), each as likely, with a chance of 1 in 10 in all:
///
///     p(y|H) -> p(y|H) (9/10 + 1/(10 D) sum_d R_d),
///     R_d = int N(u; m, v) N(u; 0, c^2) / N(u; 0, 1) du,   u = sum of the dough's paces / sqrt(n),
///     c^2 = 1 + n (0.5 / sd of a dough's pace)^2,
///
/// m, v the mean and variance of u after the fit (Laplace), n the days on which it was mixed.
[[nodiscard]] OwnWays own_ways(const JointModel& model, std::size_t doughs, const Fit& fit);

}  // namespace barm::testbakes::internal
