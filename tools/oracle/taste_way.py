#!/usr/bin/env python3
"""The way of each scent of docs/model/taste.md by other means: a check on src/taste, not a part of it.

    taste_way.py DATA_DIRECTORY

For the lean dough of a worked loaf that loses a tenth, one line a scent:
    name <tab> volatility crumb crust loaf pan
Volatility: the heat of leaving water integrated from 25 C to boiling. Crumb and crust: Rayleigh's equation integrated for
each share of water that leaves, and averaged over its exponential spread. Pan: a boiling pan whose vapour holds `volatility`
times the share of the scent that the liquid holds, integrated until half of the liquid is left; 0 from a volatility of 100 on.
"""

import csv
import math
import sys
from pathlib import Path

from scipy.integrate import quad, solve_ivp

WATER, FLOUR, FAT = 0.42, 0.54, 0.0074 * 0.54
ROOM, BOILING = 298.15, 373.15
VENTED, DEPTH, LOSS, BEND, STARCH, PH = 0.038, 1.792, 0.1, -35, 0.02, 5.0


def volatility(row):
    if row["volatility_boiling"]:
        return float(row["volatility_boiling"])
    if row["fit_a"]:
        a, b, c = (float(row[key]) for key in ("fit_a", "fit_b", "fit_c"))
        return math.exp(a) * math.exp(b / BOILING) * BOILING**c / 101.325
    heat = lambda t: (float(row["slope"]) + BEND * (t - ROOM)) / t**2
    rise, _ = quad(heat, ROOM, BOILING, epsabs=1e-12)
    return 55.34 / float(row["hcp"]) * math.exp(rise) / 101.325


def spread(rate, mean):
    """Mean of exp(-rate s) over shares s that are spread exponentially."""
    value, _ = quad(lambda u: math.exp(-u) * math.exp(-rate * mean * u), 0, math.inf, epsabs=1e-13, epsrel=1e-11)
    return value


def pan(alpha):
    if alpha >= 100:
        return 0.0
    run = solve_ivp(lambda left, mass: alpha * mass / left, (1.0, 0.5), [1.0], method="DOP853", rtol=1e-11, atol=1e-280)
    return run.y[0][-1]


def main(data):
    lines = [line for line in (Path(data) / "tables/scents.csv").read_text().splitlines() if not line.startswith("#")]
    crust_share = (LOSS / WATER - VENTED) / (1 - math.exp(-DEPTH) - VENTED)
    for row in csv.DictReader(lines):
        alpha = volatility(row)
        acid = 1 / (1 + 10 ** (PH - float(row["pka"]))) if row["pka"] else 1.0
        kow = float(row["log_kow"])
        held = FAT * 10 ** (0.95 * kow) + FLOUR * STARCH * 10 ** (0.55 * kow)
        rate = alpha * acid * WATER / (WATER + held)
        crumb, crust = spread(rate, VENTED), spread(rate, DEPTH)
        print(row["name"], alpha, crumb, crust, (1 - crust_share) * crumb + crust_share * crust, pan(alpha * acid), sep="\t")


main(sys.argv[1])
