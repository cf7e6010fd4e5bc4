#include "oven/internal/laid.h"

#include "numerics/symmetric.h"

namespace barm::oven {

namespace {

constexpr int coefficients = 1 + 2 * static_cast<int>(axes) + static_cast<int>(pairs) + 1;

// The coefficients of a design's answers: (X'X)^-1 X', X with a row of 1, z_i, z_i^2, z_i z_j and
// z_0^3 for each loaf.
Eigen::MatrixXd solve_design() {
  Eigen::MatrixXd x(static_cast<int>(designed), coefficients);
  const auto places = design();
  for (std::size_t d = 0; d < designed; ++d) {
    const Z& z = places[d];
    const auto row = static_cast<int>(d);
    int column = 0;
    x(row, column++) = 1;
    for (std::size_t i = 0; i < axes; ++i) x(row, column++) = z[i];
    for (std::size_t i = 0; i < axes; ++i) x(row, column++) = z[i] * z[i];
    for (std::size_t i = 0; i < axes; ++i) {
      for (std::size_t j = i + 1; j < axes; ++j) x(row, column++) = z[i] * z[j];
    }
    x(row, column) = z[0] * z[0] * z[0];
  }
  return numerics::pseudo_inverse(x).inverse;
}

}  // namespace

Curve laid_through(const std::array<double, designed>& y) {
  static const Eigen::MatrixXd by_loaf = solve_design();
  const Eigen::VectorXd c =
      by_loaf * Eigen::Map<const Eigen::VectorXd>(y.data(), static_cast<Eigen::Index>(designed));
  Curve curve;
  int at = 0;
  curve.middle = c[at++];
  for (std::size_t i = 0; i < axes; ++i) curve.straight[i] = c[at++];
  for (std::size_t i = 0; i < axes; ++i) curve.bent[i] = c[at++];
  for (double& both : curve.together) both = c[at++];
  curve.cubed = c[at];
  return curve;
}

}  // namespace barm::oven
