#!/usr/bin/env python3
"""The dough of docs/model/kinetics.md once more, by other means: a check on src/kinetics, not a part of it.

    dough_model.py CASES.toml DATA_DIRECTORY

CASES.toml holds [[case]] tables: name, celsius, horizon and target, [case.dough] as kinetics::Dough, and
[case.parameters] with values that replace those of data/, by name ("wild_yeast.growth"). For each case one line
    name fifth ready peak
is written: hours after mixing at which the dough has risen by a fifth, has reached its target and stands highest,
nan for what does not happen.

Where the program integrates cells, lag, pH, sulphite and gluten as they stand, this takes the logarithms of
cells and gluten, Baranyi's q, the pH that solves the charge balance at every moment, and sulphite in closed form;
and it integrates with an implicit method. So an error of algebra on either side shows.
Units: hours, grams, millimoles, litres, all per kg of dough.
"""

import csv
import math
import sys
import tomllib
from pathlib import Path

import numpy as np
from scipy.integrate import solve_ivp

TOLERANCE = 1e-10
ATMOSPHERE = 101325.0  # Pa
STANDARD_WARM = 298.15  # K


class Data:
    """The numbers of data/*.toml and data/tables/*.csv; each is asked for together with the unit meant."""

    def __init__(self, directory):
        self.directory = Path(directory)
        self.groups = {}
        for name in ("growth", "dough", "chemistry", "physics"):
            self.groups |= tomllib.loads((self.directory / f"{name}.toml").read_text())
        self.as_read = self.groups

    def __call__(self, name, unit):
        group, key = name.split(".")
        row = self.groups[group][key]
        if row["unit"] != unit:
            raise SystemExit(f"{name} is in {row['unit']}, not in {unit}")
        return row["value"]

    def book(self, name):
        """The value as it stands in data/, whatever has replaced it."""
        group, key = name.split(".")
        return self.as_read[group][key]["value"]

    def table(self, name):
        lines = (self.directory / "tables" / f"{name}.csv").read_text().splitlines()
        return list(csv.DictReader(line for line in lines if not line.startswith("#")))

    def replace(self, values):
        """A copy with some values replaced, in the units they have."""
        copy = Data.__new__(Data)
        copy.directory = self.directory
        copy.as_read = self.as_read
        copy.groups = {group: dict(rows) for group, rows in self.groups.items()}
        for name, value in values.items():
            group, key = name.split(".")
            copy.groups[group][key] = copy.groups[group][key] | {"value": value}
        return copy


def half_dose(z, half, power):
    return half**power / (half**power + max(0.0, z) ** power)


def cardinal_temperature(t, low, best, high):
    """Rosso, Lobry & Flandrois 1993."""
    if not low < t < high:
        return 0.0
    top = (t - high) * (t - low) ** 2
    return top / ((best - low) * ((best - low) * (t - best) - (best - high) * (best + low - 2 * t)))


def cardinal_ph(ph, low, best, high):
    """Rosso et al. 1995."""
    if not low < ph < high:
        return 0.0
    return (ph - low) * (ph - high) / ((ph - low) * (ph - high) - (ph - best) ** 2)


def skewed_temperature(t, best, high, shape):
    """A gamma curve seen from its upper end."""
    if t >= high:
        return 0.0
    ratio = (high - t) / (high - best)
    return (ratio * math.exp(1 - ratio)) ** (shape * (high - best))


def clipped(x):
    return min(1.0, max(0.0, x))


class Acids:
    """Weak acids and buffers: the charge they carry at a pH, and the pH at which they carry a given charge."""

    def __init__(self, data, dough):
        root = math.sqrt(dough["salt"] / data("molar_mass.salt", "gram / mole") / dough["water"])
        davies = data("ions.davies_slope", "one") * (
            root / (1 + root) - data("ions.davies_linear", "kilogram / mole") * root**2
        )
        self.pka = {}
        for row in data.table("acids"):
            steps = [float(row[f"pka{i}"]) for i in (1, 2, 3) if row[f"pka{i}"]]
            self.pka[row["acid"]] = [pk - (2 * i + 1) * davies for i, pk in enumerate(steps)]
        self.drinks = [(name, total) for name, total in dough["acid"].items() if total > 0]
        self.plain = dough["buffering"]
        self.flour = dough["flour_buffering"]
        self.bend = data("flour_buffer.bend", "ph")
        self.steeper = data("flour_buffer.steeper", "one")
        self.last = dough["ph"]

    def ionised(self, name, ph):
        """Mean charge of one molecule and its slope with pH."""
        weights = [1.0]
        for pk in self.pka[name]:
            weights.append(weights[-1] * 10.0 ** (ph - pk))
        total = sum(weights)
        mean = sum(j * w for j, w in enumerate(weights)) / total
        spread = sum((j - mean) ** 2 * w for j, w in enumerate(weights)) / total
        return mean, math.log(10) * spread

    def charge(self, ph, lactate, acetate):
        """Charge of everything [mmol], counted from pH 0 for the buffers, and its slope with pH."""
        below = max(0.0, self.bend - ph)
        value = self.plain * ph + self.flour * (ph - (self.steeper - 1) * below)
        slope = self.plain + self.flour * (self.steeper if below > 0 else 1.0)
        for name, amount in (*self.drinks, ("lactic", lactate), ("acetic", acetate)):
            mean, rise = self.ionised(name, ph)
            value += amount * mean
            slope += amount * rise
        return value, slope

    def ph(self, charge, lactate, acetate):
        """By Newton, from the pH last found."""
        ph = self.last
        for _ in range(60):
            value, slope = self.charge(ph, lactate, acetate)
            step = (charge - value) / slope
            ph += step
            if abs(step) < 1e-14 * ph:
                break
        self.last = ph
        return ph


class Yeast:
    def __init__(self, data, group, celsius, chill, salt, weakness):
        def half(what, unit):
            return data(f"{group}.{what}_half", unit), data(f"{group}.{what}_power", "one")

        def cardinals(which):
            return [data(f"{group}.{which}{end}", "celsius") for end in ("t_min", "t_opt", "t_max")]

        def growing(t):
            return chill(t) * cardinal_temperature(t, *cardinals(""))

        # In the cold gas goes on where growth stops: from 10 C down it falls by Q10 alone.
        limit = data("stress.cold_from", "celsius")
        at = max(celsius, limit)
        fall = data("stress.cold_gas", "one") ** (min(0, celsius - limit) / 10)
        salty = half_dose(salt, *half("salt", "gram / litre"))
        pace = data("place.pace", "one")
        best = data(f"{group}.growth", "one / hour") * salty * pace
        self.speed = best * growing(celsius)
        self.gas_of_growth = data(f"{group}.gas_of_growth", "millimole / gram")
        self.upkeep = (
            data(f"{group}.gas_of_upkeep", "millimole / gram / hour")
            * cardinal_temperature(at, *cardinals("upkeep_"))
            * (fall * salty * pace)
        )
        self.ungrown = self.gas_of_growth * best * (fall * growing(at) - growing(celsius))
        ethanol, power = half("ethanol", "gram / litre")
        self.ethanol = (ethanol * weakness, power)
        self.end = data(f"{group}.ethanol_end", "gram / litre") * weakness
        self.sugar = half("sugar", "gram / litre")
        self.sulphite = half("sulphite", "milligram / litre")
        self.acetic = half("acetic", "millimole / litre")
        self.sorbate = half("sorbate", "milligram / litre")
        self.ph_stop = data(f"{group}.ph_stop", "ph")
        self.ph_low = data(f"{group}.ph_low", "ph")

    def ease(self, water, alcohol):
        return (
            alcohol
            * clipped((water["ph"] - self.ph_stop) / (self.ph_low - self.ph_stop))
            * half_dose(water["acetic"], *self.acetic)
            * half_dose(water["sugar"], *self.sugar)
            * half_dose(water["sulphite"], *self.sulphite)
            * half_dose(water["sorbate"], *self.sorbate)
        )


class Bacteria:
    def __init__(self, data, warmth, salt, weakness):
        def half(what, unit):
            return data(f"bacteria.{what}_half", unit), data(f"bacteria.{what}_power", "one")

        salty = half_dose(salt, *half("salt", "gram / litre"))
        pace = data("place.pace", "one")
        self.speed = data("bacteria.growth", "one / hour") * warmth * salty * pace
        self.upkeep = data("bacteria.upkeep", "millimole / gram / hour") * warmth * salty * pace
        self.cells_per_hexose = data("bacteria.cells_per_hexose", "gram / millimole")
        ethanol, power = half("ethanol", "gram / litre")
        self.ethanol = (ethanol * weakness, power)
        self.end = data("bacteria.ethanol_end", "gram / litre") * weakness
        self.sugar = half("sugar", "gram / litre")
        self.sulphite = half("sulphite", "milligram / litre")
        self.acetic = half("acetic", "millimole / litre")
        self.hops = half("hops", "micromole / litre")
        self.hops_per_ph = data("bacteria.hops_per_ph", "one")
        self.acid_stop = data("bacteria.acid_stop_ph", "ph")
        later = self.acid_stop - data.book("bacteria.acid_stop_ph")
        self.ph_range = [data(f"bacteria.ph_{which}", "ph") + later for which in ("min", "opt", "max")]
        self.acid_full = data("bacteria.acid_full_ph", "ph") + later

    def ease(self, water, alcohol):
        half, power = self.hops
        return (
            alcohol
            * half_dose(water["acetic"], *self.acetic)
            * half_dose(water["sugar"], *self.sugar)
            * half_dose(water["sulphite"], *self.sulphite)
            * half_dose(water["hops"], half * 10 ** (self.hops_per_ph * (water["ph"] - 4.5)), power)
        )

    def pace_of_acid(self, ph):
        return clipped((ph - self.acid_stop) / (self.acid_full - self.acid_stop))


class Dough:
    """y = ln(cells/start) and ln q of wild yeast, baker's yeast and bacteria; hexose, maltose, maltose to come;
    yeast gas and sugar used by bacteria so far; gas held; ln strength."""

    def __init__(self, data, dough, celsius):
        self.dough = dough
        kelvin = celsius + 273.15
        litres = dough["water_phase"]
        self.litres = litres
        salt = dough["salt"] / litres
        above = max(0.0, celsius - data("stress.warm_from", "celsius"))
        weakness = max(0.2, 1 - data("stress.warm_toxicity", "one / kelvin") * above)

        def chill(t):
            steps = (t - data("stress.cold_middle", "celsius")) / data("stress.cold_width", "kelvin")
            return 1 / (1 + math.exp(-steps))

        def skewed(group):
            best, high = (data(f"{group}.{end}", "celsius") for end in ("t_opt", "t_max"))
            return skewed_temperature(celsius, best, high, data(f"{group}.t_shape", "one / kelvin"))

        self.wild = Yeast(data, "wild_yeast", celsius, chill, salt, weakness)
        self.bakers = Yeast(data, "bakers_yeast", celsius, chill, salt, weakness)
        self.bacteria = Bacteria(data, chill(celsius) * skewed("bacteria"), salt, weakness)
        self.acids = Acids(data, dough)
        pace = data("place.pace", "one")

        # water and what is in it
        self.molar_mass_ethanol = data("molar_mass.ethanol", "gram / mole")
        self.molar_mass_hexose = data("molar_mass.hexose", "gram / mole")
        # The general formula of OIML R 22 for pure ethanol at 20 C is the sum of its first coefficients.
        oiml = data.table("oiml_r22_coefficients")
        ethanol_density = round(sum(float(row["value"]) for row in oiml if row["symbol"] == "A"), 2)
        percent = 100 * dough["ethanol"] / litres / ethanol_density
        self.sulphite_pk = (
            data("sulphite_pk.at_20", "one")
            + data("sulphite_pk.by_strength", "one / percent") * percent
            + data("sulphite_pk.by_warmth", "one / kelvin") * (celsius - 20)
        )
        self.sulphite_life = data("stress.sulphite_half_life", "hour")
        self.sorbic_pk = data("sorbic_acid.pk", "ph")
        self.flour_sugar = data("flour.free_sugar", "millimole / kilogram") * dough["flour"]
        self.end_power = data("stress.end_power", "one")
        self.death = pace * data("stress.death", "one / hour")
        self.death_below = data("stress.death_below", "one")

        # food
        self.hexose_half = data("yeast.hexose_half", "millimole / litre")
        self.maltose_half = data("yeast.maltose_half", "millimole / litre")
        self.bacteria_half = data("bacteria.sugar_use_half", "millimole / litre")
        self.gas_per_hexose = data("yeast.gas_per_hexose", "one")
        self.ethanol_per_gas = data("yeast.ethanol_per_gas", "one")
        self.lab = {
            what: data(f"bacteria.{what}_per_hexose", "one") for what in ("lactate", "acetate", "ethanol", "gas")
        }
        self.excreted = data("bacteria.excreted", "one")
        self.amylase = pace * data("flour.amylase", "one / hour") * 2 ** (
            (celsius - 25) / data("flour.amylase_doubling", "kelvin")
        )
        self.amylase_stop = data("flour.amylase_stop_ph", "ph")
        self.amylase_full = data("flour.amylase_full_ph", "ph")

        # gas: P V = n R T with millimoles and litres
        pressure = ATMOSPHERE - 10 ** (
            data("antoine_water.a", "one")
            - data("antoine_water.b", "kelvin") / (kelvin + data("antoine_water.c", "kelvin"))
        )
        self.litres_per_gas = data("physics.gas_constant", "joule / (mole * kelvin)") * kelvin / pressure
        solubility = data("carbon_dioxide.solubility", "mole / (cubic_metre * pascal)") * math.exp(
            data("carbon_dioxide.cooling", "kelvin") * (1 / kelvin - 1 / STANDARD_WARM)
        )  # [mmol/(L Pa)]
        self.dissolving = dough["water"] * solubility * pressure * data("gas.dissolving", "one")
        self.solid = 1 / data("gas.gas_free_density", "gram / millilitre")
        void = data("gas.void_at_start", "one")
        self.air = self.solid * void / (1 - void) / self.litres_per_gas
        self.start_volume = self.volume(dough["carbon_dioxide"])
        self.escape_width = data("gas.escape_width", "one")
        self.surface_leak = data("gas.surface_leak", "one / hour")
        self.pore_leak = data("gas.pore_leak", "one / hour")
        self.pore_power = data("gas.pore_power", "one")
        self.pore_most = data("gas.pore_most", "one")

        # gluten
        wetness = [[float(row[key]) for row in data.table("gluten_and_water")] for key in ("hydration", "held")]
        stretch = data("gluten.rise_limit", "one")
        self.rise_above = (dough["rise_limit"] - 1) * stretch * np.interp(dough["hydration"], *wetness)
        acid_rows = data.table("gluten_and_acid")
        self.floor = np.interp(
            dough["hydration"], *([float(row[key]) for row in acid_rows] for key in ("hydration", "held_at_floor"))
        )
        ethanol_rows = data.table("gluten_and_ethanol")
        self.held_table = [[float(row[key]) for row in ethanol_rows] for key in ("strength_percent", "held")]
        self.percent_per_ethanol = 100 / ethanol_density / data("gluten.ethanol_scale", "one")
        # rye: what its pentosans hold, all of it once soured
        self.pentosan_rise = dough["pentosan_rise"] * stretch
        self.pentosan_fading = pace * data("pentosans.fading", "one / hour") * 2 ** (
            (celsius - 25) / data("gluten.fading_doubling", "kelvin")
        )
        self.sour_and_mild = [data(f"pentosans.{which}_ph", "ph") for which in ("sour", "mild")]
        self.unsoured = data("pentosans.held_mild", "one")
        # whole fruit
        self.leaching = data("fruit.leaching", "one / hour")
        self.gluten_ph = (data("gluten.ph_floor", "ph"), data("gluten.ph_full", "ph"))
        as_salt = dough["added_hexose"] / 2 * data("molar_mass.salt", "gram / mole") / 1000 / litres
        fade = pace * 2 ** ((celsius - 25) / data("gluten.fading_doubling", "kelvin")) / (
            1 + (salt + as_salt) / data("gluten.salt_shield", "gram / litre")
        )
        self.fading = fade * (
            data("gluten.fading", "one / hour") + data("gluten.fading_by_fruit", "one / hour") * dough["protease"]
        )
        self.fading_by_acid = fade * data("gluten.fading_by_acid", "one / hour")
        self.protease_ph = [data(f"gluten.protease_{which}_ph", "ph") for which in ("full", "stop")]

        # at mixing
        self.cells = [
            dough["wild_yeast"] * data("wild_yeast.cell_mass", "gram"),
            dough["bakers_yeast"],
            dough["bacteria"] * data("bacteria.cell_mass", "gram"),
        ]
        lag = dough["lag"] * data("lag.scale", "one")
        self.lags = [lag, data("lag.bakers_yeast", "one"), lag]
        self.starch = data("flour.maltose_pool", "millimole / kilogram") * dough["flour"]
        self.charge = self.acids.charge(dough["ph"], dough["lactate"], dough["acetate"])[0]

    def start(self):
        ln_q = [-math.log(math.expm1(lag)) for lag in self.lags]
        sugars = [self.flour_sugar + self.dough["added_hexose"], self.dough["added_maltose"], self.starch]
        return np.array([0, 0, 0, *ln_q, *sugars, 0, 0, self.dough["carbon_dioxide"], math.log(self.dough["strength"])])

    def bubbles(self, held):
        b = self.air + self.dissolving - held
        return 2 * held * self.air / (b + math.hypot(b, 2 * math.sqrt(held * self.air)))

    def volume(self, held):
        return self.solid + (self.air + self.bubbles(held)) * self.litres_per_gas

    def rise(self, y):
        return self.volume(max(0.0, y[11])) / self.start_volume

    def water(self, t, y):
        """What the organisms meet: concentrations in the water phase."""
        dough, litres = self.dough, self.litres
        used = y[10]
        lactate = dough["lactate"] + used * self.lab["lactate"]
        acetate = dough["acetate"] + used * self.lab["acetate"]
        leached = 1 - math.exp(-self.leaching * t)
        ph = self.acids.ph(self.charge - leached * dough["slow_acid"], lactate, acetate)
        made = self.ethanol_per_gas * y[9] + self.lab["ethanol"] * used
        sulphite = dough["free_sulphite"] * 2 ** (-t / self.sulphite_life)
        return {
            "ph": ph,
            "lactate": lactate,
            "ethanol": (dough["ethanol"] + made * self.molar_mass_ethanol / 1000) / litres,
            "acetic": acetate / litres * (1 - self.acids.ionised("acetic", ph)[0]),
            "sugar": max(0.0, y[6] - self.flour_sugar) * self.molar_mass_hexose / 1000 / litres
            if dough["added_hexose"] + dough["slow_hexose"] > 0
            else 0.0,
            "sulphite": sulphite / litres / (1 + 10 ** (ph - self.sulphite_pk)),
            "sorbate": dough["sorbate"] / litres / (1 + 10 ** (ph - self.sorbic_pk)),
            "hops": dough["iso_alpha_acids"] / litres,
        }

    def alcohol(self, organism, ethanol):
        return half_dose(ethanol, *organism.ethanol) * max(0.0, 1 - (ethanol / organism.end) ** self.end_power)

    def dying(self, alcohol):
        return self.death * max(0.0, 1 - alcohol / self.death_below)

    def most(self, t, water, strength):
        """The largest volume ratio that is held now."""
        low, high = self.gluten_ph
        mild = clipped((water["ph"] - low) / (high - low))
        held = np.interp(water["ethanol"] * self.percent_per_ethanol, *self.held_table)
        rye = np.interp(water["ph"], self.sour_and_mild, [1, self.unsoured]) * math.exp(-self.pentosan_fading * t)
        gluten = strength * (self.floor + (1 - self.floor) * mild) * held
        return 1 + self.rise_above * gluten + self.pentosan_rise * rye

    def slope(self, t, y):
        water = self.water(t, y)
        cells = [start * math.exp(ln) for start, ln in zip(self.cells, y[0:3])]
        awake = [1 / (1 + math.exp(-ln_q)) for ln_q in y[3:6]]
        hexose, maltose = (max(0.0, amount) / self.litres for amount in y[6:8])

        # yeasts: hexose first, then maltose
        by_hexose = hexose / (self.hexose_half + hexose)
        by_maltose = (1 - by_hexose) * maltose / (self.maltose_half + maltose)
        waking, growing, gas = [], [], []  # d ln q/dt = mu of awake cells (Baranyi & Roberts 1994); net growth; CO2
        for i, yeast in enumerate((self.wild, self.bakers)):
            alcohol = self.alcohol(yeast, water["ethanol"])
            eager = yeast.ease(water, alcohol) * (by_hexose + by_maltose)
            mu = yeast.speed * eager
            waking.append(mu)
            growing.append(mu * awake[i] - self.dying(alcohol))
            ungrown = yeast.upkeep + yeast.ungrown * awake[i]
            gas.append((yeast.gas_of_growth * mu * awake[i] + ungrown * eager) * cells[i])

        # bacteria: maltose first, acid making outlives growth
        lab = self.bacteria
        alcohol = self.alcohol(lab, water["ethanol"])
        ease = lab.ease(water, alcohol)
        on_maltose = maltose / (self.bacteria_half + maltose)
        on_hexose = (1 - on_maltose) * hexose / (self.bacteria_half + hexose)
        hungry = lab.speed * ease * cardinal_ph(water["ph"], *lab.ph_range)
        mu = hungry * (on_maltose + on_hexose)
        waking.append(mu)
        growing.append(mu * awake[2] - self.dying(alcohol))
        use = (hungry * awake[2] / lab.cells_per_hexose + lab.upkeep * ease * lab.pace_of_acid(water["ph"])) * cells[2]

        # sugars
        release = self.amylase * y[8] * clipped(
            (water["ph"] - self.amylase_stop) / (self.amylase_full - self.amylase_stop)
        )
        taken_up = use * on_maltose / (1 - self.excreted)
        share = by_maltose / (by_hexose + by_maltose) if by_hexose + by_maltose > 0 else 0.0
        eaten = sum(gas) / self.gas_per_hexose
        d_maltose = release - taken_up - eaten * share
        out_of_fruit = self.leaching * math.exp(-self.leaching * t) * self.dough["slow_hexose"]
        d_hexose = taken_up * self.excreted - use * on_hexose - eaten * (1 - share) + out_of_fruit

        # gas
        used = use * (on_maltose + on_hexose)
        rise = self.rise(y)
        most = self.most(t, water, math.exp(y[12]))
        kept = 1 / (1 + math.exp(min((rise - most) / self.escape_width, 300)))
        leak = self.surface_leak + self.pore_leak * min(rise / most, self.pore_most) ** self.pore_power
        d_held = (sum(gas) + used * self.lab["gas"]) * kept - leak * y[11]

        working = 1 - np.interp(water["ph"], self.protease_ph, [0, 1])
        fade = self.fading + self.fading_by_acid * working
        return np.array(
            [
                *growing,
                *waking,
                d_hexose,
                d_maltose,
                -release,
                sum(gas),
                used,
                d_held,
                -fade,
            ]
        )


def jacobian(slope, t, y):
    """By central differences; every component of y is of order one or more where it matters."""
    steps = 1e-6 * np.maximum(1.0, np.abs(y))
    columns = [(slope(t, y + e) - slope(t, y - e)) / (2 * h) for h, e in zip(steps, np.diag(steps))]
    return np.array(columns).T


def times(case, data):
    dough = Dough(data.replace(case.get("parameters", {})), case["dough"], case["celsius"])

    def passes(ratio):
        def event(_, y):
            return dough.rise(y) - ratio

        event.direction = 1
        return event

    def tops(t, y):
        return dough.slope(t, y)[11]

    tops.direction = -1
    y = dough.start()
    run = solve_ivp(
        dough.slope,
        (0, case["horizon"]),
        y,
        method="Radau",
        rtol=TOLERANCE,
        atol=TOLERANCE,
        jac=lambda t, y: jacobian(dough.slope, t, y),
        max_step=0.5,
        events=[passes(1.2), passes(case["target"]), tops],
    )
    if not run.success:
        raise SystemExit(f"{case['name']}: {run.message}")
    fifth, ready = (found[0] if len(found) else math.nan for found in run.t_events[:2])
    highest = max(zip(map(dough.rise, run.y_events[2]), run.t_events[2]), default=(1, math.nan))
    return fifth, ready, highest[1]


def main():
    cases, directory = sys.argv[1:]
    data = Data(directory)
    for case in tomllib.loads(Path(cases).read_text())["case"]:
        print(case["name"], *(f"{hours:.9f}" for hours in times(case, data)), flush=True)


if __name__ == "__main__":
    main()
