#!/usr/bin/env python3
"""The bare ride in NumPy: the same start guess, one Halley step, the same exit speed,
for many race days at once. Reads road.csv and days.csv of FOLDER, rides every width that
it is given and prints, for the fastest one, "WIDTH SECONDS" (CPU time for all days);
writes the finish times to times.csv.

Usage: numpy_ride.py FOLDER WIDTH...
"""
import sys
import time

import numpy as np

WALKING_M_S = 0.75
AIR_SPEED_FLOOR_SQ = 1e-9


def read_table(path):
    table = np.genfromtxt(path, delimiter=",", names=True)
    return {name: np.ascontiguousarray(table[name]) for name in table.dtype.names}


def ride(road, guess, days):
    """Finish times of these days; one array operation per arithmetic operation."""
    v, t = days["speed"].copy(), days["time"].copy()
    wind_sq = days["wind_x"] ** 2 + days["wind_y"] ** 2
    rolling = [days[f"rolling{c}"] for c in range(4)]
    power, drag0, weight = days["power"], days["drag"], days["weight"]
    b0, b1, cap_ratio = days["bearing0"], days["bearing1"], days["cap_ratio"]
    for q, p in zip(road, guess):
        wt = days["wind_x"] * q["head_x"] + days["wind_y"] * q["head_y"]
        u = v * (v * p["cvv"] + p["cv"]) + (power * p["cp"] + (wt * p["cw"] + p["c0"]))
        u = np.maximum(u, 0.5 * v)
        w = u + wt
        x = u * (w + wt) + (q["shelter_sq"] * wind_sq + AIR_SPEED_FLOOR_SQ)
        s = np.sqrt(x)
        drag = drag0 * q["air_ratio"]
        force = weight * q["sin_slope"] + (rolling[q["surface"]] * q["cos_slope"] + b0)
        pushed = power * np.maximum(q["pace"] + q["wind_pace"] * wt, 0.0)
        a = (u - v) * q["inv_length"] + b1
        h = u * a + (drag * (w * s) + force)
        g = s * (u * h - pushed)
        y = s * (u * q["inv_length"] + a) + drag * (w * w + x)
        g1 = u * y + s * h
        u = u - g * g1 / (g1 * g1 - g * ((u * s) * (drag + q["inv_length"]) + y))
        free = np.maximum(u + u - v, WALKING_M_S)
        v1 = np.minimum(free, np.minimum(cap_ratio * q["cap_m_s"], q["limit_m_s"]))
        t += q["twice_length"] / (v + v1)
        v = v1
    return t


def list_rows(table):
    """Plain Python numbers: looking an array element up would cost NumPy time."""
    rows = [dict(zip(table, row)) for row in zip(*(c.tolist() for c in table.values()))]
    for row in rows:
        if "surface" in row:
            row["surface"] = int(row["surface"])
    return rows


def main():
    folder, widths = sys.argv[1], [int(word) for word in sys.argv[2:]]
    road = list_rows(read_table(f"{folder}/road.csv"))
    days = read_table(f"{folder}/days.csv")
    count = len(days["speed"])
    best = None
    for width in widths:
        pieces = [
            {name: days[name][i : i + width].copy() for name in days}
            for i in range(0, count, width)
        ]
        start = time.process_time()
        times = [ride(road, road, piece) for piece in pieces]
        spent = time.process_time() - start
        if best is None or spent < best[0]:
            best = (spent, width, np.concatenate(times))
    np.savetxt(f"{folder}/times.csv", best[2], fmt="%.17g")
    print(best[1], best[0])


main()
