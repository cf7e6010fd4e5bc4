#pragma once
// What speeds growth up and what slows it down, each a factor between 0 and 1.
#include "numerics/generic.h"

namespace barm::kinetics {

/// Temperature, with a flat cold side and a steep hot one (docs/model/kinetics.md eq. 2):
///     g(t) = exp{ c x0 ln(x/x0) - c (x - x0) },  x = t_max - t,  x0 = t_max - t_opt;  0 above
///     t_max
inline double warmth(double t, double t_max, double t_opt, double c) {
  if (t >= t_max) return 0;
  const double x0 = t_max - t_opt;
  const double x = t_max - t;
  return std::exp(c * x0 * std::log(x / x0) - c * (x - x0));
}

/// Temperature, cardinal model of Rosso, Lobry & Flandrois 1993 (eq. 3); 0 outside t_min..t_max.
inline double cardinal_warmth(double t, double t_min, double t_opt, double t_max) {
  if (t <= t_min || t >= t_max) return 0;
  const double above = t - t_min;
  return (t - t_max) * above * above /
         ((t_opt - t_min) *
          ((t_opt - t_min) * (t - t_opt) - (t_opt - t_max) * (t_opt + t_min - 2 * t)));
}

/// pH, cardinal model of Rosso et al. 1995 (eq. 4); 0 outside ph_min..ph_max.
template <class T>
inline T cardinal_ph(const T& ph, double ph_min, double ph_opt, double ph_max) {
  const T inside = (ph - ph_min) * (ph - ph_max);
  const T off = ph - ph_opt;
  return numerics::select(inside < T(0.0), T(inside / (inside - off * off)), T(0.0));
}

/// Every inhibitor alike, the log-logistic law of dose-response work (eq. 5):
///     g(z) = 1 / (1 + (z / z50)^k),  z50 the half-speed dose
template <class T>
inline T dose(const T& z, const T& half_speed_dose, double k) {
  return T(1.0) / (T(1.0) + numerics::power(T(z / half_speed_dose), k));
}

/// No growth at all beyond the end of ethanol (eq. 6): max(0, 1 - (E/E_end)^p)
template <class T>
inline T before_end(const T& ethanol, const T& end, double p) {
  return numerics::larger(T(0.0), T(T(1.0) - numerics::power(T(ethanol / end), p)));
}

}  // namespace barm::kinetics
