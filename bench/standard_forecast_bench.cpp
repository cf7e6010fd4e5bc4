// Time for one forecast, beside the same problem solved by Boost.odeint to the same error.
#include <benchmark/benchmark.h>

#include <algorithm>
#include <boost/numeric/odeint/algebra/array_algebra.hpp>
#include <boost/numeric/odeint/stepper/controlled_runge_kutta.hpp>
#include <boost/numeric/odeint/stepper/dense_output_runge_kutta.hpp>
#include <boost/numeric/odeint/stepper/generation.hpp>
#include <boost/numeric/odeint/stepper/runge_kutta_dopri5.hpp>
#include <cmath>
#include <limits>

#include "bench/standard_forecast.h"
#include "kinetics/system.h"

namespace barm::bench {

namespace {

namespace odeint = boost::numeric::odeint;
using State = kinetics::StateOf<double>;

double hours_by_us(const forecast::Proving& proving) {
  return forecast::run(standard_dough(), kinetics::book(), proving).value().ready.value().in(hour);
}

// Hours to double by Boost.odeint's Dormand-Prince with dense output; the root inside a step by
// bisection.
double hours_by_odeint(const kinetics::Dough& dough,
                       const kinetics::Parameters<double>& parameters,
                       double tolerance) {
  const auto terms = kinetics::terms(dough, parameters, celsius, celsius);
  const kinetics::System<double> system(terms, kinetics::present(dough));
  const auto rhs = [&](const State& y, State& dy, double t) { system(t, y, dy); };
  const auto short_of_target = [&](const State& y) { return system.rise(y) < target; };
  auto stepper =
      odeint::make_dense_output(1e-3 * tolerance, tolerance, odeint::runge_kutta_dopri5<State>());
  stepper.initialize(kinetics::at_mixing(dough, parameters), 0.0, 0.01);
  while (stepper.current_time() < horizon) {
    auto [before, after] = stepper.do_step(rhs);
    if (short_of_target(stepper.current_state())) continue;
    State y;
    while (after - before > 1e-9) {
      const double middle = 0.5 * (before + after);
      stepper.calc_state(middle, y);
      (short_of_target(y) ? before : after) = middle;
    }
    return after;
  }
  return std::numeric_limits<double>::infinity();
}

double exact_hours() {
  forecast::Proving proving = standard_proving();
  proving.accuracy = {.relative = 1e-12, .absolute = 1e-14};
  static const double hours = hours_by_us(proving);
  return hours;
}

double seconds_off(double hours) { return std::abs(hours - exact_hours()) * 3600; }

// The loosest tolerance down to which Boost.odeint never errs more than we do; a looser one may by
// luck.
double fair_tolerance() {
  const double ours = seconds_off(hours_by_us(standard_proving()));
  const auto good = [&](double tolerance) {
    return seconds_off(hours_by_odeint(standard_dough(), kinetics::book(), tolerance)) <= ours;
  };
  double tolerance = 1e-9;
  while (good(1.25 * tolerance)) tolerance *= 1.25;
  return tolerance;
}

void StandardForecast(benchmark::State& state) {
  const auto dough = standard_dough();
  const auto parameters = kinetics::book();
  const auto proving = standard_proving();
  forecast::Course course;
  for (auto _ : state) {
    course = forecast::run(dough, parameters, proving).value();
    benchmark::DoNotOptimize(course.ready);
  }
  state.counters["evaluations"] = course.statistics.evaluations;
  state.counters["seconds_off"] = seconds_off(course.ready.value().in(hour));
}

BENCHMARK(StandardForecast)->Unit(benchmark::kMicrosecond);

void StandardForecastByOdeint(benchmark::State& state) {
  const auto dough = standard_dough();
  const auto parameters = kinetics::book();
  const double tolerance = fair_tolerance();
  double hours = 0;
  for (auto _ : state) {
    hours = hours_by_odeint(dough, parameters, tolerance);
    benchmark::DoNotOptimize(hours);
  }
  state.counters["tolerance"] = tolerance;
  state.counters["seconds_off"] = seconds_off(hours);
}

BENCHMARK(StandardForecastByOdeint)->Unit(benchmark::kMicrosecond);

// With nothing cut short: the peak, the collapse and the curve of all 72 hours.
void WholeCourse(benchmark::State& state) {
  const auto dough = standard_dough();
  const auto parameters = kinetics::book();
  auto proving = standard_proving();
  proving.stop_at_target = false;
  proving.sample_every = 0.25 * hour;
  for (auto _ : state) {
    auto course = forecast::run(dough, parameters, proving);
    benchmark::DoNotOptimize(course);
  }
}

BENCHMARK(WholeCourse)->Unit(benchmark::kMicrosecond);

}  // namespace

}  // namespace barm::bench
