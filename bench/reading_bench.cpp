// What a baker waits for after a reading, and what a culture's memory costs. docs/bench-reading.md.
#include <benchmark/benchmark.h>

#include <cmath>

#include "estimation/culture.h"
#include "estimation/outlook.h"
#include "forecast/ensemble.h"
#include "formula/read.h"
#include "numerics/random.h"

namespace barm::estimation {
namespace {

constexpr double hours[] = {0.6, 1.2, 1.8, 2.4, 3.0, 3.6, 4.2, 4.8, 5.4, 6.0, 6.6, 7.2};

DoughToRead mead() {
  const auto bake = formula::read_bake(BARM_EXAMPLES "/mead-loaf.toml");
  return *prepare(*bake, day_one_belief(), forecast::proving_of(*bake, {}));
}

Readings read(const DoughToRead& batch, std::uint64_t seed) {
  numerics::Random random(seed, 3);
  std::vector<double> z(batch.dimension());
  for (double& x : z) x = random.normal();
  return *simulated(batch, z, hours, 40.0 * millimetre, [&] { return random.normal(); });
}

// Twelve readings to a forecast on one core; the draws it takes for a thousand that count.
void update_a_forecast(benchmark::State& state) {
  const DoughToRead batch = mead();
  std::uint64_t seed = 0;
  double effective = 0;
  double rounds = 0;
  for (auto _ : state) {
    const Readings readings = read(batch, ++seed);
    LearnOptions options;
    options.threads = 1;
    options.draws = static_cast<int>(state.range(0));
    const auto learned = learn(batch, readings, options);
    if (!learned) continue;
    const auto seen = outlook(batch, readings, *learned, options);
    benchmark::DoNotOptimize(seen);
    effective += learned->effective;
    ++rounds;
  }
  state.counters["effective"] = effective / rounds;
  state.counters["effective/s"] = benchmark::Counter(effective, benchmark::Counter::kIsRate);
}

BENCHMARK(update_a_forecast)->Arg(2000)->Arg(4000)->Unit(benchmark::kMillisecond)->Iterations(12);

void relearn_fifty_batches(benchmark::State& state) {
  const DoughToRead batch = mead();
  Culture culture{"bench", {}};
  std::vector<Readings> readings;
  for (int i = 0; i < 50; ++i) {
    readings.push_back(read(batch, static_cast<std::uint64_t>(i)));
    BatchLesson lesson;
    lesson.batch = std::to_string(i);
    lesson.day = 20000 + i;
    culture.batches.push_back(lesson);
  }
  for (auto _ : state) {
    const auto again = relearned(culture, [&](const BatchLesson& old) -> Result<BatchLesson> {
      const auto i = static_cast<std::size_t>(std::stoi(old.batch));
      const auto learned = learn(batch, readings[i], {.draws = 500, .least_effective = 80});
      if (!learned) return failure(learned);
      return lesson_of(batch, *learned, old.batch, old.day);
    });
    benchmark::DoNotOptimize(belief_of(*again));
  }
}

BENCHMARK(relearn_fifty_batches)->Unit(benchmark::kSecond)->Iterations(1)->UseRealTime();

}  // namespace
}  // namespace barm::estimation
