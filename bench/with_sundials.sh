#!/usr/bin/env bash
# Work against precision with SUNDIALS CVODE in the race: installs libsundials-dev if it is missing, builds
# build/bench-sundials and runs there. Nothing else of the project needs SUNDIALS.
#   bench/with_sundials.sh [DRAWS]        leaves work_precision.csv and .svg in build/bench-sundials
set -eu
cd "$(dirname "$0")/.."
if [ ! -e /usr/include/cvode/cvode.h ]; then
  as_root=$([ "$(id -u)" = 0 ] || echo sudo)
  $as_root apt-get install -y -q libsundials-dev
fi
build=build/bench-sundials
cmake -S . -B "$build" -G Ninja -DCMAKE_BUILD_TYPE=Release -DBARM_TESTS=OFF -DBARM_BENCH=ON -DBARM_BENCH_SUNDIALS=ON
cmake --build "$build" --target work_precision_bench
"$build/bin/work_precision_bench" "${1:-2000}" | tee "$build/work_precision.csv"
/usr/bin/python3 bench/work_precision_chart.py "$build/work_precision.csv" "$build/work_precision.svg"
