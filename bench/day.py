#!/usr/bin/python3
"""What a baker waits for: the whole of `barm day` for eight different doughs, so many times.

    bench/day.py BARM [RUNS] [WAYS]

The four loaves of examples/saltmarsh-saturday.toml and the same with more salt, each by so many ways
(1 to 3, else 2): as its file says, through the fridge, and a bulk at 27 C with it.
"""

import os
import pathlib
import re
import statistics
import subprocess
import sys
import tempfile
import time

EXAMPLES = pathlib.Path(__file__).resolve().parent.parent / "examples"
HOUSE = """name = "Eight doughs"
begins = 2026-11-27T05:00:00
bread = 2026-11-28T08:00:00
[house]
hands = 3
mixers = 2
bench = 3
fridge = 48
decks = 4
loaves_on_a_deck = 8
night = "22:00 to 04:00"
"""
WAYS = ['{ fridge = "8 h to 16 h" }', '{ bulk = "27 C", fridge = "8 h to 16 h" }']


def write_day(folder, ways):
    day = HOUSE
    for name in ("mead", "stout", "perry", "cold-coffee"):
        text = (EXAMPLES / f"{name}-loaf.toml").read_text()
        saltier = re.sub(r'(\nsalt = )"[0-9.]+ %"', r'\1"2.2 %"', text, count=1)
        saltier = re.sub(r'name = "(.*?)"', r'name = "\1, more salt"', saltier, count=1)
        assert saltier != text
        for file, bake in ((f"{name}.toml", text), (f"{name}-salt.toml", saltier)):
            (folder / file).write_text(bake)
            day += f'[[bake]]\nfile = "{file}"\nloaves = 4\n'
            if ways > 1:
                day += f"or = [{', '.join(WAYS[: ways - 1])}]\n"
    (folder / "day.toml").write_text(day)
    return folder / "day.toml"


def main():
    if len(sys.argv) < 2:
        sys.exit(__doc__)
    barm, runs, ways = sys.argv[1], int((sys.argv + ["", ""])[2] or 5), int((sys.argv + ["", "", ""])[3] or 2)
    wall, used = [], []
    with tempfile.TemporaryDirectory() as folder:
        day = write_day(pathlib.Path(folder), ways)
        for _ in range(runs):
            begin = time.perf_counter()
            process = subprocess.Popen([barm, "day", day], stdout=subprocess.DEVNULL)
            _, status, usage = os.wait4(process.pid, 0)
            wall.append(time.perf_counter() - begin)
            used.append(usage.ru_utime + usage.ru_stime)
            if os.waitstatus_to_exitcode(status) != 0:
                sys.exit("it failed")
    print(f"eight doughs, {ways} ways each, {runs} runs: on the clock {min(wall):.2f} s (median {statistics.median(wall):.2f}), "
          f"of all cores {min(used):.2f} s (median {statistics.median(used):.2f})")


if __name__ == "__main__":
    main()
