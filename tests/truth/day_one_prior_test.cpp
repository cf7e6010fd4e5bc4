// The prior of the first day: that its sampler is right, that the shipped file is what the study
// makes, and that it meets the rows of practice better than the published figures do.
#include <gtest/gtest.h>

#include <algorithm>

#include "support/practice_prior.h"
#include "support/validation.h"

namespace barm::test {

namespace {

// Prior N(0,1), one reading y = z + noise of sd s: posterior N(y/(1+s^2), s^2/(1+s^2)). False
// alarm: 64 chains of about 60 kept points; five standard errors, one in a million.
TEST(SliceChains, KnowsAConjugatePosterior) {
  const double y = 1.5;
  const double s = 0.5;
  SliceChains chains(64, 2, 7, [&](std::span<const SliceChains::Point> points) {
    std::vector<double> weights;
    for (const auto& z : points) weights.push_back(-0.5 * (z[0] - y) * (z[0] - y) / s / s);
    return weights;
  });
  for (int r = 0; r < 600; ++r) chains.round();
  double sum[2] = {};
  double squares[2] = {};
  double count = 0;
  for (const auto& trace : chains.traces(0.5)) {
    for (const auto& z : trace) {
      ++count;
      for (std::size_t i = 0; i < 2; ++i) {
        sum[i] += z[i];
        squares[i] += z[i] * z[i];
      }
    }
  }
  ASSERT_GT(count, 5000);
  const double variance = s * s / (1 + s * s);
  const double near = 5 / std::sqrt(count / 4);  // points of a chain are alike: a quarter counts
  EXPECT_NEAR(sum[0] / count, y / (1 + s * s), near * std::sqrt(variance));
  EXPECT_NEAR(squares[0] / count - std::pow(sum[0] / count, 2), variance, near * variance * 1.5);
  EXPECT_NEAR(sum[1] / count, 0, near);
  EXPECT_NEAR(squares[1] / count, 1, near * 1.5);
}

// What the shipped file says against what a study makes, over all parameters, in the published
// doubts.
struct Likeness {
  double slope = 0;   ///< of the study's centres over the file's, each by its error
  double error = 0;   ///< of the slope
  double doubts = 0;  ///< root mean square of the difference of what is left of the doubts
};

Likeness likeness(const PracticePrior& made, const kinetics::JointPrior& file) {
  double by = 0;
  double of = 0;
  double squares = 0;
  for (std::size_t i = 0; i < kinetics::parameter_count; ++i) {
    if (made.error[i] == 0) continue;  // all one's own: the rows say nothing of it
    const kinetics::Prior& prior = kinetics::priors()[i];
    const double centre = file.centre[i] / prior.doubt / made.error[i];
    by += centre * made.centre[i] / made.error[i];
    of += centre * centre;
    squares +=
        std::pow(std::sqrt(made.covariance[i][i]) - file.doubt(prior.parameter) / prior.doubt, 2);
  }
  return {by / of,
          1 / std::sqrt(of),
          std::sqrt(squares / static_cast<double>(kinetics::parameter_count))};
}

// The study in short is too rough to tell one parameter from another (day_one_prior_long_test.cpp
// does), but not all of them together: its centres go with those of the shipped file, one for one.
// Fails for a file whose centres are in other units, of other parameters, or nought.
TEST(DayOnePrior, IsWhatTheStudyMakes) {
  const PracticePrior made = practice_prior(24, 110, 2, 2);
  const Likeness like = likeness(made, kinetics::day_one());
  ASSERT_LT(like.error, 0.2);
  EXPECT_NEAR(like.slope, 1, 3.5 * like.error);
  EXPECT_LT(like.doubts, 0.1);
}

// The share of rows learnt from that each of 300 doughs drawn from a prior meets, with its error.
struct Met {
  double share = 0, share_error = 0;
};

Met met(const kinetics::JointPrior& prior) {
  constexpr std::size_t draws = 300;
  std::vector<kinetics::Parameters<double>> sets;
  for (std::size_t i = 0; i < draws; ++i) {
    numerics::Random random(11, i);
    sets.push_back(kinetics::drawn(random, prior));
  }
  Met result;
  double squares = 0;
  for (const auto& outcomes : PracticeDoughs(2).outcomes(sets)) {
    double inside = 0;
    double rows = 0;
    for (const Outcome& outcome : outcomes) {
      if (outcome.row->measured) continue;  // of those the prior learns nothing
      rows += 1;
      inside += outside(outcome) == 0 ? 1 : 0;
    }
    result.share += inside / rows / draws;
    squares += inside / rows * inside / rows / draws;
  }
  result.share_error = std::sqrt((squares - result.share * result.share) / draws);
  return result;
}

// A dough drawn from the prior of the first day meets three of four of the rows learnt from, as it
// did when the file was made: fewer, and the model, the rows or the published doubts have moved,
// and the study is to be run again (tools/day_one_prior). Four standard errors: a false alarm in
// one of 15 000.
TEST(DayOnePrior, MeetsTheRowsAsWhenItWasMade) {
  constexpr double when_made = 0.711;
  const Met book = met(kinetics::published());
  const Met first_day = met(kinetics::day_one());
  constexpr const char* group = "Practice: doughs drawn from a prior";
  const auto note = [&](const std::string& what, double before, double after, double error) {
    const double least = before + 4 * error;
    EXPECT_GT(after, least) << what;
    record(group,
           what,
           "tests/support/practice.h",
           fmt::format("more than by published figures, {:.3f}", before),
           after,
           "of all",
           after > least);
  };
  const double share_error = std::hypot(book.share_error, first_day.share_error);
  note(
      "rows met by a dough drawn from the day-one prior", book.share, first_day.share, share_error);
  EXPECT_NEAR(first_day.share, when_made, 4 * first_day.share_error);
}

TEST(DayOnePrior, LeavesNoDoubtLargerAndNoneAtNothing) {
  for (const kinetics::Prior& prior : kinetics::priors()) {
    EXPECT_LE(kinetics::day_one().doubt(prior.parameter), 1.03 * prior.doubt) << prior.name;
    EXPECT_GE(kinetics::day_one().doubt(prior.parameter), 0.5 * prior.doubt) << prior.name;
  }
}

}  // namespace

}  // namespace barm::test
