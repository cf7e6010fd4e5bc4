// What leaving a source out rests on: its rows weigh nothing, and a refitted prior is what the
// chains found.
#include <gtest/gtest.h>

#include <cmath>
#include <vector>

#include "support/practice_prior.h"

namespace barm::test {

namespace {

TEST(LeaveOut, TheRowsOfTheSourceWeighNothing) {
  kinetics::Parameters<double> odd = kinetics::book();
  odd[kinetics::Parameter::bakers_sugar_half] *= 0.4;  // so that the remembered rows are missed
  odd[kinetics::Parameter::wild_ethanol_half] *= 2;    // and those of practice
  const std::vector<kinetics::Parameters<double>> sets{odd};
  const auto outcomes = PracticeDoughs(1).outcomes(sets).front();
  std::vector<Outcome> remembered;
  for (const Outcome& outcome : outcomes) {
    if (outcome.row->basis == "remembered") remembered.push_back(outcome);
  }
  const double all = log_likelihood(outcomes);
  const double of_it = log_likelihood(remembered);
  EXPECT_LT(of_it, -1);
  EXPECT_LT(all - of_it, -1);
  EXPECT_NEAR(log_likelihood(outcomes, "remembered"), all - of_it, 1e-9);
}

TEST(LeaveOut, ARefittedPriorDrawsWhatTheChainsFound) {
  PracticePrior made;
  const std::size_t n = kinetics::parameter_count;
  made.centre.assign(n, 0.25);
  made.covariance.assign(n, std::vector<double>(n, 0.1));
  for (std::size_t i = 0; i < n; ++i) made.covariance[i][i] = 0.6;
  const kinetics::JointPrior joint = joint_prior(made);
  const auto book = kinetics::priors();
  for (std::size_t i = 0; i < n; ++i) {
    EXPECT_NEAR(joint.centre[i], 0.25 * book[i].doubt, 1e-12);
    EXPECT_NEAR(joint.doubt(book[i].parameter), std::sqrt(0.6) * book[i].doubt, 1e-9);
  }
  double together = 0;
  for (std::size_t k = 0; k <= 1; ++k) together += joint.factor[3][k] * joint.factor[1][k];
  EXPECT_NEAR(together, 0.1 * book[3].doubt * book[1].doubt, 1e-9);
}

}  // namespace

}  // namespace barm::test
