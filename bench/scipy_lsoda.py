"""A side note to the benches: the standard forecast by LSODA of SciPy, the equations written again in Python.

    standard_terms 50 | /usr/bin/python3 bench/scipy_lsoda.py

Reads the terms of each draw, checks that both programs give the same slopes at mixing, and prints time for one
forecast and the error of the time to double.
"""

import csv
import json
import math
import pathlib
import sys
import time
import tomllib

from scipy.integrate import solve_ivp

DATA = pathlib.Path(__file__).resolve().parent.parent / "data"
GROWTH = tomllib.loads((DATA / "growth.toml").read_text())
DOUGH = tomllib.loads((DATA / "dough.toml").read_text())
BEND = tomllib.loads((DATA / "chemistry.toml").read_text())["flour_buffer"]
TARGET, HORIZON = 2, 72

with open(DATA / "tables/gluten_and_ethanol.csv", newline="") as file:
    HELD = [
        (float(row["strength_percent"]), float(row["held"]))
        for row in csv.DictReader(line for line in file if not line.startswith("#"))
    ]


def of(group, name):
    return (GROWTH | DOUGH)[group][name]["value"]


def ramp(x, begin, end):
    return min(1, max(0, (x - begin) / (end - begin)))


def rise(y, t):
    b = t["air"] + t["capacity"] - y[11]
    bubbles = (math.sqrt(b * b + 4 * y[11] * t["air"]) - b) / 2
    return (t["gas_free_volume"] + (bubbles + t["air"]) * t["volume_per_gas"]) / t["volume_at_start"]


def slopes(_, y, t):
    wild, _, lab, wild_awake, _, lab_awake, hexose, maltose, to_come, gas, used, held, strength, ph, sulphite = y
    litre = t["per_litre"]
    lactate = t["lactate_brought"] + used * of("bacteria", "lactate_per_hexose")
    acetate = t["acetate_brought"] + used * of("bacteria", "acetate_per_hexose")
    ethanol = t["ethanol_brought"] + 0.046069 * litre * (
        gas * of("yeast", "ethanol_per_gas") + used * of("bacteria", "ethanol_per_hexose"))
    h = 10**-ph
    lactic_ion = t["lactic_k"] / (t["lactic_k"] + h)
    acetic_ion = t["acetic_k"] / (t["acetic_k"] + h)
    met = {
        "acetic": acetate * (1 - acetic_ion) * litre,
        "sulphite": sulphite * litre * h / (h + t["sulphite_k"]),
        "sorbate": t["sorbate"] * h / (h + t["sorbic_k"]),
        "sugar": max(0, hexose - t["flour_hexose"]) * 0.180156 * litre,
    }

    def ease(kind, constants, inhibitors):
        by_ethanol = max(0, 1 - (ethanol / t[f"{kind}_ethanol_end"]) ** of("stress", "end_power")) / (
            1 + (ethanol / t[f"{kind}_ethanol_half"]) ** of(constants, "ethanol_power"))
        rest = by_ethanol
        for name in inhibitors:
            rest /= 1 + (met[name] / t[f"{kind}_{name}_half"]) ** of(constants, f"{name}_power")
        return by_ethanol, rest

    def dying(by_ethanol):
        return t["death"] * max(0, 1 - by_ethanol / of("stress", "death_below"))

    s, m = max(0, hexose * litre), max(0, maltose * litre)
    wild_food = s / (s + of("wild_yeast", "hexose_half"))
    lab_maltose = m / (m + of("bacteria", "sugar_use_half"))
    lab_hexose = (1 - lab_maltose) * s / (s + of("bacteria", "sugar_use_half"))

    by_ethanol, eager = ease("wild", "wild_yeast", ("acetic", "sugar", "sulphite", "sorbate"))
    eager *= ramp(ph, of("wild_yeast", "ph_stop"), of("wild_yeast", "ph_low")) * wild_food
    mu = t["wild_growth"] * eager * wild_awake
    wild_slope = (mu - dying(by_ethanol)) * wild
    wild_awake_slope = mu * (1 - wild_awake)
    wild_gas = (t["wild_gas_of_growth"] * mu + t["wild_upkeep_gas"] * eager) * wild

    by_ethanol, lab_ease = ease("bacteria", "bacteria", ("acetic", "sugar", "sulphite"))
    hops_half = t["bacteria_hops_half"] * 10 ** (of("bacteria", "hops_per_ph") * (ph - 4.5))
    lab_ease /= 1 + (t["hops"] / hops_half) ** of("bacteria", "hops_power")
    inside = (ph - of("bacteria", "ph_min")) * (ph - of("bacteria", "ph_max"))
    by_ph = inside / (inside - (ph - of("bacteria", "ph_opt")) ** 2) if inside < 0 else 0
    hungry = t["bacteria_growth"] * lab_ease * by_ph * lab_awake
    souring = ramp(ph, of("bacteria", "acid_stop_ph"), of("bacteria", "acid_full_ph"))
    use = (hungry * t["bacteria_hexose_per_cells"] + t["bacteria_upkeep"] * lab_ease * souring) * lab
    eaten = lab_maltose + lab_hexose
    lab_slope = (hungry * eaten - dying(by_ethanol)) * lab
    lab_awake_slope = hungry * eaten * (1 - lab_awake)
    made = use * eaten

    release = t["amylase"] * to_come * ramp(ph, of("flour", "amylase_stop_ph"), of("flour", "amylase_full_ph"))
    split = use * lab_maltose / (1 - of("bacteria", "excreted"))
    hexose_slope = (split * of("bacteria", "excreted") - use * lab_hexose
                    - wild_gas / of("yeast", "gas_per_hexose"))

    percent = ethanol * t["ethanol_scale"]
    by_strength = HELD[0][1]
    for (x0, y0), (x1, y1) in zip(HELD, HELD[1:]):
        by_strength -= ramp(percent, x0, x1) * (y0 - y1)
    f_ph = t["floor"] + (1 - t["floor"]) * ramp(ph, of("gluten", "ph_floor"), of("gluten", "ph_full"))
    most = 1 + t["rise_above_start"] * strength * f_ph * by_strength
    r = rise(y, t)
    leak = t["surface_leak"] + t["pore_leak"] * min(r / most, of("gas", "pore_most")) ** of("gas", "pore_power")
    over = min((r - most) / of("gas", "escape_width"), 300)
    held_slope = (wild_gas + made * of("bacteria", "gas_per_hexose")) / (1 + math.exp(over)) - leak * held

    acid = min(lactate / of("gluten", "acid_dose"), of("gluten", "acid_most"))
    strength_slope = -(t["fading"] + t["fading_by_acid"] * acid) * strength

    ln10 = math.log(10)
    buffer = t["buffering"] + t["flour_buffering"] * (BEND["steeper"]["value"] if ph < BEND["bend"]["value"] else 1)
    buffer += ln10 * (lactate * lactic_ion * (1 - lactic_ion) + acetate * acetic_ion * (1 - acetic_ion))
    for total, k1, k2, k3 in t["acids"]:
        p1, p2, p3 = k1 * h * h, k1 * k2 * h, k1 * k2 * k3
        everything = h**3 + p1 + p2 + p3
        mean = (p1 + 2 * p2 + 3 * p3) / everything
        buffer += total * ((p1 + 4 * p2 + 9 * p3) / everything - mean * mean) * ln10
    ph_slope = -made * (lactic_ion * of("bacteria", "lactate_per_hexose")
                        + acetic_ion * of("bacteria", "acetate_per_hexose")) / buffer

    return [wild_slope, 0, lab_slope, wild_awake_slope, 0, lab_awake_slope, hexose_slope, release - split, -release,
            wild_gas, made, held_slope, strength_slope, ph_slope, -t["sulphite_loss"] * sulphite]


def hours_to_double(t, tolerance):
    def short_of_target(_, y, terms):
        return rise(y, terms) - TARGET

    short_of_target.terminal = True
    solution = solve_ivp(slopes, (0, HORIZON), t["begin"], method="LSODA", rtol=tolerance, atol=1e-3 * tolerance,
                         events=short_of_target, args=(t,))
    return solution.t_events[0][0] if len(solution.t_events[0]) else -1


def main():
    draws = [json.loads(line) for line in sys.stdin]
    for t in draws:
        for ours, theirs in zip(slopes(0, t["begin"], t), t["slope"]):
            if not math.isclose(ours, theirs, rel_tol=1e-9, abs_tol=1e-15):
                sys.exit(f"the two programs differ at mixing: {ours} and {theirs}")
    for tolerance in (1e-4, 1e-5, 1e-6, 1e-7):
        begin = time.perf_counter()
        hours = [hours_to_double(t, tolerance) for t in draws]
        spent = (time.perf_counter() - begin) / len(draws)
        both = [(a, t["ready"]) for a, t in zip(hours, draws) if a > 0 and t["ready"] > 0]
        other = sum((a > 0) != (t["ready"] > 0) for a, t in zip(hours, draws))
        off = [60 * abs(a - b) for a, b in both]
        rms = math.sqrt(sum(x * x for x in off) / len(off))
        print(f"LSODA {tolerance:g}: {1000 * spent:.1f} ms, off by {rms:.3g} min rms, {max(off):.3g} at worst, "
              f"{other} of {len(draws)} with another answer")


if __name__ == "__main__":
    main()
