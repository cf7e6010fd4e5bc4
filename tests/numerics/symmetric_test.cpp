// Directions hang on a matrix and not on the last bit of its numbers.
#include "numerics/symmetric.h"

#include <gtest/gtest.h>

#include <Eigen/Dense>

#include "numerics/random.h"

namespace barm::numerics {

namespace {

constexpr Eigen::Index size = 40;

// What two readings teach of forty numbers, the second a little of one that the first also tells.
Eigen::MatrixXd two_readings() {
  Random random(1);
  Eigen::MatrixXd jacobian = Eigen::MatrixXd::Zero(2, size);
  for (Eigen::Index j = 0; j < size - 5; ++j) {
    jacobian(0, j) = 3 * random.normal();
    jacobian(1, j) = random.normal();
  }
  return jacobian.transpose() * jacobian;
}

Eigen::MatrixXd directions_of(const Eigen::MatrixXd& curvature) {
  return filled_up(axes_of(curvature).directions.rightCols(2).rowwise().reverse());
}

TEST(Axes, AreUprightAndOfLengthOne) {
  const Eigen::MatrixXd all = directions_of(two_readings());
  EXPECT_LT((all.transpose() * all - Eigen::MatrixXd::Identity(size, size)).norm(), 1e-12);
}

TEST(Axes, DoNotHangOnTheLastBit) {
  const Eigen::MatrixXd curvature = two_readings();
  Random random(2);
  Eigen::MatrixXd rounded = curvature;
  for (double& x : rounded.reshaped()) x *= 1 + 1e-15 * random.normal();
  rounded = 0.5 * (rounded + rounded.transpose()).eval();
  EXPECT_LT((directions_of(curvature) - directions_of(rounded)).norm(), 1e-9);
}

// Against another decomposition of the matrix library.
TEST(PseudoInverse, IsThatOfAnotherDecomposition) {
  Random random(3);
  Eigen::MatrixXd x(7, 5);
  for (double& one : x.reshaped()) one = random.normal();
  for (const Eigen::Index wanted : {5, 4}) {
    if (wanted == 4) x.col(4) = x.col(0) - 2 * x.col(2);
    const auto ours = pseudo_inverse(x, 1e-6);
    EXPECT_EQ(ours.rank, wanted);
    Eigen::CompleteOrthogonalDecomposition<Eigen::MatrixXd> other;
    other.setThreshold(1e-6);
    other.compute(x);
    EXPECT_LT((ours.inverse - other.pseudoInverse()).norm(), 1e-10);
  }
}

TEST(PseudoInverse, OfWhatChangesNothingIsNothing) {
  const auto none = pseudo_inverse(Eigen::MatrixXd::Zero(3, 2), 0.02);
  EXPECT_EQ(none.rank, 0);
  EXPECT_EQ(none.inverse.norm(), 0);
}

}  // namespace

}  // namespace barm::numerics
