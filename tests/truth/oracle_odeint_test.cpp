// Our integrator and its event times against Boost.odeint: the same equations in the hands of
// others.
#include <gtest/gtest.h>

#include <algorithm>
#include <boost/math/tools/roots.hpp>
#include <boost/numeric/odeint/algebra/array_algebra.hpp>
#include <boost/numeric/odeint/stepper/bulirsch_stoer.hpp>
#include <boost/numeric/odeint/stepper/controlled_runge_kutta.hpp>
#include <boost/numeric/odeint/stepper/generation.hpp>
#include <boost/numeric/odeint/stepper/runge_kutta_dopri5.hpp>
#include <cmath>
#include <limits>
#include <string>

#include "kinetics/system.h"
#include "truth/oracle_cases.h"

namespace barm {

namespace {

namespace odeint = boost::numeric::odeint;
using State = kinetics::StateOf<double>;
using test::OracleCase;
using test::Times;

constexpr double tightly = 1e-10;
constexpr double longest_step = 0.25;  // [h]: no dough rises past a mark and falls back within it

auto dormand_prince() {
  return odeint::make_controlled(1e-2 * tightly, tightly, odeint::runge_kutta_dopri5<State>());
}

auto bulirsch_stoer() { return odeint::bulirsch_stoer<State>(1e-2 * tightly, tightly); }

// Follows one dough. Between two steps an event is found by integrating anew from the earlier one,
// so that no interpolation of theirs or ours enters.
template <class Stepper>
class Follower {
 public:
  Follower(const OracleCase& c, Stepper make())
      : terms_(kinetics::terms(c.dough, c.parameters, c.celsius, c.celsius)),
        system_(terms_, kinetics::present(c.dough)),
        make_(make),
        y_(kinetics::at_mixing(c.dough, c.parameters)) {}

  Times times() {
    constexpr double never = std::numeric_limits<double>::quiet_NaN();
    Times found{never, never, never};
    double largest = 1;
    Stepper stepper = make_();
    double step = 1e-3;
    for (double t = 0; t < test::oracle_horizon;) {
      begin_ = t;
      y_begin_ = y_;
      step = std::min({step, longest_step, test::oracle_horizon - t});
      while (stepper.try_step(rhs(), y_, t, step) == odeint::fail) {
      }
      end_ = t;
      passed(found.fifth, 1.2);
      passed(found.ready, test::oracle_target);
      if (slope(y_begin_) > 0 && slope(y_) <= 0) {
        const double at = root([this](const State& y) { return slope(y); });
        const double rise = system_.rise(state_at(at));
        if (rise > largest) {
          largest = rise;
          found.peak = at;
        }
      }
    }
    return found;
  }

 private:
  auto rhs() const {
    return [this](const State& y, State& dy, double t) { system_(t, y, dy); };
  }

  double slope(const State& y) const {
    State dy;
    system_(0, y, dy);
    return dy[kinetics::gas_held];
  }

  void passed(double& found, double ratio) const {
    if (!std::isnan(found) || system_.rise(y_begin_) >= ratio || system_.rise(y_) < ratio) return;
    found = root([&](const State& y) { return system_.rise(y) - ratio; });
  }

  State state_at(double at) const {
    State y = y_begin_;
    Stepper stepper = make_();
    double t = begin_;
    double step = at - t;
    while (at - t > 1e-13) {
      step = std::min(step, at - t);
      while (stepper.try_step(rhs(), y, t, step) == odeint::fail) {
      }
    }
    return y;
  }

  template <class Function>
  double root(const Function& g) const {
    const auto at = boost::math::tools::bisect([&](double t) { return g(state_at(t)); },
                                               begin_,
                                               end_,
                                               [](double a, double b) { return b - a < 1e-9; });
    return 0.5 * (at.first + at.second);
  }

  kinetics::Terms<double> terms_;
  kinetics::System<double> system_;
  Stepper (*make_)();
  State y_, y_begin_{};
  double begin_ = 0, end_ = 0;
};

template <class Stepper>
void compare_all(Stepper (*make)(), const std::string& method) {
  test::Deviations worst;
  for (const OracleCase& c : test::oracle_cases()) {
    const Times theirs = Follower(c, make).times();
    EXPECT_FALSE(std::isnan(theirs.ready)) << c.name << " never gets there: it compares nothing";
    test::compare(c, theirs, worst);
  }
  test::record_deviations(worst, "Boost.odeint, " + method + ", tolerance 1e-10");
}

TEST(Odeint, DormandPrinceAgreesToASecond) { compare_all(dormand_prince, "Dormand-Prince 5(4)"); }

TEST(Odeint, BulirschStoerAgreesToASecond) { compare_all(bulirsch_stoer, "Bulirsch-Stoer"); }

// The accuracy of ensembles: a minute is less than anyone can read off a dough.
TEST(Odeint, WhatEnsemblesUseAgreesToAMinute) {
  for (const OracleCase& c : test::oracle_cases()) {
    const Times theirs = Follower(c, dormand_prince).times();
    const Times ours = test::times_of(c, {.relative = 1e-5});
    EXPECT_NEAR(ours.fifth * 60, theirs.fifth * 60, 1) << c.name;
    EXPECT_NEAR(ours.ready * 60, theirs.ready * 60, 1) << c.name;
    EXPECT_NEAR(ours.peak * 60, theirs.peak * 60, 1) << c.name;
  }
}

// Law: on a smooth stretch the time of an event converges at the order of the method: halving every
// step divides its error by 2^4 or more (steps of 5th order, the polynomial inside them of 4th).
// Malt is in this dough because without it the first minutes, in which the first maltose appears,
// want steps of seconds.
TEST(EventTimes, ConvergeAtTheMethodsOrder) {
  const OracleCase malty{"Everything", test::everything_dough()};
  const double exact = Follower(malty, dormand_prince).times().ready;
  const auto error = [&](double step) {
    const numerics::Accuracy by_step_alone{.relative = 1, .absolute = 1e3, .longest_step = step};
    return std::abs(test::times_of(malty, by_step_alone).ready - exact);
  };
  for (const double step : {1.0, 0.5}) {
    const double fine = error(step / 2);
    ASSERT_GT(fine, 1e-9) << "nothing is left to converge at " << step;
    EXPECT_GE(error(step) / fine, 16) << "step " << step << " h, error " << error(step) << " h";
  }
}

// Law: a tighter tolerance brings the time of an event nearer, in proportion or better.
TEST(EventTimes, FollowTheTolerance) {
  const OracleCase wine{"Wine", test::wine_dough()};
  const double exact = Follower(wine, dormand_prince).times().ready;
  for (const double relative : {1e-3, 1e-4, 1e-5, 1e-6}) {
    EXPECT_LE(std::abs(test::times_of(wine, {.relative = relative}).ready / exact - 1), relative)
        << relative;
  }
}

}  // namespace

}  // namespace barm
