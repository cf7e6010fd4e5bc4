#include "formula/internal/nearest.h"

#include <gtest/gtest.h>

namespace barm::formula::internal {

namespace {

// The point of a plane nearest to another: y = plan + a (b - a.plan) / a.a.
TEST(Nearest, IsTheFootOfThePerpendicular) {
  const Nearest problem{{1, 1, 1}, {0, 0, 0}, {10, 10, 10}, {{{1, 2, 2}, 8}}};
  const Found found = nearest(problem);
  EXPECT_LT(found.residual, 1e-12);
  EXPECT_NEAR(found.y[0], 1 + 1.0 / 3, 1e-8);
  EXPECT_NEAR(found.y[1], 1 + 2.0 / 3, 1e-8);
  EXPECT_NEAR(found.y[2], 1 + 2.0 / 3, 1e-8);
}

TEST(Nearest, StaysWithinBounds) {
  const Nearest problem{{1, 1}, {0, 0}, {1.2, 10}, {{{1, 1}, 6}}};
  const Found found = nearest(problem);
  EXPECT_LT(found.residual, 1e-12);
  EXPECT_NEAR(found.y[0], 1.2, 1e-9);
  EXPECT_NEAR(found.y[1], 4.8, 1e-9);
}

TEST(Nearest, TakesEquationsThatFollowFromOthers) {
  const Nearest problem{{1, 1}, {0, 0}, {10, 10}, {{{1, 1}, 3}, {{2, 2}, 6}, {{1, -1}, 1}}};
  const Found found = nearest(problem);
  EXPECT_LT(found.residual, 1e-12);
  EXPECT_NEAR(found.y[0], 2, 1e-9);
  EXPECT_NEAR(found.y[1], 1, 1e-9);
}

TEST(Nearest, WithoutEquationsIsThePlan) {
  const Found found = nearest({{0.3, 2}, {0, 0}, {1, 1}, {}});
  EXPECT_NEAR(found.y[0], 0.3, 1e-9);
  EXPECT_NEAR(found.y[1], 1, 1e-9);
}

// x = 1 and x = 2 cannot both be: halfway misses both by as little as can be.
TEST(Nearest, MissesContradictionsByTheLeastSquares) {
  const Found found = nearest({{0}, {0}, {10}, {{{1}, 1}, {{1}, 2}}});
  EXPECT_NEAR(found.y[0], 1.5, 1e-6);
  EXPECT_NEAR(found.residual, 0.5, 1e-6);
}

TEST(Nearest, SaysThatABoundIsInTheWay) {
  const Found found = nearest({{0.5}, {0}, {0.75}, {{{1}, 1}}});
  EXPECT_NEAR(found.y[0], 0.75, 1e-6);
  EXPECT_NEAR(found.residual, 0.25, 1e-6);
}

}  // namespace

}  // namespace barm::formula::internal
