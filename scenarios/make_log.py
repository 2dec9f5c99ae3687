#!/usr/bin/env python3
"""Writes scenarios/lakeside/rides.csv, an invented log of 9,000 km.

Rider, rides and flats are fictional. Distances are drawn with a fixed seed; the days with
flats are chosen by hand, so that the log holds what many logs do: few flats, two of them
on one wet day, one in a race, and one inner that was never ridden.
"""
import csv
import datetime
import pathlib
import random

FLATS = {  # ride number: (flats, repair_min, note)
    21: (1, "9.5", "glass, rear"),
    58: (2, "12 + 8", "flint twice in the rain"),
    97: (1, "7", "thorn, front"),
    118: (1, "14", "cold hands"),
    141: (1, "", "waited for a lift"),
    152: (1, "8", "slow leak, rear"),
}
RACES = {40: 40.2, 63: 88.3, 134: 40.2, 152: 90.1}


def main():
    random.seed(9000)
    day = datetime.date(2025, 3, 8)
    rows, km = [], 0.0
    while km < 9000:
        number = len(rows) + 1
        race = number in RACES
        distance = RACES.get(number) or round(random.triangular(22, 105, 45), 1)
        inner = "latex" if number > 60 and number % 5 < 2 else "butyl"
        wet = number == 58 or random.random() < 0.12
        flats, repair, note = FLATS.get(number, (0, "", ""))
        if number == 1:
            note = "invented example"
        surface = "coarse" if number % 9 == 4 else "ordinary"
        rows.append([day.isoformat(), distance, flats, inner, "race 28 mm", surface,
                     "yes" if wet else "no", "race" if race else "training", repair, note])
        km += distance
        day += datetime.timedelta(days=random.choice([1, 2, 2, 3, 3, 4]))
    path = pathlib.Path(__file__).parent / "lakeside" / "rides.csv"
    with path.open("w", newline="") as file:
        writer = csv.writer(file)
        writer.writerow(["date", "distance_km", "flats", "inner", "tyre", "surface", "wet",
                         "kind", "repair_min", "note"])
        writer.writerows(rows)


if __name__ == "__main__":
    main()
