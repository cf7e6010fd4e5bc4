// Time for one evaluation of the right-hand side, and for working out what holds still while it is
// integrated.
#include <benchmark/benchmark.h>

#include "bench/standard_forecast.h"
#include "kinetics/system.h"

namespace barm::bench {

namespace {

void right_hand_side(benchmark::State& state, const kinetics::Dough& dough) {
  const auto parameters = kinetics::book();
  const auto terms = kinetics::terms(dough, parameters, celsius, celsius);
  const kinetics::System<double> system(terms, kinetics::present(dough));
  const auto y = kinetics::at_mixing(dough, parameters);
  kinetics::StateOf<double> now = y;
  kinetics::StateOf<double> dy;
  for (auto _ : state) {
    system(0, now, dy);
    // Each waits for the one before, as in an integration.
    for (std::size_t i = 0; i < kinetics::state_count; ++i) now[i] = y[i] + 1e-9 * dy[i];
    benchmark::DoNotOptimize(now);
  }
}

void terms_of(benchmark::State& state, const kinetics::Dough& dough) {
  const auto parameters = kinetics::book();
  for (auto _ : state) {
    auto terms = kinetics::terms(dough, parameters, celsius, celsius);
    benchmark::DoNotOptimize(terms);
  }
}

kinetics::Dough yeasted_dough() {
  kinetics::Dough dough = standard_dough();
  dough.bakers_yeast = 0.3;
  return dough;
}

BENCHMARK_CAPTURE(right_hand_side, plain, test::plain_dough());
BENCHMARK_CAPTURE(right_hand_side, standard, standard_dough());
BENCHMARK_CAPTURE(right_hand_side, with_bakers_yeast, yeasted_dough());
BENCHMARK_CAPTURE(terms_of, standard, standard_dough());

}  // namespace

}  // namespace barm::bench
