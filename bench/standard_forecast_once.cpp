// The standard forecast, ten times over: for counting instructions (tools/bench_budget), not for
// timing.
#include "bench/standard_forecast.h"

int main() {
  using namespace barm;
  const auto dough = bench::standard_dough();
  const auto parameters = kinetics::book();
  for (int i = 0; i < 10; ++i) {
    if (!forecast::run(dough, parameters, bench::standard_proving())) return 1;
  }
}
