"""How far laws of growth part that fit the same rise so far.

    laws_apart.py CURVES     CURVES: data/evidence/curves_landis2021.csv

Two textbook laws, each fitted to what a tube of dough had risen up to a share of its time, foretell when it will have
risen by four fifths of its highest rise:

    Gompertz   y = A exp(-exp(e m/A (l - t) + 1))          (Zwietering et al. 1990, Appl Environ Microbiol 56:1875; from memory)
    logistic   y = A / (1 + exp(4 m/A (l - t) + 2))        (the same)

their highest rise A known to a factor of exp(0.4), as a baker knows it; a reading is good to 8 px. Were one of the two true and nobody
knew which, ln(hours ahead) would have a standard deviation of half their distance. Prints its median for tubes looked at up to half,
six tenths, three quarters of their time, and how many tubes there were. Tubes that had not risen by a twelfth of their highest rise
by then, or were looked at fewer than four times, tell nothing. Told by the spread of the time, not by its middle: which of
the laws is nearer to the truth is not asked here.
"""

import collections
import csv
import sys

import numpy
from scipy.optimize import least_squares

part_of_top, least_top, noise, top_known = 0.8, 60, 8, 0.4


def gompertz(top, speed, lag, t):
    return top * numpy.exp(-numpy.exp(numpy.clip(numpy.e * speed / top * (lag - t) + 1, -50, 50)))


def logistic(top, speed, lag, t):
    return top / (1 + numpy.exp(numpy.clip(4 * speed / top * (lag - t) + 2, -50, 50)))


def tubes(path):
    of = collections.defaultdict(list)
    with open(path) as file:
        for row in csv.DictReader(line for line in file if not line.startswith("#")):
            if row["starter"] != "blank":
                of[row["tube"]].append((float(row["time_h"]), float(row["rise_px"])))
    return [numpy.array(sorted(rows)).T for rows in of.values() if len(rows) >= 6]


def reached(t, y, aim):
    i = int(numpy.argmax(y >= aim))
    return t[i - 1] + (aim - y[i - 1]) / (y[i] - y[i - 1]) * (t[i] - t[i - 1]) if i > 0 else None


def hours_ahead(law, t, y, top, aim):
    def off(q):
        return numpy.append((law(*numpy.exp(q), t) - y) / noise, (q[0] - numpy.log(top)) / top_known)

    starts = [numpy.log([a * y.max(), 2 * y.max() / t[-1], 0.5 * t[-1]]) for a in (1.2, 4)]
    best = min((least_squares(off, q) for q in starts), key=lambda fit: fit.cost)
    ahead = numpy.linspace(t[-1], 6 * t[-1], 4000)
    rise = law(*numpy.exp(best.x), ahead)
    return max(ahead[numpy.argmax(rise >= aim)] - t[-1], 0.1) if (rise >= aim).any() else None


def main():
    for share in (0.5, 0.6, 0.75):
        apart = []
        for t, y in tubes(sys.argv[1]):
            top = y.max()
            done = reached(t, y, part_of_top * top) if top >= least_top else None
            seen = t <= share * done if done else []
            if sum(seen) < 4 or y[seen].max() < top / 12:
                continue
            by = [hours_ahead(law, t[seen], y[seen], top, part_of_top * top) for law in (gompertz, logistic)]
            if all(by):
                apart.append(abs(numpy.log(by[0] / by[1])) / 2)
        print(share, round(float(numpy.median(apart)), 4), len(apart))


main()
