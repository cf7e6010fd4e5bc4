#!/usr/bin/env python3
"""A drink simmered down once more, by other means: a check on src/drink, not a part of it.

    simmer_model.py DATA_DIRECTORY ETHANOL WATER HEAT SHARE

Masses in kg, heat in W. Integrates in time, not in what has left, by an implicit method with the boiling point found
anew at every moment, until SHARE of the weight is left; writes "seconds ethanol water", the seconds from the boil on.
"""

import csv
import math
import sys
import tomllib
from pathlib import Path

from scipy.integrate import solve_ivp
from scipy.optimize import brentq


def main():
    data = Path(sys.argv[1])
    ethanol, water, heat, share = (float(a) for a in sys.argv[2:6])
    chemistry = tomllib.loads((data / "chemistry.toml").read_text())
    latent = tomllib.loads((data / "drink.toml").read_text())["boiling"]
    rows = [r for r in csv.DictReader(l for l in open(data / "tables" / "ethanol_water_mixing.csv") if l[0] != "#")]
    capacity_rows = [(float(r["share"]), 1000 * float(r["value"])) for r in rows if r["quantity"] == "capacity"]
    value = lambda group, name: chemistry[group][name]["value"]
    gas = 8.314462618
    m_e, m_w = value("molar_mass", "ethanol"), value("molar_mass", "water")
    t_ew, t_we = 4.184 * value("nrtl", "ethanol_water"), 4.184 * value("nrtl", "water_ethanol")
    alpha = value("nrtl", "alpha")

    def pressure(of, kelvin):
        return 10 ** (value(of, "a") - value(of, "b") / (kelvin + value(of, "c")))

    def partial(x, kelvin):
        t12, t21 = t_ew / gas / kelvin, t_we / gas / kelvin
        g12, g21 = math.exp(-alpha * t12), math.exp(-alpha * t21)
        z = 1 - x
        g_e = math.exp(z * z * (t21 * (g21 / (x + z * g21)) ** 2 + t12 * g12 / (z + x * g12) ** 2))
        g_w = math.exp(x * x * (t12 * (g12 / (z + x * g12)) ** 2 + t21 * g21 / (x + z * g21) ** 2))
        return x * g_e * pressure("antoine_ethanol", kelvin), z * g_w * pressure("antoine_water", kelvin)

    def boiling(e, w):
        x = (e / m_e) / (e / m_e + w / m_w)
        kelvin = brentq(lambda k: sum(partial(x, k)) - 101325.0, 340, 380, xtol=1e-12)
        y = partial(x, kelvin)[0] / 101325.0
        return kelvin, y * m_e / (y * m_e + (1 - y) * m_w)

    def capacity(e, w):
        p = e / (e + w)
        for (p0, c0), (p1, c1) in zip(capacity_rows, capacity_rows[1:]):
            if p <= p1:
                return c0 + (c1 - c0) * (p - p0) / (p1 - p0)
        return capacity_rows[-1][1]

    def rate(_, state):
        e, w = state
        kelvin, y = boiling(e, w)
        h = 1e-7 * (e + w)  # how much warmer it boils when so much has left
        slope = (boiling(e - y * h, w - (1 - y) * h)[0] - kelvin) / h
        needs = 1000 * (y * latent["ethanol"]["value"] + (1 - y) * latent["water"]["value"])
        needs += (e + w) * capacity(e, w) * slope
        return [-y * heat / needs, -(1 - y) * heat / needs]

    begun = ethanol + water
    ends = lambda _, state: sum(state) - share * begun
    ends.terminal = True
    run = solve_ivp(rate, (0, 1e7), [ethanol, water], method="Radau", rtol=1e-7, atol=1e-10, events=ends)
    print(f"{run.t[-1]:.9e} {run.y[0, -1]:.9e} {run.y[1, -1]:.9e}")


main()
