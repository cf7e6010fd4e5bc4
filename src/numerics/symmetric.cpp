#include "numerics/symmetric.h"

#include <Eigen/Eigenvalues>
#include <algorithm>

namespace barm::numerics {

Axes axes_of(const Eigen::MatrixXd& symmetric) {
  const Eigen::SelfAdjointEigenSolver<Eigen::MatrixXd> solved(symmetric);
  Axes out{solved.eigenvalues(), solved.eigenvectors()};
  for (auto&& one : out.directions.colwise()) {
    Eigen::Index most = 0;
    one.cwiseAbs().maxCoeff(&most);
    if (one(most) < 0) one = -one;
  }
  return out;
}

Eigen::MatrixXd filled_up(const Eigen::MatrixXd& first) {
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

// x+ = sum over axes v of x'x with length s^2:  v v' x' / s^2.
PseudoInverse pseudo_inverse(const Eigen::MatrixXd& x, double least) {
  PseudoInverse out{Eigen::MatrixXd::Zero(x.cols(), x.rows()), 0};
  if (x.size() == 0) return out;
  const Axes axes = axes_of(x.transpose() * x);
  const double longest = axes.lengths.tail(1)(0);
  for (Eigen::Index k = 0; k < x.cols(); ++k) {
    const double squared = axes.lengths(k);
    if (squared <= least * least * longest) continue;
    ++out.rank;
    const auto v = axes.directions.col(k);
    out.inverse += v * (x * v).transpose() / squared;
  }
  return out;
}

}  // namespace barm::numerics
