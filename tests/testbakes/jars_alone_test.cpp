#include "testbakes/internal/jars_alone.h"

#include <gtest/gtest.h>

#include <cmath>
#include <numbers>

#include "testbakes/doughs_needed.h"

namespace barm::testbakes {

namespace {

using internal::chance_to_act;

CausePrior cause_prior(Cause cause, double half, double doubt, double power) {
  CausePrior one;
  one.cause = cause;
  one.half_speed_dose = half;
  one.doubt = doubt;
  one.power = power;
  one.chance = 0.5;
  return one;
}

Doses dosed_with(double alcohol, double sulphite) {
  Doses doses{};
  doses[static_cast<std::size_t>(Cause::alcohol)] = alcohol;
  doses[static_cast<std::size_t>(Cause::sulphite)] = sulphite;
  return doses;
}

// A jar that is seen at one and a half times after so many hours.
Watched seen_at(std::size_t day, std::size_t dough, double hours) {
  return {day, dough, 1, {{hours, 1.5}}, 50 * millimetre};
}

double normal_at(double x, double variance) {
  return std::exp(-0.5 * x * x / variance) / std::sqrt(2 * std::numbers::pi * variance);
}

double variance_of_a_dough() {
  const Scatter scatter = usual_scatter();
  return scatter.dough * scatter.dough + scatter.jar * scatter.jar;
}

}  // namespace

// Of two doughs on one day only how much later one is than the other says anything, and its chance
// is a sum of two normal ones: neither goes its own way, or one of them does.
TEST(JarsAlone, WeighByTheHoursOfTwoDoughsAsNormalChancesDo) {
  const std::vector<Doses> doses{dosed_with(0, 0), dosed_with(40, 0)};
  const auto priors = std::vector{cause_prior(Cause::alcohol, 40, 0, 4)};
  for (const double later : {0.8, 1.0, 1.3, 1.7, 2.2, 5.0}) {
    const double ln = std::log(later);
    const auto chance = [&](double expected) {
      const double apart = 2 * variance_of_a_dough();
      return 0.9 * normal_at(ln - expected, apart) + 0.1 * normal_at(ln - expected, apart + 0.25);
    };
    const double acts = chance(std::log(2.0));
    EXPECT_NEAR(chance_to_act({seen_at(0, 0, 6), seen_at(0, 1, 6 * later)}, doses, priors).front(),
                acts / (acts + chance(0)),
                1e-9)
        << later;
  }
}

// Two causes whose half-speed doses nobody knows, on two days, one of them without one dough:
// against sums over a fine grid of both doses.
TEST(JarsAlone, SpreadHalfSpeedDosesComeToWhatAGridDoes) {
  const std::vector<Doses> doses{
      dosed_with(0, 0), dosed_with(50, 0), dosed_with(0, 0.5), dosed_with(50, 0.5)};
  const auto priors = std::vector{cause_prior(Cause::alcohol, 55, 0.25, 4.5),
                                  cause_prior(Cause::sulphite, 0.4, 0.5, 2)};
  const std::vector<double> hours[] = {{5, 7.2, 5.6, 7.1}, {6.5, 8.5, 8.1}};
  std::vector<Watched> jars;
  for (std::size_t day = 0; day < 2; ++day)
    for (std::size_t dough = 0; dough < hours[day].size(); ++dough)
      jars.push_back(seen_at(day, dough, hours[day][dough]));

  // p of the hours up to a constant, each day's level free, dough `own` going its own way if there
  // is one.
  const auto likelihood = [&](double alcohol, double sulphite, int own) {
    const double s = variance_of_a_dough();
    std::vector<double> off;
    std::vector<std::size_t> of_dough;
    std::vector<std::size_t> of_day;
    for (std::size_t day = 0; day < 2; ++day)
      for (std::size_t dough = 0; dough < hours[day].size(); ++dough) {
        off.push_back(std::log(hours[day][dough]) - (dough % 2 == 1 ? alcohol : 0) -
                      (dough >= 2 ? sulphite : 0));
        of_dough.push_back(dough);
        of_day.push_back(day);
      }
    // Integrated over the way delta of that dough, step by step.
    const auto given = [&](double delta) {
      double squares = 0;
      for (std::size_t day = 0; day < 2; ++day) {
        double sum = 0;
        double count = 0;
        for (std::size_t i = 0; i < off.size(); ++i) {
          if (of_day[i] != day) continue;
          sum += off[i] - (static_cast<int>(of_dough[i]) == own ? delta : 0);
          ++count;
        }
        for (std::size_t i = 0; i < off.size(); ++i) {
          if (of_day[i] != day) continue;
          const double x =
              off[i] - (static_cast<int>(of_dough[i]) == own ? delta : 0) - sum / count;
          squares += x * x;
        }
      }
      return std::exp(-0.5 * squares / s);
    };
    if (own < 0) return given(0);
    constexpr double step = 0.02;
    double all = 0;
    for (double delta = -3; delta <= 3; delta += step)
      all += given(delta) * normal_at(delta, 0.25) * step;
    return all;
  };
  const auto with_ways = [&](double alcohol, double sulphite) {
    double all = 0.9 * likelihood(alcohol, sulphite, -1);
    for (int own = 0; own < 4; ++own) all += 0.1 / 4 * likelihood(alcohol, sulphite, own);
    return all;
  };
  const auto slower = [](const CausePrior& cause, double dose, double u) {
    return std::log1p(
        std::pow(dose / (cause.half_speed_dose * std::exp(cause.doubt * u)), cause.power));
  };
  double weight[4] = {with_ways(0, 0), 0, 0, 0};
  constexpr double step = 0.1;
  for (double u = -4; u <= 4; u += step) {
    const double share = normal_at(u, 1) * step;
    const double alcohol = slower(priors[0], 50, u);
    weight[1] += share * with_ways(alcohol, 0);
    weight[2] += share * with_ways(0, slower(priors[1], 0.5, u));
    for (double v = -4; v <= 4; v += step)
      weight[3] += share * normal_at(v, 1) * step * with_ways(alcohol, slower(priors[1], 0.5, v));
  }
  const double all = weight[0] + weight[1] + weight[2] + weight[3];
  const auto found = chance_to_act(jars, doses, priors);
  EXPECT_NEAR(found[0], (weight[1] + weight[3]) / all, 0.01);
  EXPECT_NEAR(found[1], (weight[2] + weight[3]) / all, 0.01);
  EXPECT_GT(found[0], 0.5);
  EXPECT_LT(found[1], 0.9);
}

// Sulphite in two doughs of four, one of them twice as late as all others: its own way.
TEST(JarsAlone, OneDoughThatGoesItsOwnWaySpeaksForNoCause) {
  const std::vector<Doses> doses{
      dosed_with(0, 0), dosed_with(0, 0), dosed_with(0, 0.4), dosed_with(0, 0.4)};
  const auto priors = std::vector{cause_prior(Cause::sulphite, 0.4, 0.5, 2)};
  const auto weight = [&](double third, double fourth) {
    std::vector<Watched> jars;
    for (std::size_t day = 0; day < 2; ++day) {
      jars.push_back(seen_at(day, 0, 6));
      jars.push_back(seen_at(day, 1, 6));
      jars.push_back(seen_at(day, 2, third));
      jars.push_back(seen_at(day, 3, fourth));
    }
    return chance_to_act(jars, doses, priors).front();
  };
  EXPECT_LT(weight(6, 12), 0.5);
  EXPECT_GT(weight(12, 12), 0.95);
}

}  // namespace barm::testbakes
