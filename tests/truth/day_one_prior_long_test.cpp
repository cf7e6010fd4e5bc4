// The shipped prior against the study run anew, parameter by parameter.
#include <gtest/gtest.h>

#include <cmath>

#include "support/practice_prior.h"

namespace barm::test {

namespace {

// Of a file that leaves out what practice hardly teaches (studies/day_one_prior.cpp).
constexpr double left_out_moved = 0.15;
constexpr double left_out_taught = 0.03;

constexpr double rounding = 0.005;
constexpr double draws_of_the_file = 1613;  // independent ones, as its head says

// Five standard errors of both: of 47 centres and 47 doubts a false alarm in fewer than one of
// 10 000 runs. Another seed than the file's, a fifth of its rounds.
TEST(DayOnePrior, OfEachParameterIsWhatTheStudyMakes) {
  const PracticePrior made = practice_prior(64, 1500, 2, 2);
  const kinetics::JointPrior& file = kinetics::day_one();
  ASSERT_GT(made.effective, 250);
  const double doubt_error = std::sqrt(0.5 / made.effective + 0.5 / draws_of_the_file);
  for (std::size_t i = 0; i < kinetics::parameter_count; ++i) {
    const kinetics::Prior& prior = kinetics::priors()[i];
    const double centre = file.centre[i] / prior.doubt;
    const double left = file.doubt(prior.parameter) / prior.doubt;
    const bool left_out = file.centre[i] == 0;
    EXPECT_NEAR(made.centre[i],
                centre,
                5 * std::hypot(made.error[i], left / std::sqrt(draws_of_the_file)) +
                    (left_out ? left_out_moved : rounding))
        << prior.name;
    EXPECT_NEAR(std::sqrt(made.covariance[i][i]),
                left,
                5 * left * doubt_error + (left_out ? left_out_taught : rounding))
        << prior.name;
  }
}

}  // namespace

}  // namespace barm::test
