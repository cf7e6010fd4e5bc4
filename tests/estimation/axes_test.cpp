// Directions hang on a matrix and not on the last bit of its numbers.
#include "estimation/internal/axes.h"

#include <gtest/gtest.h>

#include "numerics/random.h"

namespace barm::estimation {

namespace {

constexpr Eigen::Index size = 40;

// What two readings teach of forty numbers, the second a little of one that the first also tells.
Eigen::MatrixXd two_readings() {
  numerics::Random random(1);
  Eigen::MatrixXd jacobian = Eigen::MatrixXd::Zero(2, size);
  for (Eigen::Index j = 0; j < size - 5; ++j) {
    jacobian(0, j) = 3 * random.normal();
    jacobian(1, j) = random.normal();
  }
  return jacobian.transpose() * jacobian;
}

Eigen::MatrixXd directions_of(const Eigen::MatrixXd& curvature) {
  const Eigen::SelfAdjointEigenSolver<Eigen::MatrixXd> axes(curvature);
  return internal::filled_up(
      internal::facing_one_way(axes.eigenvectors().rightCols(2).rowwise().reverse()));
}

TEST(Axes, AreUprightAndOfLengthOne) {
  const Eigen::MatrixXd all = directions_of(two_readings());
  EXPECT_LT((all.transpose() * all - Eigen::MatrixXd::Identity(size, size)).norm(), 1e-12);
}

TEST(Axes, DoNotHangOnTheLastBit) {
  const Eigen::MatrixXd curvature = two_readings();
  numerics::Random random(2);
  Eigen::MatrixXd rounded = curvature;
  for (double& x : rounded.reshaped()) x *= 1 + 1e-15 * random.normal();
  rounded = 0.5 * (rounded + rounded.transpose()).eval();
  EXPECT_LT((directions_of(curvature) - directions_of(rounded)).norm(), 1e-9);
}

}  // namespace

}  // namespace barm::estimation
