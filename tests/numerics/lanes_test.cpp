// Packs against plain numbers, and runs in lock step against one run at a time.
#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <limits>
#include <vector>

#include "numerics/lanes_dormand_prince.h"
#include "numerics/random.h"

namespace barm::numerics {

namespace {

using Doubles = Pack<double>;
using Floats = Pack<float>;

template <class P>
class Packs : public testing::Test {};

using AllPacks = testing::Types<Doubles, Floats>;
TYPED_TEST_SUITE(Packs, AllPacks);

// 1, 2, 3, ...
template <class P>
P counting() {
  P pack;
  for (int lane = 0; lane < P::lanes; ++lane) pack.set(lane, lane + 1);
  return pack;
}

TYPED_TEST(Packs, ComputeLikeTheNumbersInTheirLanes) {
  using P = TypeParam;
  using Real = typename P::Real;
  const P x = counting<P>();
  const P y = select(x < P(3.0), x * x, (x - 0.5) / 2.0 + 1.0);
  for (int lane = 0; lane < P::lanes; ++lane) {
    const auto n = static_cast<Real>(lane + 1);
    EXPECT_EQ(y[lane], lane < 2 ? n * n : (n - Real(0.5)) / Real(2) + Real(1));
    EXPECT_EQ((-x)[lane], -n);
    EXPECT_EQ(abs(P(-x))[lane], n);
    EXPECT_EQ(smaller(x, P(2.5))[lane], std::min(n, Real(2.5)));
    EXPECT_EQ(larger(x, P(2.5))[lane], std::max(n, Real(2.5)));
    EXPECT_EQ(sqrt(x)[lane], std::sqrt(n));
  }
}

TYPED_TEST(Packs, MasksHoldLaneByLane) {
  using P = TypeParam;
  const P x = counting<P>();
  const auto low = x < P(2.0);
  const auto last = x >= P(P::lanes);
  for (int lane = 0; lane < P::lanes; ++lane) {
    EXPECT_EQ(low[lane], lane == 0);
    EXPECT_EQ((low | last)[lane], lane == 0 || lane == P::lanes - 1);
    EXPECT_FALSE((low & last)[lane]);
    EXPECT_EQ((!low)[lane], lane != 0);
  }
  EXPECT_TRUE(any(low));
  EXPECT_TRUE(any(last));
  EXPECT_FALSE(any(low & last));
}

// Largest relative error of f against the library's over evenly spaced x.
template <class P, class Ours, class Theirs>
double worst(double from, double to, const Ours& ours, const Theirs& theirs) {
  double largest = 0;
  constexpr int steps = 20000;
  for (int i = 0; i < steps; ++i) {
    const auto x = static_cast<typename P::Real>(from + (to - from) * i / steps);
    const double truth = theirs(static_cast<double>(x));
    const double error = static_cast<double>(ours(P(static_cast<double>(x)))[P::lanes - 1]) - truth;
    largest = std::max(largest, std::abs(error) / std::max(std::abs(truth), 1e-300));
  }
  return largest;
}

TEST(LanesMath, ExpHasTheStatedError) {
  const auto ours = [](const auto& x) { return exp(x); };
  const auto theirs = [](double x) { return std::exp(x); };
  EXPECT_LT(worst<Doubles>(-708, 709, ours, theirs), 1e-14);
  EXPECT_LT(worst<Doubles>(-1, 1, ours, theirs), 1e-14);
  EXPECT_LT(worst<Floats>(-86, 88, ours, theirs), 2e-7);
}

TEST(LanesMath, LogHasTheStatedError) {
  const auto ours = [](const auto& x) { return log(exp(x)); };
  const auto theirs = [](double x) { return x; };
  EXPECT_LT(worst<Doubles>(1, 700, ours, theirs), 2e-14);
  EXPECT_LT(worst<Doubles>(-700, -1, ours, theirs), 2e-14);
  const auto log_of = [](const auto& x) { return log(x); };
  const auto their_log = [](double x) { return std::log(x); };
  EXPECT_LT(worst<Doubles>(1e-300, 0.9, log_of, their_log), 2e-15);
  EXPECT_LT(worst<Doubles>(1.1, 1e6, log_of, their_log), 2e-15);
  EXPECT_LT(worst<Floats>(1.1F, 1e6F, log_of, their_log), 4e-7);
}

TEST(LanesMath, StaysFiniteAtTheEdges) {
  const double infinity = std::numeric_limits<double>::infinity();
  for (const double x : {-infinity, -1e9, 1e9, infinity}) {
    EXPECT_TRUE(std::isfinite(exp(Doubles(x))[0])) << x;
    EXPECT_TRUE(std::isfinite(exp(Floats(x))[0])) << x;
  }
  EXPECT_TRUE(std::isfinite(log(Doubles(0.0))[0]));
  EXPECT_TRUE(std::isfinite(log(Floats(0.0))[0]));
  EXPECT_EQ(power(Doubles(0.0), 1.9)[0] + 1.0, 1.0);
}

TEST(LanesMath, PowersAgreeWithTheLibrary) {
  for (const double k : {0.5, 1.0, 1.9, 2.0, 2.5, 3.0, 4.0, 8.0, 10.0}) {
    for (const double x : {1e-6, 0.3, 1.0, 7.5}) {
      EXPECT_NEAR(power(Doubles(x), k)[2] / std::pow(x, k), 1, 1e-13) << x << "^" << k;
    }
  }
}

// The logistic law, each lane with its own rate: y = 1 / (1 + 9 e^-rt) from y(0) = 0.1.
template <class P>
struct Logistic {
  P rate;

  void operator()(const std::array<P, 1>& y, std::array<P, 1>& dy) const {
    dy[0] = rate * y[0] * (P(1.0) - y[0]);
  }
};

double logistic(double rate, double t) { return 1 / (1 + 9 * std::exp(-rate * t)); }

// Runs rates one after the other through the lanes, in their order, up to t = 3; what each ends
// with.
template <class P>
std::vector<double> run_logistic(const std::vector<double>& rates, const Accuracy& accuracy) {
  std::vector<double> ends(rates.size());
  std::vector<std::size_t> in_lane(static_cast<std::size_t>(P::lanes));
  std::size_t next = 0;
  Logistic<P> law;
  LockStep<P, 1> runs(accuracy);
  const auto load = [&](int lane) {
    if (next == rates.size()) return runs.retire(lane);
    law.rate.set(lane, rates[next]);
    in_lane[static_cast<std::size_t>(lane)] = next++;
    runs.load(lane, {0.1}, 3.0);
  };
  for (int lane = 0; lane < P::lanes; ++lane) load(lane);
  while (runs.busy()) {
    runs.attempt(law);
    const auto pause = runs.move_on();
    for (int lane = 0; lane < P::lanes; ++lane) {
      if (!pause.paused[lane]) continue;
      ends[in_lane[static_cast<std::size_t>(lane)]] =
          static_cast<double>(runs.step().y_begin[0][lane]);
      load(lane);
    }
  }
  return ends;
}

std::vector<double> some_rates(std::size_t count) {
  Random random(3);
  std::vector<double> rates(count);
  for (double& rate : rates) rate = 0.1 + 20 * random.uniform();
  return rates;
}

TEST(LockStep, FollowsEveryLaneToItsTolerance) {
  const auto rates = some_rates(101);
  const auto doubles = run_logistic<Doubles>(rates, {.relative = 1e-9, .absolute = 1e-12});
  const auto floats = run_logistic<Floats>(rates, {.relative = 1e-5, .absolute = 1e-8});
  for (std::size_t i = 0; i < rates.size(); ++i) {
    EXPECT_NEAR(doubles[i], logistic(rates[i], 3.0), 1e-8);
    EXPECT_NEAR(floats[i], logistic(rates[i], 3.0), 3e-5);
  }
}

TEST(LockStep, TakesTheStepsOfARunAlone) {
  const auto rates = some_rates(9);
  const Accuracy accuracy{.relative = 1e-6, .absolute = 1e-9};
  const auto ends = run_logistic<Doubles>(rates, accuracy);
  for (std::size_t i = 0; i < rates.size(); ++i) {
    std::array<double, 1> y{0.1};
    double t = 0;
    Statistics statistics;
    const auto law = [&](double, const std::array<double, 1>& at, std::array<double, 1>& dy) {
      dy[0] = rates[i] * at[0] * (1 - at[0]);
    };
    integrate<1>(law, t, y, 3.0, accuracy, statistics, [](const auto&) { return true; });
    EXPECT_NEAR(ends[i], y[0], 1e-12);
  }
}

TEST(LockStep, NoLaneAffectsAnother) {
  auto rates = some_rates(40);
  const Accuracy accuracy{.relative = 1e-5, .absolute = 1e-8};
  const auto together = run_logistic<Doubles>(rates, accuracy);
  std::reverse(rates.begin(), rates.end());
  auto otherwise = run_logistic<Doubles>(rates, accuracy);
  std::reverse(otherwise.begin(), otherwise.end());
  EXPECT_EQ(together, otherwise);
  for (std::size_t i = 0; i < rates.size(); ++i) {
    EXPECT_EQ(run_logistic<Doubles>({rates[i]}, accuracy)[0], together[rates.size() - 1 - i]);
  }
}

TEST(LockStep, EventTimesConvergeAtTheMethodsOrder) {
  // y = 1/2 is crossed at ln 9 / r; halving the step must divide the error by about 2^4 or more.
  const auto error_with = [](double step) {
    LockStep<Doubles, 1> runs(
        {.relative = 1, .absolute = 1, .longest_step = step, .first_step = step});
    const Logistic<Doubles> law{Doubles(1.0)};
    runs.load(0, {0.1}, 6.0);
    double found = 0;
    while (runs.busy() && found == 0) {
      runs.attempt(law);
      const auto& taken = runs.step();
      if (taken.y_begin[0][0] < 0.5 && taken.y_end[0][0] >= 0.5) {
        const Quartic y = taken.component(0, 0);
        EXPECT_NEAR(y.at(0), taken.y_begin[0][0], 1e-15);
        EXPECT_NEAR(y.at(1), taken.y_end[0][0], 1e-14);
        EXPECT_NEAR(y.slope(0.3), (y.at(0.3 + 1e-6) - y.at(0.3 - 1e-6)) / 2e-6, 1e-8);
        found = taken.time(crossing([&](double s) { return y.at(s) - 0.5; }), 0);
      }
      runs.move_on();
    }
    return std::abs(found - std::log(9.0));
  };
  const double coarse = error_with(0.8);
  ASSERT_GT(coarse, 0);
  EXPECT_GT(coarse / error_with(0.4), 12);
}

TEST(LockStep, PausesChangesAndGoesOn) {
  // To t = 1, halved there, on to t = 2: dy/dt = y gives e^2 / 2.
  const auto grow = [](const std::array<Doubles, 1>& y, std::array<Doubles, 1>& dy) {
    dy[0] = y[0];
  };
  LockStep<Doubles, 1> runs({.relative = 1e-10, .absolute = 1e-13});
  runs.load(2, {1.0}, 1.0);
  int pauses = 0;
  while (runs.busy()) {
    runs.attempt(grow);
    const auto pause = runs.move_on();
    EXPECT_FALSE(pause.paused[0]);
    if (!pause.paused[2]) continue;
    if (++pauses == 1) {
      EXPECT_EQ(runs.step().begin[2], 1.0);
      runs.change(2, 0, static_cast<double>(runs.step().y_begin[0][2]) / 2);
      runs.go_on_until(2, 2.0);
    } else {
      runs.retire(2);
    }
  }
  EXPECT_EQ(pauses, 2);
  EXPECT_NEAR(runs.step().y_begin[0][2], std::exp(2.0) / 2, 1e-8);
}

TEST(LockStep, TakesAStepBackWhenAsked) {
  const auto fall = [](const std::array<Doubles, 1>&, std::array<Doubles, 1>& dy) {
    dy[0] = Doubles(-1.0);
  };
  LockStep<Doubles, 1> runs({.longest_step = 1, .first_step = 1});
  runs.load(0, {5.0}, 10.0);
  runs.load(1, {5.0}, 10.0);
  runs.attempt(fall);
  runs.shorten(1, 0.25);
  runs.move_on();
  EXPECT_EQ(runs.step().begin[0], 1.0);
  EXPECT_EQ(runs.step().begin[1], 0.0);
  runs.attempt(fall);
  runs.move_on();
  EXPECT_EQ(runs.step().begin[1], 0.25);
  runs.attempt(fall);
  EXPECT_EQ(runs.step().length[1], 1.0);  // as long as it would have been
}

TEST(LockStep, SaysWhichLaneIsLost) {
  // y' = y^2 from 1 is infinite at t = 1; from 0.1 it is not before t = 10.
  const auto blow_up = [](const std::array<Doubles, 1>& y, std::array<Doubles, 1>& dy) {
    dy[0] = y[0] * y[0];
  };
  LockStep<Doubles, 1> runs({.most_steps = 3000});
  runs.load(0, {1.0}, 2.0);
  runs.load(3, {0.1}, 2.0);
  bool lost = false;
  bool reached = false;
  while (runs.busy()) {
    runs.attempt(blow_up);
    const auto pause = runs.move_on();
    EXPECT_FALSE(pause.lost[3]);
    if (pause.paused[3]) {
      EXPECT_NEAR(runs.step().y_begin[0][3], 0.125, 1e-5);
      reached = true;
      runs.retire(3);
    }
    if (pause.lost[0]) {
      lost = true;
      runs.retire(0);
    }
  }
  EXPECT_TRUE(lost);
  EXPECT_TRUE(reached);
}

TEST(Crossing, FindsAnEndThatIsZero) {
  EXPECT_NEAR(crossing([](double s) { return s - 1; }), 1, 1e-9);
  EXPECT_NEAR(crossing([](double s) { return s; }), 0, 1e-9);
  EXPECT_NEAR(crossing([](double s) { return s * s * s - 0.1; }), std::cbrt(0.1), 1e-9);
}

}  // namespace

}  // namespace barm::numerics
