"""Draws work_precision.csv: microseconds a forecast against the error of the time to double, both logarithmic.

    work_precision_chart.py work_precision.csv work_precision.svg
"""

import csv
import math
import sys

WIDTH, HEIGHT, LEFT, BOTTOM, TOP, RIGHT = 860, 520, 70, 60, 30, 210
COLOURS = ["#222222", "#0b6e4f", "#4cb944", "#1d4e89", "#5fa8d3", "#b5651d", "#a4161a", "#e07a5f", "#6a4c93"]


def read(path):
    lines = {}
    with open(path, newline="") as file:
        for row in csv.DictReader(file):
            error = float(row["rms minutes"])
            if error > 0:
                lines.setdefault(row["solver"], []).append((error, float(row["microseconds"])))
    return lines


def decades(values):
    return range(math.floor(math.log10(min(values))), math.ceil(math.log10(max(values))) + 1)


def chart(lines):
    xs = decades([x for line in lines.values() for x, _ in line])
    ys = decades([y for line in lines.values() for _, y in line])

    def place(x, y):
        across = (math.log10(x) - xs[0]) / (xs[-1] - xs[0])
        up = (math.log10(y) - ys[0]) / (ys[-1] - ys[0])
        return LEFT + across * (WIDTH - LEFT - RIGHT), HEIGHT - BOTTOM - up * (HEIGHT - BOTTOM - TOP)

    out = [f'<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 {WIDTH} {HEIGHT}" font-family="sans-serif" font-size="13">']
    for exponent in xs:
        x, bottom = place(10.0**exponent, 10.0 ** ys[0])
        out.append(f'<path d="M{x:.1f} {bottom:.1f}V{TOP}" stroke="#ddd"/>')
        out.append(f'<text x="{x:.1f}" y="{bottom + 20:.1f}" text-anchor="middle">{10.0**exponent:g}</text>')
    for exponent in ys:
        left, y = place(10.0 ** xs[0], 10.0**exponent)
        out.append(f'<path d="M{left:.1f} {y:.1f}H{WIDTH - RIGHT}" stroke="#ddd"/>')
        out.append(f'<text x="{left - 8:.1f}" y="{y + 4:.1f}" text-anchor="end">{10.0**exponent:g}</text>')
    out.append(f'<text x="{LEFT}" y="{HEIGHT - 12}">error of the time to double, root mean square [min]</text>')
    out.append(f'<text x="{LEFT}" y="{TOP - 12}">time for one forecast on one thread [µs]</text>')
    for number, (solver, line) in enumerate(lines.items()):
        colour = COLOURS[number % len(COLOURS)]
        points = [place(x, y) for x, y in line]
        path = " ".join(f"{x:.1f},{y:.1f}" for x, y in points)
        out.append(f'<polyline points="{path}" fill="none" stroke="{colour}" stroke-width="2"/>')
        out.extend(f'<circle cx="{x:.1f}" cy="{y:.1f}" r="3" fill="{colour}"/>' for x, y in points)
        out.append(f'<text x="{WIDTH - RIGHT + 14}" y="{TOP + 20 * number + 10}" fill="{colour}">{solver}</text>')
    return "\n".join(out + ["</svg>", ""])


if __name__ == "__main__":
    with open(sys.argv[2], "w") as file:
        file.write(chart(read(sys.argv[1])))
