// The integrator against solutions in closed form, and against what its order promises.
#include "numerics/dormand_prince.h"

#include <gtest/gtest.h>

#include <cmath>
#include <vector>

namespace barm::numerics {

namespace {

using Two = std::array<double, 2>;

// y'' = -y: a circle.
void circle(double, const Two& y, Two& dy) {
  dy[0] = y[1];
  dy[1] = -y[0];
}

double error_with(double relative) {
  Two y{0, 1};
  double t = 0;
  Statistics statistics;
  const Accuracy accuracy{.relative = relative, .absolute = relative};
  integrate<2>(circle, t, y, 10.0, accuracy, statistics, [](const auto&) { return true; });
  return std::hypot(y[0] - std::sin(10.0), y[1] - std::cos(10.0));
}

// The time at which sin t first falls through zero, pi, found inside a step.
double half_turn(double longest_step) {
  Two y{0, 1};
  double t = 0;
  double found = 0;
  Statistics statistics;
  const Accuracy accuracy{.relative = 1, .absolute = 1, .longest_step = longest_step};
  integrate<2>(circle, t, y, 4.0, accuracy, statistics, [&](const DenseStep<2>& step) {
    if (step.y_begin[0] > 0 && step.y_end[0] <= 0) {
      found = crossing(
          step, step.begin, step.end, step.y_begin[0], step.y_end[0], [](double, const Two& at) {
            return at[0];
          });
    }
    return true;
  });
  return found;
}

TEST(DormandPrince, FollowsTheCircleToItsTolerance) {
  EXPECT_LT(error_with(1e-6), 1e-4);
  EXPECT_LT(error_with(1e-10), 1e-8);
  EXPECT_LT(error_with(1e-10), error_with(1e-6));
}

TEST(DormandPrince, EventTimesConvergeAtTheMethodsOrder) {
  // Halving the step must divide the error of the crossing by about 2^4 or more (4th-order dense
  // output).
  const double coarse = std::abs(half_turn(0.4) - M_PI);
  const double fine = std::abs(half_turn(0.2) - M_PI);
  ASSERT_GT(coarse, 0);
  EXPECT_GT(coarse / fine, 12);
}

TEST(DormandPrince, DenseOutputJoinsTheEndsOfAStep) {
  Two y{0, 1};
  double t = 0;
  Statistics statistics;
  integrate<2>(circle, t, y, 5.0, Accuracy{}, statistics, [](const DenseStep<2>& step) {
    for (int i = 0; i < 2; ++i) {
      const auto at = static_cast<std::size_t>(i);
      EXPECT_NEAR(step.at(step.begin)[at], step.y_begin[at], 1e-15);
      EXPECT_NEAR(step.at(step.end)[at], step.y_end[at], 1e-14);
    }
    const double middle = 0.5 * (step.begin + step.end);
    EXPECT_NEAR(step.at(middle)[0], std::sin(middle), 1e-5);
    return true;
  });
}

TEST(DormandPrince, StopsWhereTheObserverSaysSo) {
  Two y{0, 1};
  double t = 0;
  Statistics statistics;
  const auto ending = integrate<2>(
      circle, t, y, 100.0, Accuracy{}, statistics, [](const auto& step) { return step.end < 3; });
  EXPECT_EQ(ending, Ending::stopped);
  EXPECT_LT(t, 6);
}

TEST(DormandPrince, SaysWhenTheAnswerIsNotFinite) {
  std::array<double, 1> y{1};
  double t = 0;
  Statistics statistics;
  const auto blow_up = [](double, const std::array<double, 1>& at, std::array<double, 1>& dy) {
    dy[0] = at[0] * at[0];
  };
  const Accuracy accuracy{.most_steps = 5000};
  const auto ending =
      integrate<1>(blow_up, t, y, 2.0, accuracy, statistics, [](const auto&) { return true; });
  EXPECT_TRUE(ending == Ending::not_finite || ending == Ending::too_many_steps);
  EXPECT_LT(t, 1.0 + 1e-6);
}

}  // namespace

}  // namespace barm::numerics
