// How long a baker waits for the oven: one loaf, the ranges of 400 laid between 27, and the
// whole way with the forecast of 400 doughs, its loaves in one load, in three and in six. The least
// of several runs, for others use the machine too: on the clock, and of processor time over all
// threads.
#include <algorithm>
#include <chrono>
#include <cstdio>
#include <ctime>
#include <functional>
#include <string>

#include "forecast/ensemble.h"
#include "formula/read.h"
#include "oven/draws.h"
#include "service/oven/oven.h"

namespace barm::bench {

namespace {

using Clock = std::chrono::steady_clock;

struct Took {
  double wall = 1e9, processor = 1e9;  // [ms]
};

Took least_of(int runs, const std::function<void()>& work) {
  Took least;
  for (int i = 0; i < runs; ++i) {
    const auto begin = Clock::now();
    const std::clock_t used = std::clock();
    work();
    const std::chrono::duration<double, std::milli> took = Clock::now() - begin;
    least.wall = std::min(least.wall, took.count());
    least.processor =
        std::min(least.processor, 1e3 * static_cast<double>(std::clock() - used) / CLOCKS_PER_SEC);
  }
  return least;
}

void row(const char* what, const Took& took) {
  std::printf("| %s | %.3g ms | %.3g ms |\n", what, took.wall, took.processor);
}

int run(const char* path) {
  const auto bake = formula::read_bake(path);
  if (!bake) return 1;
  oven::Loaf loaf;
  loaf.makeup = {.water = 0.45,
                 .protein = 0.07,
                 .fat = 0.01,
                 .carbohydrate = 0.42,
                 .fibre = 0.02,
                 .ash = 0.018,
                 .ethanol = 0.012};
  oven::Oven hot;
  hot.set = {{Time{}, Temperature::from_celsius(230)}};
  const forecast::Options options;
  const auto four_hundred = [&] {
    return oven::many(loaf, hot, {}, 40.0 * minute, Temperature::from_celsius(22), 400, 1);
  };
  row("one loaf, 40 min", least_of(20, [&] { (void)oven::bake(loaf, hot, 40.0 * minute); }));
  row("400 laid between 27, three looked at, cooling", least_of(10, [&] { (void)four_hundred(); }));
  row("reference: as many loaves solved one by one", least_of(2, [&] {
        for (int i = 0; i < 400; ++i) (void)oven::bake(loaf, hot, 40.0 * minute);
      }));
  row("the answer of `barm oven`, its dough run through the stages",
      least_of(10, [&] { (void)service::oven(*bake, {}, options); }));
  row("400 doughs foreseen", least_of(10, [&] { (void)forecast::foresee(*bake, options); }));
  row("the whole way: 400 doughs foreseen, then the oven", least_of(10, [&] {
        (void)forecast::foresee(*bake, options);
        (void)service::oven(*bake, {}, options);
      }));
  for (const int at_once : {2, 1}) {
    formula::Bake by_loads = *bake;
    by_loads.oven.emplace().loaves = at_once;
    by_loads.oven->bake = 40.0 * minute;
    const std::string what =
        "the whole way, its six loaves in " + std::to_string(6 / at_once) + " loads";
    row(what.c_str(), least_of(10, [&] {
          (void)forecast::foresee(by_loads, options);
          (void)service::oven(by_loads, {}, options);
        }));
  }
  const oven::Laid laid = four_hundred().laid;
  std::printf("laid within %.2f K of %d loaves solved to look, weight within %.2f points\n",
              laid.core,
              laid.looked_at,
              100 * laid.loss);
  return 0;
}

}  // namespace

}  // namespace barm::bench

int main(int argc, char** argv) {
  return barm::bench::run(argc > 1 ? argv[1] : "examples/mead-loaf.toml");
}
