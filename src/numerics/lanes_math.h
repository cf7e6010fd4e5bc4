#pragma once
// exp, log and sqrt of a Pack, found by the equations that use them through argument-dependent
// lookup.
#include <numbers>

#include "numerics/lanes.h"
#ifndef __SSE2__
#include <cmath>
#endif

namespace barm::numerics {

namespace detail {

template <class Real>
struct Format;

// ln 2 in two parts: a whole number times the first has no rounding error.
inline constexpr double ln2_high = 0.693145751953125;  // NOLINT(modernize-use-std-numbers)
inline constexpr double ln2_low = 1.42860682030941723212e-6;

template <>
struct Format<double> {
  static constexpr int fraction_bits = 52;
  static constexpr std::int64_t root_half = 0x3fe6a09e667f3bcd;  // bits of sqrt(1/2)
  static constexpr std::int64_t bias = 1024;
  static constexpr double one_ulp_is_one = 4503599627370496.0;  // 2^52
  static constexpr double least = 2.2250738585072014e-308, lowest_exp = -708, highest_exp = 709;
  static constexpr int exp_terms = 11, log_terms = 9;
};

template <>
struct Format<float> {
  static constexpr int fraction_bits = 23;
  static constexpr std::int32_t root_half = 0x3f3504f3;
  static constexpr std::int32_t bias = 128;
  static constexpr float one_ulp_is_one = 8388608.0F;  // 2^23
  static constexpr double least = 1.17549435e-38, lowest_exp = -86, highest_exp = 88;
  static constexpr int exp_terms = 7, log_terms = 5;
};

/// 1/0!, 1/1!, 1/2!, ...
template <class Real>
inline constexpr auto inverse_factorial = [] {
  std::array<Real, 12> inverse{};
  double factorial = 1;
  for (std::size_t i = 0; i < inverse.size(); ++i) {
    if (i > 0) factorial *= static_cast<double>(i);
    inverse[i] = static_cast<Real>(1 / factorial);
  }
  return inverse;
}();

}  // namespace detail

/// e^x: with k = round(x / ln 2) and r = x - k ln 2,  e^x = 2^k (1 + r + r^2/2! + ...).
/// Relative error below 1e-14 (double), 2e-7 (float); x is held within -708..709 (-86..88).
template <class Real>
BARM_INLINE Pack<Real> exp(const Pack<Real>& argument) {
  using P = Pack<Real>;
  using F = detail::Format<Real>;
  using Bits = typename P::Condition::Bits;
  constexpr Real rounder = F::one_ulp_is_one * Real(1.5);
  constexpr auto per_ln2 = std::numbers::log2e_v<Real>;
  const auto x = smaller(P(F::highest_exp), larger(P(F::lowest_exp), argument)).values();
  const auto shifted = x * per_ln2 + rounder;
  const auto k = shifted - rounder;
  const auto r =
      (x - k * static_cast<Real>(detail::ln2_high)) - k * static_cast<Real>(detail::ln2_low);
  auto series = r * detail::inverse_factorial<Real>[F::exp_terms] +
                detail::inverse_factorial<Real>[F::exp_terms - 1];
  for (std::size_t n = F::exp_terms - 1; n-- > 0;)
    series = series * r + detail::inverse_factorial<Real>[n];
  const Bits scaled =
      reinterpret_cast<Bits>(series) + (reinterpret_cast<Bits>(shifted) << F::fraction_bits);
  return P(reinterpret_cast<typename P::Values>(scaled));
}

/// ln x for x > 0 (held above the smallest normal number): with x = 2^e m, sqrt(1/2) <= m < sqrt(2)
/// and s = (m - 1)/(m + 1),  ln x = e ln 2 + 2 (s + s^3/3 + s^5/5 + ...).  Error below 1e-15 +
/// 1e-15 |ln x| (double), 2e-7 likewise (float).
template <class Real>
BARM_INLINE Pack<Real> log(const Pack<Real>& argument) {
  using P = Pack<Real>;
  using F = detail::Format<Real>;
  using Values = typename P::Values;
  using Bits = typename P::Condition::Bits;
  using Signed = typename detail::Vector<Real>::Signed;
  using Unsigned = typename detail::Vector<Real>::Unsigned;
  constexpr auto offset = static_cast<Signed>((F::bias << F::fraction_bits) - F::root_half);
  const Values x = larger(P(F::least), argument).values();
  const Bits bits = reinterpret_cast<Bits>(x);
  const Bits biased =
      reinterpret_cast<Bits>(reinterpret_cast<Unsigned>(bits + offset) >> F::fraction_bits);
  const Bits whole = biased | reinterpret_cast<Bits>(Values{} + F::one_ulp_is_one);
  const auto e = reinterpret_cast<Values>(whole) - (F::one_ulp_is_one + static_cast<Real>(F::bias));
  const Bits fraction = bits - ((biased - static_cast<Signed>(F::bias)) << F::fraction_bits);
  const auto m = reinterpret_cast<Values>(fraction);
  const auto s = (m - Real(1)) / (m + Real(1));
  const auto square = s * s;
  auto series =
      square * (Real(1) / Real(2 * F::log_terms + 1)) + Real(1) / Real(2 * F::log_terms - 1);
  for (int n = F::log_terms - 2; n >= 0; --n) series = series * square + Real(1) / Real(2 * n + 1);
  return P(e * std::numbers::ln2_v<Real> + (s + s) * series);
}

/// Exactly rounded.
template <class Real>
BARM_INLINE Pack<Real> sqrt(const Pack<Real>& x) {
  typename Pack<Real>::Values roots;
#ifdef __SSE2__
  // Every x86-64 processor has it for half a vector.
  __m128d halves[2];
  __builtin_memcpy(halves, &x.values(), detail::bytes);
  for (__m128d& half : halves) {
    if constexpr (sizeof(Real) == sizeof(double)) {
      half = _mm_sqrt_pd(half);
    } else {
      half = _mm_castps_pd(_mm_sqrt_ps(_mm_castpd_ps(half)));
    }
  }
  __builtin_memcpy(&roots, halves, detail::bytes);
#else
  for (int lane = 0; lane < x.lanes; ++lane) roots[lane] = std::sqrt(x[lane]);
#endif
  return Pack<Real>(roots);
}

template <class Real>
BARM_INLINE Pack<Real> abs(const Pack<Real>& x) {
  return larger(x, Pack<Real>(-x));
}

}  // namespace barm::numerics
