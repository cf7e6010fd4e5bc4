#!/usr/bin/env python3
"""How often the best reader could name the right cause in doughs where one cause acts: a check on src/testbakes, not a part of it.

    verdict_limit.py 'JSON'

of doses (a list for each cause, of each dough), half, doubt (in ln) and power of each cause, sd of ln speed of a dough as it was
mixed, days, named (weight from which a cause is named), runs. The reader sees the speed of every dough without error, knows the law, the prior of every
half-speed dose and how doughs scatter, and weighs all combinations of causes, each to act at one in two, by Bayes; of
heights less can be known. A cause acts by its dose after mixing alone, as in doughs of the rival law. Prints the share of runs with the right cause named, and with a wrong one.
"""

import json
import sys

import numpy as np


def main():
    asked = json.loads(sys.argv[1])
    doses, half, doubt, power = (np.array(asked[of], float) for of in ("doses", "half", "doubt", "power"))
    causes, doughs = doses.shape
    sd = asked["sd"] / np.sqrt(asked["days"])
    random = np.random.default_rng(7)
    # -ln g, g = 1 / (1 + (z / z50)^k), for z50 = half exp(doubt u)
    slower = lambda c, u: np.log1p((doses[c] / (half[c] * np.exp(doubt[c] * u))[:, None]) ** power[c])
    nodes, weight = np.polynomial.hermite_e.hermegauss(31)
    weight /= weight.sum()
    along = [slower(c, nodes) for c in range(causes)]
    centred = lambda a: a - a.mean(-1, keepdims=True)  # a day's own pace is not known

    def chances(seen):
        ln = []
        for acting in range(2**causes):
            middle, ln_weight = np.zeros((1, doughs)), np.zeros(1)
            for c in range(causes):
                if acting >> c & 1:
                    middle = (middle[:, None] + along[c]).reshape(-1, doughs)
                    ln_weight = (ln_weight[:, None] + np.log(weight)).reshape(-1)
            off = ln_weight - 0.5 * ((centred(seen) - centred(middle)) ** 2).sum(1) / sd**2
            ln.append(off.max() + np.log(np.exp(off - off.max()).sum()))
        share = np.exp(np.array(ln) - max(ln))
        share /= share.sum()
        return np.array([sum(share[h] for h in range(2**causes) if h >> c & 1) for c in range(causes)])

    right = wrong = 0
    for run in range(asked["runs"]):
        cause = run % causes
        seen = slower(cause, random.standard_normal(1))[0] + sd * random.standard_normal(doughs)
        named = chances(seen) > asked["named"]
        right += named[cause]
        wrong += named.sum() > named[cause]
    print(right / asked["runs"], wrong / asked["runs"])


main()
