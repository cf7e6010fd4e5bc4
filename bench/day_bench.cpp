// What a baker waits for who plans a day of 8 bakes, or moves a step of it. How to run it:
// docs/bench-day.md.
#include <benchmark/benchmark.h>

#include <algorithm>
#include <chrono>

#include "dayplan/days.h"
#include "dayplan/move.h"
#include "dayplan/plan.h"
#include "dayplan/work.h"

namespace barm::dayplan {

namespace {

constexpr std::size_t bakes = 8;

Day day_of(const benchmark::State& state) {
  return random_day(bakes, static_cast<std::uint64_t>(state.range(0)), 100, 400);
}

void eight_bakes(benchmark::State& state) {
  const Day day = day_of(state);
  for (auto _ : state) benchmark::DoNotOptimize(plan(day));
}

/// The solver alone, before steps are shifted.
void the_timetable(benchmark::State& state) {
  const Day day = day_of(state);
  Effort effort;
  effort.by_the_draws = false;
  for (auto _ : state) benchmark::DoNotOptimize(plan(day, {}, effort));
}

void the_chance_on_2000_draws(benchmark::State& state) {
  const Plan made = *plan(day_of(state))->plan;
  const Day fresh = random_day(bakes, static_cast<std::uint64_t>(state.range(0)), 200, 2000);
  for (auto _ : state) benchmark::DoNotOptimize(work(fresh, made));
}

/// Every step of the day by half an hour, one after the other: the time of the slowest.
void the_slowest_move(benchmark::State& state) {
  const Day day = day_of(state);
  const Plan made = *plan(day)->plan;
  double slowest = 0;
  for (auto _ : state) {
    for (std::size_t b = 0; b < bakes; ++b) {
      for (std::size_t i = 0; i < made[b].begin.size(); ++i) {
        for (const Minutes by : {-90, -30, 30, 90}) {
          const auto begin = std::chrono::steady_clock::now();
          benchmark::DoNotOptimize(move(day, made, {b, i}, made[b].begin[i] + by));
          slowest = std::max(
              slowest,
              std::chrono::duration<double>(std::chrono::steady_clock::now() - begin).count());
        }
      }
    }
  }
  state.counters["slowest_ms"] = 1000 * slowest;
}

BENCHMARK(eight_bakes)->DenseRange(1, 6)->Unit(benchmark::kMillisecond);
BENCHMARK(the_timetable)->DenseRange(1, 6)->Unit(benchmark::kMillisecond);
BENCHMARK(the_chance_on_2000_draws)->DenseRange(1, 3)->Unit(benchmark::kMillisecond);
BENCHMARK(the_slowest_move)->DenseRange(1, 6)->Iterations(1)->Unit(benchmark::kMillisecond);

}  // namespace

}  // namespace barm::dayplan
