// 2048 standard forecasts in lanes on one thread, for callgrind (tools/bench_budget).
#include <cstdio>

#include "bench/standard_forecast.h"
#include "forecast/many.h"

int main() {
  using namespace barm;
  forecast::ManyOptions options;
  options.proving.stop_at_target = true;
  options.threads = 1;
  const auto fill = [](std::size_t i, forecast::Case& to_fill) {
    numerics::Random random(5, i);
    to_fill = {bench::standard_dough(),
               kinetics::drawn(random),
               Temperature::from_celsius(bench::celsius)};
  };
  const auto many = forecast::foresee_many(2048, fill, options);
  std::printf("%.6f\n", many.value().passed.front().ready);
}
