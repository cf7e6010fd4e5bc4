#pragma once
// ln of the gamma function for many threads at once.
#include <cmath>

namespace barm::numerics {

/// ln Γ(x) for x > 0, by the C library's form that keeps the sign to its caller: std::lgamma writes
/// it into a global that all threads share.
[[nodiscard]] inline double ln_gamma(double x) {
  int sign = 0;
  return ::lgamma_r(x, &sign);
}

}  // namespace barm::numerics
