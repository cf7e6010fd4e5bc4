#include "testbakes/verdict.h"

#include <cmath>

#include "mead_test.h"
#include "simulated.h"
#include "support/matchers.h"
#include "testbakes/internal/fit.h"

namespace barm::testbakes {

namespace {

using test::FailsWith;
using test::Holds;
using testing::HasSubstr;

const CauseFound& about(Cause cause, const Verdict& verdict) {
  for (const CauseFound& one : verdict.causes)
    if (one.prior.cause == cause) return one;
  throw std::out_of_range("no such cause");
}

TEST(Verdict, OfTheExampleIsThatItIsTheAlcohol) {
  const auto test = test::mead_test().value();
  const auto doughs = rivals(test).value();
  const auto verdict = judge(test, doughs, read_observed(test).value());
  ASSERT_THAT(verdict, Holds());
  EXPECT_THAT(verdict->sentence, HasSubstr("It is the alcohol."));
  const CauseFound& alcohol = about(Cause::alcohol, *verdict);
  EXPECT_EQ(alcohol.finding, Finding::acts);
  // The invented doughs with alcohol run at about two thirds of the speed: at 36 g/L with power 3
  // that is a half-speed dose of 36 / (1/0.67 - 1)^(1/3) = 46 g/L.
  EXPECT_GT(alcohol.half_speed_dose, 35);
  EXPECT_LT(alcohol.half_speed_dose, 60);
  EXPECT_LT(alcohol.half_low, alcohol.half_speed_dose);
  EXPECT_GT(alcohol.hours, 1);
  EXPECT_NE(about(Cause::acid, *verdict).finding, Finding::acts);
  double sum = 0;
  for (const Fitted& one : verdict->hypotheses) sum += one.weight;
  EXPECT_NEAR(sum, 1, 1e-9);
}

TEST(Verdict, ASlipOfThePenIsFoundAndDoesNotDecide) {
  const auto test = test::mead_test().value();
  const auto doughs = rivals(test).value();
  auto observed = read_observed(test).value();
  observed.front().looks[6].ratio = 6.2;
  const auto verdict = judge(test, doughs, observed);
  ASSERT_THAT(verdict, Holds());
  EXPECT_THAT(verdict->odd, testing::Contains(HasSubstr("6.20 times fits nothing")));
  EXPECT_EQ(about(Cause::alcohol, *verdict).finding, Finding::acts);
}

TEST(Verdict, CanBeStopped) {
  const auto test = test::mead_test().value();
  VerdictOptions options;
  options.cancelled = [] { return true; };
  EXPECT_THAT(judge(test, rivals(test).value(), read_observed(test).value(), options),
              FailsWith(ErrorCode::cancelled));
}

// ln p(y|H) of a small case by drawing from the prior, against Laplace. The looks are read so
// coarsely that a few thousand of the draws carry weight.
TEST(Verdict, EvidenceIsThatOfDrawingFromThePrior) {
  auto test = test::test_of({"small",
                             "[[dough]]\nname = \"plain\"\nmake = \"plain\"\n"
                             "[[dough]]\nname = \"e\"\nmake = [\"plain\", \"match alcohol\"]\n"});
  test.causes = {Cause::alcohol};
  test.days.resize(1);
  const auto doughs = rivals(test).value();
  JointModel model(doughs, cause_priors(doughs, test.causes), 1, test.base.bulk_temperature());
  std::vector<Watched> jars;
  for (std::size_t d = 0; d < 2; ++d) {
    Watched jar{0, d, 1, {}, 8.0 * millimetre};
    for (const double t : {6.0, 10.0, 14.0})
      jar.looks.push_back({t, d == 0 ? 1 + 0.12 * t : 1 + 0.06 * t});
    jars.push_back(jar);
  }
  model.ask({{0, 0, {6, 10, 14}}, {0, 1, {6, 10, 14}}});
  const internal::Errors errors(jars, 0.05);
  double by_laplace[2];
  double by_draws[2];
  for (const Hypothesis h : {0U, 1U}) {
    const auto fit = internal::fit(
        model, h, errors, Eigen::VectorXd::Zero(static_cast<Eigen::Index>(model.unknowns())));
    ASSERT_THAT(fit, Holds());
    by_laplace[h] = fit->log_evidence;
    constexpr std::size_t draws = 20000;
    numerics::Random random(3, 0);
    std::vector<std::vector<double>> z(draws, std::vector<double>(model.unknowns()));
    for (auto& one : z)
      for (double& x : one) x = random.normal();
    const auto predicted = model.predict(h, z).value();
    double sum = 0;
    for (std::size_t i = 0; i < draws; ++i) {
      const std::vector<double> one(predicted.begin() + static_cast<std::ptrdiff_t>(6 * i),
                                    predicted.begin() + static_cast<std::ptrdiff_t>(6 * i + 6));
      sum += std::exp(-0.5 * errors.whitened(one).squaredNorm());
    }
    by_draws[h] = std::log(sum / draws) - errors.log_volume();
  }
  // A cause is named at nearly six to one: Laplace may be off by a factor of three, but no more.
  const double a_third = std::log(3.0);
  for (const int h : {0, 1}) EXPECT_NEAR(by_laplace[h], by_draws[h], a_third) << h;
  EXPECT_NEAR(by_laplace[1] - by_laplace[0], by_draws[1] - by_draws[0], a_third);
  EXPECT_GT(by_draws[1], by_draws[0]);
}

TEST(JointModel, SlopesAreThoseOfPredictions) {
  const auto test = test::test_of(test::designs()[2]);
  const auto doughs = rivals(test).value();
  JointModel model(doughs, cause_priors(doughs, test.causes), 2, test.base.bulk_temperature());
  model.ask({{0, 0, {6, 12}}, {1, 1, {8, 20}}, {1, 2, {9, 15}}});
  std::vector<double> z(model.unknowns(), 0.2);
  const auto slopes = model.slopes(7, z).value();
  for (std::size_t i = 0; i < z.size(); ++i) {
    auto up = z;
    auto down = z;
    up[i] += 0.05;
    down[i] -= 0.05;
    const auto above = model.predict(7, up).value();
    const auto below = model.predict(7, down).value();
    for (std::size_t look = 0; look < above.size(); ++look)
      EXPECT_NEAR(slopes.by[look * z.size() + i], (above[look] - below[look]) / 0.1, 0.02) << i;
  }
}

TEST(JointModel, WhatDoesNotActChangesNothing) {
  // A dough with alcohol and one without rise alike when alcohol is switched off, but for what its
  // weight and its volume of the water change.
  const auto test =
      test::test_of({"two",
                     "[[dough]]\nname = \"plain\"\nmake = \"plain\"\n"
                     "[[dough]]\nname = \"e\"\nmake = [\"plain\", \"match alcohol\"]\n"});
  const auto doughs = rivals(test).value();
  JointModel model(doughs, cause_priors(doughs, test.causes), 1, test.base.bulk_temperature());
  model.ask({{0, 0, {8, 14}}, {0, 1, {8, 14}}});
  const std::vector<double> z(model.unknowns(), 0);
  const auto off = model.predict(0, z).value();
  EXPECT_NEAR(off[0], off[2], 0.1);
  EXPECT_NEAR(off[1], off[3], 0.15);
  const auto on = model.predict(1, z).value();
  EXPECT_LT(on[2], off[2] - 0.3);
  EXPECT_NEAR(on[0], off[0], 0.05);
}

TEST(Observed, SaysWhereARowIsWrong) {
  const auto test = test::mead_test().value();
  const auto error = [&](const std::string& text) {
    const auto read = parse_observed(test, text, "r.csv");
    return read ? "" : read.error().text();
  };
  const std::string names = "day,dough,hours,height_mm\n";
  EXPECT_THAT(error(""), HasSubstr("r.csv"));
  EXPECT_THAT(error("day,dough,hours,colour\n"), HasSubstr("r.csv:1"));
  EXPECT_THAT(error("dough,hours,ratio\n"), HasSubstr("column day"));
  EXPECT_THAT(error(names + "2026-11-28,mead,6\n"), HasSubstr("r.csv:2  has 3 cells, not 4"));
  EXPECT_THAT(error(names + "2026-11-28,meed,6,80\n"), HasSubstr("\"meed\" is no dough"));
  EXPECT_THAT(error(names + "2026-11-29,mead,6,80\n"), HasSubstr("is no day"));
  EXPECT_THAT(error(names + "2026-11-28,mead,x,80\n"), HasSubstr("is no time"));
  EXPECT_THAT(error(names + "2026-11-28,mead,6,nan\n"), HasSubstr("is no height"));
  EXPECT_THAT(error("day,label,hours,height_mm\n2026-11-28,000,6,80\n"), HasSubstr("is no label"));
  EXPECT_THAT(error(names + "2026-11-28,mead,0,60\n"), HasSubstr("no look"));
}

TEST(Observed, LabelsOfThePlanLeadToTheirDoughs) {
  const auto test = test::mead_test().value();
  const Jar jar = plan(test).front();
  const auto read = parse_observed(test,
                                   "day,label,hours,height_mm\n2026-11-28," + jar.label +
                                       ",0,58\n2026-11-28," + jar.label + ",6,87\n",
                                   "r");
  ASSERT_THAT(read, Holds());
  ASSERT_EQ(read->size(), 1U);
  EXPECT_EQ(read->front().dough, jar.dough);
  ASSERT_EQ(read->front().looks.size(), 1U);
  EXPECT_DOUBLE_EQ(read->front().looks[0].ratio, 1.5);
}

}  // namespace

}  // namespace barm::testbakes
