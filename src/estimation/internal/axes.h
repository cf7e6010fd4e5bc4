#pragma once
// Axes of a symmetric matrix as the same directions on every machine.
#include <Eigen/Dense>

namespace barm::estimation::internal {

/// An eigenvector is one only up to its sign: turned so that its largest part is positive. Draws
/// along it would else hang on the last bit of a number, which differs from processor to processor.
[[nodiscard]] inline Eigen::MatrixXd facing_one_way(Eigen::MatrixXd directions) {
  for (auto&& one : directions.colwise()) {
    Eigen::Index most = 0;
    one.cwiseAbs().maxCoeff(&most);
    if (one(most) < 0) one = -one;
  }
  return directions;
}

/// The first columns, orthonormal, and for all that is upright on them the coordinate axes in turn,
/// each without what the columns before have of it. Where a matrix has no curvature any direction
/// is an eigenvector: which, hangs on the last bit too.
[[nodiscard]] inline Eigen::MatrixXd filled_up(const Eigen::MatrixXd& first) {
  const Eigen::Index d = first.rows();
  Eigen::MatrixXd all(d, d);
  all.leftCols(first.cols()) = first;
  Eigen::Index axis = 0;
  for (Eigen::Index k = first.cols(); k < d; ++k) {
    const auto before = all.leftCols(k);
    // Of the axes (d - k) / d is left in the mean square: one of them keeps half of that.
    const double enough = 0.5 * static_cast<double>(d - k) / static_cast<double>(d);
    for (;; axis = (axis + 1) % d) {
      Eigen::VectorXd left = Eigen::VectorXd::Unit(d, axis);
      for (int twice = 0; twice < 2; ++twice) left -= before * (before.transpose() * left);
      if (left.squaredNorm() < enough) continue;
      all.col(k) = left.normalized();
      break;
    }
  }
  return all;
}

}  // namespace barm::estimation::internal
