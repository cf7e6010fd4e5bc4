#!/usr/bin/env bash
# What a baker waits for: the whole process of `barm foresee BAKE --draws 400`, twenty times.
#   bench/foresee.sh BARM [BAKE] [RUNS]
set -eu
barm=${1:?usage: bench/foresee.sh BARM [BAKE] [RUNS]}
bake=${2:-$(dirname "$0")/../examples/mead-loaf.toml}
runs=${3:-20}
exec /usr/bin/python3 - "$runs" "$barm" foresee "$bake" --draws 400 <<'PYTHON'
import os, statistics, subprocess, sys, time

runs, command = int(sys.argv[1]), sys.argv[2:]
seconds, kilobytes = [], []
for _ in range(runs):
    begin = time.perf_counter()
    process = subprocess.Popen(command, stdout=subprocess.DEVNULL)
    _, status, usage = os.wait4(process.pid, 0)
    seconds.append(time.perf_counter() - begin)
    kilobytes.append(usage.ru_maxrss)
    if os.waitstatus_to_exitcode(status) != 0:
        sys.exit(f"failed: {' '.join(command)}")
print(f"{' '.join(command)}")
print(f"median {statistics.median(seconds) * 1000:.1f} ms of {runs} runs "
      f"({min(seconds) * 1000:.1f} to {max(seconds) * 1000:.1f}), largest memory {max(kilobytes) / 1024:.1f} MiB")
PYTHON
