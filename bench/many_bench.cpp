// Forecasts a second: what maps, learning and planning live on. Each row says how many standard
// forecasts, drawn from the priors, one call finishes in a second.
#include <benchmark/benchmark.h>
#include <sys/resource.h>

#include "bench/standard_forecast.h"
#include "forecast/many.h"

namespace barm::bench {

namespace {

using forecast::Precision;
using numerics::Instructions;

void fill(std::size_t i, forecast::Case& to_fill) {
  numerics::Random random(5, i);
  to_fill = {standard_dough(), kinetics::drawn(random), Temperature::from_celsius(celsius)};
}

forecast::ManyOptions options_of(Precision precision, Instructions instructions, int threads) {
  forecast::ManyOptions options;
  options.proving.stop_at_target = true;
  options.proving.horizon = horizon * hour;
  options.precision = precision;
  options.instructions = instructions;
  options.threads = threads;
  return options;
}

void many_standard_forecasts(benchmark::State& state,
                             Precision precision,
                             Instructions instructions) {
  const auto options = options_of(precision, instructions, static_cast<int>(state.range(0)));
  constexpr std::size_t count = 20000;
  for (auto _ : state) {
    auto many = forecast::foresee_many(count, fill, options);
    benchmark::DoNotOptimize(many);
  }
  state.SetItemsProcessed(state.iterations() * static_cast<std::int64_t>(count));
}

#define BARM_MANY(name, precision, instructions)                                       \
  BENCHMARK_CAPTURE(many_standard_forecasts, name, Precision::precision, instructions) \
      ->Arg(1)                                                                         \
      ->Arg(2)                                                                         \
      ->UseRealTime()                                                                  \
      ->Unit(benchmark::kMillisecond)

BARM_MANY(double, full, numerics::best_instructions());
BARM_MANY(single, single, numerics::best_instructions());
BARM_MANY(double_plain, full, Instructions::plain);
BARM_MANY(single_plain, single, Instructions::plain);

void one_at_a_time(benchmark::State& state) {
  auto proving = standard_proving();
  proving.accuracy.relative = 1e-5;
  proving.accuracy.absolute = 1e-8;
  std::size_t i = 0;
  forecast::Case one;
  for (auto _ : state) {
    fill(i++ % 20000, one);
    auto course = forecast::run(one.dough, one.parameters, proving);
    benchmark::DoNotOptimize(course);
  }
  state.SetItemsProcessed(state.iterations());
}

BENCHMARK(one_at_a_time)->Unit(benchmark::kMicrosecond);

// Every course to 72 h with its peak and collapse: half of the time is the slow tail after the
// sugar.
void many_whole_courses(benchmark::State& state) {
  auto options = options_of(Precision::full, numerics::best_instructions(), 2);
  options.proving.stop_at_target = false;
  constexpr std::size_t count = 10000;
  for (auto _ : state) {
    auto many = forecast::foresee_many(count, fill, options);
    benchmark::DoNotOptimize(many);
  }
  state.SetItemsProcessed(state.iterations() * static_cast<std::int64_t>(count));
}

BENCHMARK(many_whole_courses)->UseRealTime()->Unit(benchmark::kMillisecond);

void a_million_forecasts(benchmark::State& state) {
  const auto options = options_of(Precision::single, numerics::best_instructions(), 0);
  for (auto _ : state) {
    auto many = forecast::foresee_many(1000000, fill, options);
    benchmark::DoNotOptimize(many);
  }
  state.SetItemsProcessed(state.iterations() * 1000000);
  rusage usage{};
  getrusage(RUSAGE_SELF, &usage);
  state.counters["largest_memory_MB"] = static_cast<double>(usage.ru_maxrss) / 1024;
}

BENCHMARK(a_million_forecasts)->UseRealTime()->Unit(benchmark::kSecond)->Iterations(1);

}  // namespace

}  // namespace barm::bench
