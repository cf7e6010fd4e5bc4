// What a baker waits for who asks what of the drink comes through. How to run it:
// docs/bench-taste.md.
#include <benchmark/benchmark.h>

#include "formula/read.h"
#include "taste/corridor.h"
#include "taste/routes.h"

namespace barm::taste {

namespace {

const formula::Bake& mead() {
  static const formula::Bake bake =
      formula::read_bake(BARM_ROOT "/examples/mead-loaf.toml").value();
  return bake;
}

forecast::Options options() {
  forecast::Options out;
  out.draws = 200;
  return out;
}

/// The whole answer: the middle dough run, the tasters drawn.
void a_bake(benchmark::State& state) {
  for (auto _ : state) {
    const auto situation = situation_of(mead(), {}, options());
    Luck luck(200, 1);
    benchmark::DoNotOptimize(tasted(*situation, luck));
  }
}

/// Only the tasters, the dough being there.
void the_tasters(benchmark::State& state) {
  const auto situation = situation_of(mead(), {}, options());
  for (auto _ : state) {
    Luck luck(200, 1);
    benchmark::DoNotOptimize(tasted(*situation, luck));
  }
}

/// The ways of all scents of the table through one lean dough: what tools/oracle/taste_way.py does
/// by quadrature.
void all_ways(benchmark::State& state) {
  constexpr Phases lean{.water = 0.42, .dry_flour = 0.54, .fat = 0.004};
  for (auto _ : state) {
    for (const Scent& scent : scents())
      benchmark::DoNotOptimize(usual_passage(scent, lean, usual_baking(0.1)));
  }
}

void the_picture(benchmark::State& state) {
  CorridorQuestion question;
  question.options = options();
  question.options.draws = 100;
  for (auto _ : state) benchmark::DoNotOptimize(corridor(mead(), question));
}

void all_routes(benchmark::State& state) {
  RoutesQuestion question;
  question.options = options();
  for (auto _ : state) benchmark::DoNotOptimize(routes(mead(), question));
}

BENCHMARK(a_bake)->Unit(benchmark::kMillisecond);
BENCHMARK(the_tasters)->Unit(benchmark::kMillisecond);
BENCHMARK(all_ways)->Unit(benchmark::kMicrosecond);
BENCHMARK(the_picture)->Unit(benchmark::kMillisecond);
BENCHMARK(all_routes)->Unit(benchmark::kMillisecond);

}  // namespace

}  // namespace barm::taste
