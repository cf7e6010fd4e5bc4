#pragma once
// A symmetric matrix along its own axes, and least squares by them. Compiled once for all who use
// it: every other decomposition of the matrix library takes some seconds in each module.
#include <Eigen/Core>

namespace barm::numerics {

struct Axes {
  Eigen::VectorXd lengths;     ///< eigenvalues, ascending
  Eigen::MatrixXd directions;  ///< eigenvectors, columns upright on each other and of length 1
};

/// An eigenvector is one only up to its sign: each is turned so that its largest part is positive.
/// What is drawn along it would else hang on the last bit of a number, which differs from processor
/// to processor.
[[nodiscard]] Axes axes_of(const Eigen::MatrixXd& symmetric);

/// The first columns, orthonormal, and for all that is upright on them the coordinate axes in turn,
/// each without what the columns before have of it. Where a matrix has no curvature any direction
/// is an eigenvector: which, hangs on the last bit too.
[[nodiscard]] Eigen::MatrixXd filled_up(const Eigen::MatrixXd& first);

struct PseudoInverse {
  Eigen::MatrixXd inverse;  ///< Moore & Penrose's: inverse * y is the least that fits y best
  Eigen::Index rank = 0;
};

/// By the axes of x'x. Directions along which x changes by less than `least` of its largest change
/// are none; below 1e-7 rounding would decide.
[[nodiscard]] PseudoInverse pseudo_inverse(const Eigen::MatrixXd& x, double least = 1e-6);

}  // namespace barm::numerics
