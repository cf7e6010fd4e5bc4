#pragma once
// The log-logistic curve of dose-response work, fitted.
#include <vector>

#include "base/result.h"

namespace barm::testbakes {

/// f(x) = d / (1 + (x / e)^b): d without any, e the half-speed dose, b the power.
struct DoseCurve {
  double top = 1;                                         ///< d
  double half_speed_dose = 1;                             ///< e
  double power = 2;                                       ///< b
  double top_error = 0, half_error = 0, power_error = 0;  ///< standard errors
  double half_low = 0, half_high = 0;                     ///< interval of e, on the scale of its ln
  double residual = 0;                                    ///< residual standard deviation
  int freedom = 0;                                        ///< degrees of freedom

  [[nodiscard]] double at(double dose) const;
};

/// Least squares by Levenberg & Marquardt in (d, ln e, ln b) from several starts. The interval is
/// ln e -+ t_{f,(1+level)/2} se(ln e). Errors: bad_input (fewer than 4 points, fewer than 3 doses,
/// values that are no numbers), no_convergence (no half-speed dose can be seen in these points: it
/// would lie more than tenfold beyond the largest dose). Checked against: R nls in
/// tests/testbakes/dose_curve_test.cpp.
[[nodiscard]] Result<DoseCurve> fit_dose_curve(const std::vector<double>& dose,
                                               const std::vector<double>& speed,
                                               double level = 0.8);

}  // namespace barm::testbakes
