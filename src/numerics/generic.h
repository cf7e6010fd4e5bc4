#pragma once
// The few functions that let one equation run on double, on a derivative-carrying number, or on
// several parameter sets at once. A number type joins by overloading select(), exp(), log() and
// sqrt().
#include <cmath>

// What is done several times in every step must melt into its caller; the compiler must not weigh
// it up.
#define BARM_INLINE [[gnu::always_inline]] inline

namespace barm::numerics {

/// The number without its derivatives; the overload for other types says which.
inline double value_of(double x) { return x; }

/// The largest part of an error: of a plain number its size; a number type with derivatives
/// overloads it.
inline double largest_part(double error) { return std::abs(error); }

/// a where the condition holds, else b.
template <class T>
BARM_INLINE T select(bool condition, const T& a, const T& b) {
  return condition ? a : b;
}

/// The same for a condition that may hold in some lanes and not in others.
template <class Condition, class T>
BARM_INLINE T select(const Condition& condition, const T& a, const T& b) {
  return condition.chosen(a, b);
}

template <class T>
BARM_INLINE T smaller(const T& a, const T& b) {
  return select(a < b, a, b);
}

template <class T>
BARM_INLINE T larger(const T& a, const T& b) {
  return select(a < b, b, a);
}

/// A straight ramp: 0 at `from`, 1 at `to`, flat outside.
template <class T>
BARM_INLINE T ramp(const T& x, double from, double to) {
  return smaller(T(1.0), larger(T(0.0), (x - from) * (1.0 / (to - from))));
}

/// x^k for x >= 0. Whole and half powers up to 20 by multiplication, others by exp and log.
template <class T>
BARM_INLINE T power(const T& x, double k) {
  using std::exp;
  using std::log;
  using std::sqrt;
  const double doubled = 2 * k;
  if (doubled != std::floor(doubled) || k < 0 || k > 20) {
    return exp(k * log(larger(x, T(1e-300))));
  }
  const int whole = static_cast<int>(k);
  T result = doubled != 2.0 * whole ? T(sqrt(x)) : T(1.0);
  T square = x;
  for (int left = whole; left > 0; left /= 2) {
    if (left % 2 == 1) result = result * square;
    square = square * square;
  }
  return result;
}

}  // namespace barm::numerics
