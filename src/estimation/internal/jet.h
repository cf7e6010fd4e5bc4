#pragma once
// Numbers that carry derivatives (ceres::Jet) taught to the equations. Include it before the
// headers that hold the equations: names called with numerics:: are looked up where those stand.
#include <ceres/jet.h>

#include <cmath>

#include "numerics/generic.h"

namespace barm::numerics {

template <int N>
double value_of(const ceres::Jet<double, N>& x) {
  return x.a;
}

/// The error of the value, or of a derivative where that is larger; a derivative may be off by ten
/// times as much.
template <int N>
double largest_part(const ceres::Jet<double, N>& error) {
  return std::max(std::abs(error.a), 0.1 * error.v.template lpNorm<Eigen::Infinity>());
}

/// x^k as in generic.h. At x = 0 the square root has no slope, but every k here is above 1, where
/// the power's slope is 0.
template <int N>
ceres::Jet<double, N> power(const ceres::Jet<double, N>& x, double k) {
  if (!(x.a > 1e-300)) return ceres::Jet<double, N>(k == 0 ? 1.0 : 0.0);
  const double value = std::pow(x.a, k);
  ceres::Jet<double, N> out(value);
  out.v = (k * value / x.a) * x.v;
  return out;
}

}  // namespace barm::numerics
