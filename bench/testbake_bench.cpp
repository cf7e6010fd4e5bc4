// What a person waits for after a test bake: the verdict on six doughs with twelve readings each,
// and the ranking of forty candidates. The standard forecast is measured in the same run.
#include <benchmark/benchmark.h>

#include <string>

#include "forecast/many.h"
#include "support/doughs.h"
#include "testbakes/next_bake.h"
#include "testbakes/observed.h"
#include "testbakes/read.h"

namespace barm::bench {

namespace {

testbakes::TestBake six_doughs() {
  return testbakes::read_test_bake(std::string(BARM_ROOT) + "/examples/test-bakes/mead.toml")
      .value();
}

void a_thousand_standard_forecasts(benchmark::State& state) {
  forecast::ManyOptions options;
  for (auto _ : state) {
    auto many = forecast::foresee_many(
        1000,
        [](std::size_t i, forecast::Case& c) {
          numerics::Random random(1, i);
          c.dough = test::wine_dough();
          c.parameters = kinetics::drawn(random);
        },
        options);
    benchmark::DoNotOptimize(many);
  }
}

BENCHMARK(a_thousand_standard_forecasts)->UseRealTime()->Unit(benchmark::kMillisecond);

void verdict_on_six_doughs_on_two_days(benchmark::State& state) {
  const auto test = six_doughs();
  const auto rivals = testbakes::rivals(test).value();
  const auto observed = testbakes::read_observed(test).value();
  for (auto _ : state) {
    auto verdict = testbakes::judge(test, rivals, observed);
    benchmark::DoNotOptimize(verdict);
  }
}

BENCHMARK(verdict_on_six_doughs_on_two_days)->UseRealTime()->Unit(benchmark::kMillisecond);

// All six causes asked about: 64 combinations.
void verdict_with_every_cause(benchmark::State& state) {
  auto test = six_doughs();
  test.causes.assign(testbakes::all_causes.begin(), testbakes::all_causes.end());
  const auto rivals = testbakes::rivals(test).value();
  const auto observed = testbakes::read_observed(test).value();
  for (auto _ : state) {
    auto verdict = testbakes::judge(test, rivals, observed);
    benchmark::DoNotOptimize(verdict);
  }
}

BENCHMARK(verdict_with_every_cause)->UseRealTime()->Unit(benchmark::kMillisecond)->Iterations(1);

void ranking_of_forty_candidates(benchmark::State& state) {
  const auto test = six_doughs();
  const auto rivals = testbakes::rivals(test).value();
  const auto observed = testbakes::read_observed(test).value();
  const std::optional<testbakes::Verdict> verdict =
      testbakes::judge(test, rivals, observed).value();
  auto candidates = testbakes::usual_candidates(test);
  while (candidates.size() < 40) candidates.push_back(candidates[candidates.size() / 2]);
  for (auto _ : state) {
    auto ranked = testbakes::rank_next(test, rivals, verdict, candidates);
    benchmark::DoNotOptimize(ranked);
  }
}

BENCHMARK(ranking_of_forty_candidates)->UseRealTime()->Unit(benchmark::kMillisecond);

}  // namespace

}  // namespace barm::bench
