// How long a baker waits for the oven: one loaf, the ranges of 400 laid between fifteen, and the
// whole way with the forecast of 400 doughs. The least of several runs, for others use the machine
// too.
#include <algorithm>
#include <chrono>
#include <cstdio>
#include <functional>

#include "forecast/ensemble.h"
#include "formula/read.h"
#include "oven/draws.h"
#include "service/oven.h"

namespace barm::bench {

namespace {

using Clock = std::chrono::steady_clock;

double least_ms(int runs, const std::function<void()>& work) {
  double least = 1e9;
  for (int i = 0; i < runs; ++i) {
    const auto begin = Clock::now();
    work();
    const std::chrono::duration<double, std::milli> took = Clock::now() - begin;
    least = std::min(least, took.count());
  }
  return least;
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
  const double one = least_ms(20, [&] { (void)oven::bake(loaf, hot, 40.0 * minute); });
  const double many = least_ms(10, [&] {
    (void)oven::many(loaf, hot, {}, 40.0 * minute, Temperature::from_celsius(22), 400, 1);
  });
  const double answer = least_ms(10, [&] { (void)service::oven(*bake, {}, options); });
  const double whole = least_ms(10, [&] {
    (void)forecast::foresee(*bake, options);
    (void)service::oven(*bake, {}, options);
  });
  std::printf("| one loaf, 40 min | %.1f ms |\n", one);
  std::printf("| 400 laid between fifteen, three looked at, cooling | %.0f ms |\n", many);
  std::printf("| the answer of `barm oven`, its dough run through the stages | %.0f ms |\n",
              answer);
  std::printf("| the whole way: 400 doughs foreseen, then the oven | %.0f ms |\n", whole);
  return 0;
}

}  // namespace

}  // namespace barm::bench

int main(int argc, char** argv) {
  return barm::bench::run(argc > 1 ? argv[1] : "examples/mead-loaf.toml");
}
