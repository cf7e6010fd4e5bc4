#include "numerics/random.h"

#include <cmath>

namespace barm::numerics {

namespace {

std::uint64_t mixed(std::uint64_t z) {
  z = (z ^ (z >> 30)) * 0xbf58476d1ce4e5b9ULL;
  z = (z ^ (z >> 27)) * 0x94d049bb133111ebULL;
  return z ^ (z >> 31);
}

// Coefficients of the rational approximation: the middle (a over b), the tails (c over d).
constexpr double a[] = {-3.969683028665376e+01,
                        2.209460984245205e+02,
                        -2.759285104469687e+02,
                        1.383577518672690e+02,
                        -3.066479806614716e+01,
                        2.506628277459239e+00};
constexpr double b[] = {-5.447609879822406e+01,
                        1.615858368580409e+02,
                        -1.556989798598866e+02,
                        6.680131188771972e+01,
                        -1.328068155288572e+01};
constexpr double c[] = {-7.784894002430293e-03,
                        -3.223964580411365e-01,
                        -2.400758277161838e+00,
                        -2.549732539343734e+00,
                        4.374664141464968e+00,
                        2.938163982698783e+00};
constexpr double d[] = {
    7.784695709041462e-03, 3.224671290700398e-01, 2.445134137142996e+00, 3.754408661907416e+00};

constexpr std::uint64_t golden = 0x9e3779b97f4a7c15ULL;

}  // namespace

Random::Random(std::uint64_t seed, std::uint64_t stream)
    : state_(mixed(seed + golden) ^ mixed(stream * golden + 1)) {}

std::uint64_t Random::bits() {
  state_ += golden;
  return mixed(state_);
}

double Random::uniform() { return (static_cast<double>(bits() >> 11) + 0.5) * 0x1.0p-53; }

double Random::normal() { return normal_quantile(uniform()); }

double normal_quantile(double p) {
  constexpr double low = 0.02425;
  const auto tail = [&](double q) {
    return (((((c[0] * q + c[1]) * q + c[2]) * q + c[3]) * q + c[4]) * q + c[5]) /
           ((((d[0] * q + d[1]) * q + d[2]) * q + d[3]) * q + 1);
  };
  if (p < low) return tail(std::sqrt(-2 * std::log(p)));
  if (p > 1 - low) return -tail(std::sqrt(-2 * std::log(1 - p)));
  const double q = p - 0.5;
  const double r = q * q;
  return (((((a[0] * r + a[1]) * r + a[2]) * r + a[3]) * r + a[4]) * r + a[5]) * q /
         (((((b[0] * r + b[1]) * r + b[2]) * r + b[3]) * r + b[4]) * r + 1);
}

}  // namespace barm::numerics
