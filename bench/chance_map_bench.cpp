// The map of the chance to be ready within a day, over the share of wine in the liquid and the
// temperature: 64 x 48 cells of 200 draws. The first row is what a person waits for before seeing
// anything.
#include <benchmark/benchmark.h>

#include <algorithm>
#include <chrono>
#include <cmath>

#include "forecast/field.h"
#include "support/doughs.h"

namespace barm::bench {

namespace {

using forecast::Case;

constexpr int columns = 64;
constexpr int rows = 48;
constexpr int draws = 200;

void fill(double share, double celsius, int draw, Case& to_fill) {
  numerics::Random random(9, static_cast<std::uint64_t>(draw));
  to_fill.parameters = kinetics::drawn(random);
  to_fill.dough = test::plain_dough();
  const auto wine = test::wine_dough();
  to_fill.dough.ethanol = 45 * share;
  to_fill.dough.added_hexose = 5 * share;
  for (std::size_t a = 0; a < chemistry::acid_count; ++a)
    to_fill.dough.acid[a] = 2 * share * wine.acid[a];
  to_fill.dough.free_sulphite = 8 * share;
  to_fill.dough.ph = 5.83 - 1.3 * share;
  to_fill.temperature = Temperature::from_celsius(celsius);
}

forecast::FieldQuestion question() {
  forecast::FieldQuestion question;
  question.across = {0, 1, columns};
  question.up = {16, 34, rows};
  question.within = 24.0 * hour;
  question.draws = draws;
  return question;
}

double seconds_since(std::chrono::steady_clock::time_point begin) {
  return std::chrono::duration<double>(std::chrono::steady_clock::now() - begin).count();
}

void chance_map_first_picture(benchmark::State& state) {
  for (auto _ : state) {
    double first = 0;
    const auto begin = std::chrono::steady_clock::now();
    auto field = forecast::chance_field(question(), fill, [&](const forecast::Field&) {
      if (first == 0) first = seconds_since(begin);
    });
    benchmark::DoNotOptimize(field);
    state.SetIterationTime(first);
  }
}

BENCHMARK(chance_map_first_picture)->UseManualTime()->Unit(benchmark::kMillisecond);

// Every cell and draw in double precision.
std::vector<double> brute_force() {
  forecast::ManyOptions options;
  options.proving.horizon = question().within;
  options.proving.stop_at_target = true;
  const auto one = [&](std::size_t i, Case& to_fill) {
    const auto cell = static_cast<int>(i / draws);
    fill(question().across.at(cell % columns),
         question().up.at(cell / columns),
         static_cast<int>(i % draws),
         to_fill);
  };
  const auto many =
      forecast::foresee_many(static_cast<std::size_t>(columns * rows * draws), one, options);
  std::vector<double> chance(static_cast<std::size_t>(columns * rows), 0);
  for (std::size_t i = 0; i < many->passed.size(); ++i) {
    if (many->passed[i].is_ready()) chance[i / draws] += 1.0 / draws;
  }
  return chance;
}

void chance_map(benchmark::State& state) {
  static const auto truth = brute_force();
  forecast::Field field;
  for (auto _ : state) field = forecast::chance_field(question(), fill).value();
  double worst = 0;
  for (std::size_t i = 0; i < truth.size(); ++i) {
    worst = std::max(worst, std::abs(truth[i] - field.chance[i]));
  }
  state.counters["forecasts"] = static_cast<double>(field.forecasts);
  state.counters["worst_against_brute_force"] = worst;
  state.counters["error_stated"] = field.error;
}

BENCHMARK(chance_map)->UseRealTime()->Unit(benchmark::kMillisecond);

void chance_map_by_brute_force(benchmark::State& state) {
  for (auto _ : state) {
    auto chance = brute_force();
    benchmark::DoNotOptimize(chance);
  }
}

BENCHMARK(chance_map_by_brute_force)->UseRealTime()->Unit(benchmark::kMillisecond)->Iterations(1);

}  // namespace

}  // namespace barm::bench
