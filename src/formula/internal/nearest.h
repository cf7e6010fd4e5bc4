#pragma once
#include <vector>

namespace barm::formula::internal {

/// sum_j coefficient_j y_j = value, scaled so that a residual of 1 is a miss by the whole.
struct Equation {
  std::vector<double> coefficient;
  double value = 0;
};

/// Unknowns between bounds, as near to `plan` as the equations let them.
struct Nearest {
  std::vector<double> plan, least, most;
  std::vector<Equation> equations;
};

struct Found {
  std::vector<double> y;
  double residual = 0;  ///< largest miss of any equation
};

/// The y with the least sum (y_j - plan_j)^2 that meets every equation within the bounds; where no
/// y does, the one with the least sum of squared misses.
///
///     min |y - plan|^2  subject to  A y = b, least <= y <= most
///
/// by sequential quadratic programming (SLSQP of NLopt). Equations that follow from others are
/// taken out first. Plain doubles, all of order 1.
[[nodiscard]] Found nearest(const Nearest& problem);

}  // namespace barm::formula::internal
