#!/usr/bin/env python3
"""A loaf in an oven once more, by other means: a check on src/oven, not a part of it.

    oven_model.py same    MINUTES  LAYERS radius exponent density water celsius cold gain gain_at slope crust air h
    oven_model.py bakes   DIRECTORY

"same": the equations of docs/model/oven.md (2) by the method of lines on evenly thick layers, the state the heat taken
up, integrated by SciPy's BDF with a banded Jacobian; no drying, no steam. A line a minute: minute core surface loss.

"bakes": three bakes in each of three invented ovens, by the same method with other laws of crust and hot crumb, other doors,
and a probe's noise. SYNTHETIC: nobody baked them.
"""

import sys

import numpy as np
from scipy.integrate import solve_ivp

BOILS, BOUND, OVER, LATENT = 100.0, 0.03, 1.0, 2.257e6
SOLID, LIQUID = 1700.0, 4190.0
STEFAN, EMISSIVITY = 5.670374419e-8, 0.9


class Loaf:
    def __init__(self, layers, radius, exponent, density, water, celsius):
        self.face = np.linspace(0, radius, layers + 1)
        self.middle = 0.5 * (self.face[:-1] + self.face[1:])
        power = exponent + 1
        self.volume = np.diff(self.face**power) / (power * radius**exponent)
        self.area = (self.face[1:] / radius) ** exponent
        self.half = 0.5 * radius / layers
        self.density, self.water = density, water
        self.below = SOLID + water * LIQUID
        self.range = LATENT * (water - BOUND)
        self.start = np.full(layers, self.below * (celsius - BOILS))

    def celsius(self, x):
        over = BOILS + OVER + (x - self.range) / (SOLID + BOUND * LIQUID)
        return np.where(x < 0, BOILS + x / self.below, np.where(x < self.range, BOILS + OVER * x / self.range, over))

    def held(self, x):
        return np.maximum(BOUND, self.water - np.maximum(0, x) / LATENT)

    def loss(self, x):
        """Water out, over the water and dry matter that went in."""
        dry = self.density * self.volume
        return (dry * (self.water - self.held(x))).sum() / (dry.sum() * (1 + self.water))


def surface(t_last, outer, air, walls, h):
    """The temperature at which what comes to the surface goes on into the last layer."""
    low, high = t_last, max(air, walls)
    for _ in range(60):
        t = 0.5 * (low + high)
        came = h * (air - t) + EMISSIVITY * STEFAN * ((walls + 273.15) ** 4 - (t + 273.15) ** 4)
        if came > outer * (t - t_last):
            low = t
        else:
            high = t
    return 0.5 * (low + high)


def run(loaf, minutes, conductivity, air, walls, h):
    def rate(t, x):
        temperature = loaf.celsius(x)
        dry = 1 - (loaf.held(x) - BOUND) / (loaf.water - BOUND)
        k = conductivity(temperature, np.clip(dry, 0, 1))
        between = loaf.area[:-1] / (loaf.half / k[:-1] + loaf.half / k[1:])
        flow = between * (temperature[:-1] - temperature[1:])
        net = np.zeros_like(x)
        net[:-1] -= flow
        net[1:] += flow
        outer = k[-1] / loaf.half
        net[-1] += outer * (surface(temperature[-1], outer, air(t), walls(t), h) - temperature[-1])
        return net / (loaf.density * loaf.volume)

    n = len(loaf.start)
    band = np.tri(n, n, 1) - np.tri(n, n, -2)
    at = np.arange(0, minutes + 0.5) * 60.0
    got = solve_ivp(rate, (0, at[-1]), loaf.start, method="BDF", t_eval=at, rtol=1e-6, atol=1.0, max_step=20,
                    jac_sparsity=band)
    for t, x in zip(got.t, got.y.T):
        temperature = loaf.celsius(x)
        dry = np.clip(1 - (loaf.held(x) - BOUND) / (loaf.water - BOUND), 0, 1)
        outer = conductivity(temperature, dry)[-1] / loaf.half
        yield t / 60, temperature[0], surface(temperature[-1], outer, air(t), walls(t), h), loaf.loss(x)


def crumb_and_crust(cold, gain, gain_at, slope, crust):
    def conductivity(celsius, dry):
        wet = cold + gain / (1 + np.exp(-slope * (np.minimum(celsius, BOILS) - gain_at)))
        return 1 / ((1 - dry) / wet + dry / crust)

    return conductivity


def by_vapour(celsius, dry):
    """A crust that passes more the hotter it is, and a crumb by the slope of the vapour's density."""
    vapour = 0.16 + 0.85 * np.exp(0.042 * (np.minimum(celsius, 100.0) - 90.0))
    crust = 0.10 + 0.0006 * np.maximum(0.0, celsius - 60)
    return 1 / ((1 - dry) / vapour + dry / crust)


def sudden(celsius, dry):
    """A crumb that passes heat on within a few kelvin, where its starch has swollen, and a crust that is always alike."""
    crumb = 0.25 + 0.6 / (1 + np.exp(-0.4 * (np.minimum(celsius, 100.0) - 72.0)))
    return 1 / ((1 - dry) / crumb + dry / 0.16)


def side_by_side(celsius, dry):
    """Purlis and Salvadori's crumb, and a drying layer whose wet and dry parts lie beside each other."""
    crumb = 0.2 + 0.7 / (1 + np.exp(-0.1 * (np.minimum(celsius, 100.0) - 80.0)))
    return (1 - dry) * crumb + dry * 0.22


# Three invented ovens: the law, how much colder the door leaves the air [K], its half-life [s], the same of the walls, which
# hold far more heat, h of the air [W/(m2 K)].
OVENS = {
    "by_vapour": (by_vapour, 28.0, 300.0, 2.0, 900.0, 6.5),
    "sudden": (sudden, 20.0, 200.0, 0.0, 900.0, 5.0),
    "side_by_side": (side_by_side, 40.0, 420.0, 6.0, 1200.0, 8.0),
}
# One bake each to learn from, two to be held out: kilograms, minutes, degrees.
BAKES = {"learned": (0.9, 40, 225.0), "small": (0.6, 32, 240.0), "large": (1.3, 55, 215.0)}


def bakes(directory):
    noise = np.random.default_rng(2026)
    for oven, (law, drop, half, walls_drop, walls_half, h) in OVENS.items():
        for name, (kilograms, minutes, to) in BAKES.items():
            # A round loaf, 0.6 of it gas, 45 % water.
            radius = 0.0528 * (kilograms / 0.9) ** (1 / 3)
            loaf = Loaf(160, radius, 1.155, 242.5, 0.818, 25.0)
            rows = list(run(loaf, minutes, law, lambda t: to - drop * 0.5 ** (t / half), lambda t: to - walls_drop * 0.5 ** (t / walls_half), h))
            with open(f"{directory}/oven_{oven}_{name}_synthetic.csv", "w") as out:
                out.write("# SYNTHETIC: no loaf was baked. tools/oracle/oven_model.py, another law of crust and crumb, a probe's noise of 0.4 K.\n")
                out.write(f"# law {oven}, {kilograms} kg, radius {radius:.4f} m, in at 25 C, oven {to} C, door {drop} K of the air, {walls_drop} K of the walls, h {h} W/(m2 K)\n")
                out.write(f"# weighed: lighter by {100 * rows[-1][3] + noise.normal(0, 0.15):.2f} % of the dough\n")
                out.write("minutes,celsius\n")
                for minute, core, _, _ in rows[::2]:
                    out.write(f"{minute:.0f},{core + noise.normal(0, 0.4):.1f}\n")


if sys.argv[1] == "bakes":
    bakes(sys.argv[2])
else:
    minutes, layers = int(sys.argv[2]), int(sys.argv[3])
    radius, exponent, density, water, celsius, cold, gain, gain_at, slope, crust, air, h = (float(a) for a in sys.argv[4:16])
    loaf = Loaf(layers, radius, exponent, density, water, celsius)
    for row in run(loaf, minutes, crumb_and_crust(cold, gain, gain_at, slope, crust), lambda t: air, lambda t: air, h):
        print(" ".join(f"{v:.6f}" for v in row))
