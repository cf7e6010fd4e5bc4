#pragma once
#include <cmath>

namespace barm::chemistry::internal {

/// A function's value and its slope, or a fair guess at the slope.
struct ValueAndSlope {
  double value;
  double slope;
};

/// Root of an increasing function with f(low) <= 0 <= f(high): Newton's step where it stays inside
/// the bracket, the middle of the bracket where it does not. Found to `tolerance` in the argument.
template <class Function>
[[nodiscard]] double increasing_root(Function f, double low, double high, double tolerance) {
  double x = 0.5 * (low + high);
  while (high - low > tolerance) {
    const auto [value, slope] = f(x);
    if (value == 0) return x;
    (value > 0 ? high : low) = x;
    const double newton = x - value / slope;
    const bool inside = newton > low && newton < high;
    const double next = inside ? newton : 0.5 * (low + high);
    if (std::abs(next - x) <= 0.5 * tolerance && inside) return next;
    x = next;
  }
  return x;
}

}  // namespace barm::chemistry::internal
