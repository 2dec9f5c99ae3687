#!/usr/bin/env python3
"""Writes the course.gpx of every scenario here: invented roads, in open ocean on purpose.

Each course is a smooth closed or open line with a smooth height over it, sampled as a receiver
would: a point about every 25 m with a metre or so of noise. Only the standard library is needed
and the same files come out every time.
"""

import math
import pathlib
import random

EARTH_M = 6371008.8  # mean radius; good enough to lay out an invented road


def lay_out(shape, laps=1, spacing_m=25.0):
    """Points (east, north) in metres along `shape(t)`, t in [0, 1), evenly spaced per lap."""
    fine = [shape(i / 20000) for i in range(20001)]
    along = [0.0]
    for (x0, y0), (x1, y1) in zip(fine, fine[1:]):
        along.append(along[-1] + math.hypot(x1 - x0, y1 - y0))
    count = round(along[-1] / spacing_m)
    lap, k = [], 0
    for i in range(count + 1):
        want = along[-1] * i / count
        while k + 1 < len(along) - 1 and along[k + 1] < want:
            k += 1
        part = (want - along[k]) / (along[k + 1] - along[k])
        (x0, y0), (x1, y1) = fine[k], fine[k + 1]
        lap.append((x0 + part * (x1 - x0), y0 + part * (y1 - y0), want / along[-1]))
    points = []
    for n in range(laps):
        points += [(x, y, n + t) for x, y, t in lap[(0 if n == 0 else 1):]]
    return points


def write_gpx(path, name, points, height, origin, noise_m=0.8, height_noise_m=0.5, seed=1):
    """Noise is smooth over a few points, as a receiver's is."""
    rng = random.Random(seed)
    lat0, lon0 = origin
    drift = [0.0, 0.0, 0.0]
    rows = []
    for x, y, t in points:
        for i, size in enumerate((noise_m, noise_m, height_noise_m)):
            drift[i] = 0.9 * drift[i] + math.sqrt(1 - 0.81) * rng.gauss(0, size)
        lat = lat0 + math.degrees((y + drift[1]) / EARTH_M)
        lon = lon0 + math.degrees((x + drift[0]) / (EARTH_M * math.cos(math.radians(lat0))))
        rows.append(f'<trkpt lat="{lat:.6f}" lon="{lon:.6f}"><ele>{height(t) + drift[2]:.1f}</ele></trkpt>')
    text = (
        '<?xml version="1.0" encoding="UTF-8"?>\n'
        '<gpx version="1.1" creator="make_courses.py" xmlns="http://www.topografix.com/GPX/1/1">\n'
        f"<trk><name>{name} (invented)</name><trkseg>\n" + "\n".join(rows) + "\n</trkseg></trk></gpx>\n"
    )
    pathlib.Path(path).write_text(text)


def ring(radius_m, wobble):
    """A closed road: a circle with a few waves on its radius; wobble = [(waves, share, phase)]."""

    def shape(t):
        a = 2 * math.pi * t
        r = radius_m * (1 + sum(s * math.sin(n * a + p) for n, s, p in wobble))
        return r * math.cos(a), r * math.sin(a)

    return shape


def block(half_m, sharpness):
    """A closed road round four streets: a square with rounded corners, a little longer than wide."""

    def shape(t):
        a = 2 * math.pi * t
        c, s = math.cos(a), math.sin(a)
        r = half_m / (abs(c) ** sharpness + abs(s) ** sharpness) ** (1 / sharpness)
        return 1.08 * r * c, 0.92 * r * s

    return shape


def waves(terms, base=100.0):
    """Height over the lap: terms = [(waves per lap, height m, phase)]; repeats every lap."""
    return lambda t: base + sum(h * math.sin(2 * math.pi * n * t + p) for n, h, p in terms)


def lakeside(folder):
    shape = ring(6900.0, [(2, 0.10, 0.3), (3, 0.05, 1.1), (7, 0.012, 2.0), (13, 0.004, 0.7)])
    height = waves([(1, 21, 0.4), (2, 19, 1.9), (5, 12, 0.2), (9, 7, 2.5), (17, 2.6, 1.0)], 75.0)
    write_gpx(folder / "course.gpx", "Three Herons Middle", lay_out(shape, laps=2), height, (44.0, -31.0), seed=11)


def hills(folder):
    shape = ring(17900.0, [(2, 0.12, 0.8), (5, 0.05, 1.7), (11, 0.02, 0.4), (29, 0.006, 2.1), (61, 0.002, 0.3)])
    height = waves([(2, 170, 0.6), (3, 150, 1.4), (7, 75, 0.1), (13, 30, 2.2), (31, 6, 0.9)], 560.0)
    write_gpx(folder / "course.gpx", "Nine Ridges Long", lay_out(shape, laps=1, spacing_m=28.0), height, (46.0, -33.0), seed=12)


def wet_laps(folder):
    shape = block(1330.0, 12)
    height = waves([(1, 7, 0.9), (2, 6, 2.2), (4, 3, 0.5)], 25.0)
    write_gpx(folder / "course.gpx", "Millrace Four Laps", lay_out(shape, laps=4, spacing_m=15.0), height, (48.0, -29.0), seed=13)


def crosswind(folder):
    """Point to point: over a flat coast road, up to a plateau, and a long way down."""

    def shape(t):
        return 61000.0 * t, 4200.0 * math.sin(2.6 * t + 0.4) + 700.0 * math.sin(19 * t) + 120.0 * math.sin(83 * t)

    corners = [(0.0, 20.0), (0.34, 34.0), (0.58, 640.0), (0.70, 655.0), (0.93, 70.0), (1.0, 45.0)]

    def height(t):
        t = min(t, 1.0)
        for (t0, h0), (t1, h1) in zip(corners, corners[1:]):
            if t <= t1:
                part = (t - t0) / (t1 - t0)
                return h0 + (h1 - h0) * (3 * part**2 - 2 * part**3) + 3.0 * math.sin(240 * t)
        return corners[-1][1]

    write_gpx(folder / "course.gpx", "Gull Point to Point", lay_out(shape), height, (52.0, -27.0), seed=14)


if __name__ == "__main__":
    here = pathlib.Path(__file__).parent
    lakeside(here / "lakeside")
    hills(here / "hills")
    wet_laps(here / "wet-laps")
    crosswind(here / "crosswind")
