#!/usr/bin/env python3
"""Cuts a road loop out of real terrain and writes it as GPX 1.1.

    python3 make_course.py path/to/jacksboro_fault_dem.npz jacksboro.gpx

Only the standard library is used, no random numbers: the same input gives the same file.
The road is invented; the ground under it is real. See README.md for the origin.
"""
import heapq
import math
import struct
import sys
import zipfile

MAX_GRADE = 0.05  # what a road builder would allow over hills
GRADE_TO_AVOID = 0.04  # ground steeper than this is walked around
POINT_SPACING_M = 20.0
BEND_LENGTH_M = 280.0  # the road is the mean of the path over this, twice
# Corners of the loop as shares of the map's height (from the north) and width.
WAYPOINTS = [(0.30, 0.25), (0.25, 0.60), (0.45, 0.70), (0.65, 0.60), (0.65, 0.30)]
# Moves to neighbours and knight's moves, so that paths need not zigzag.
MOVES = [(a, b) for a in range(-2, 3) for b in range(-2, 3) if math.gcd(a, b) == 1]
METRES_PER_DEGREE = 111132.954  # of latitude at 45 degrees, WGS 84; close enough to draw


def read_array(archive, name):
    """One little-endian array of an .npz file (NumPy format version 1) as a flat list."""
    raw = archive.read(name + ".npy")
    header_length = struct.unpack("<H", raw[8:10])[0]
    body = raw[10 + header_length :]
    kind, size = ("h", 2) if b"<i2" in raw[: 10 + header_length] else ("d", 8)
    return struct.unpack("<%d%s" % (len(body) // size, kind), body)


class Terrain:
    def __init__(self, path):
        with zipfile.ZipFile(path) as archive:
            self.heights = read_array(archive, "elevation")
            bounds = {k: read_array(archive, k)[0] for k in ("xmin", "ymax", "dx", "dy")}
        self.rows, self.columns = 344, 403
        self.west, self.north = bounds["xmin"], bounds["ymax"]
        self.dx, self.dy = bounds["dx"], bounds["dy"]
        middle = math.radians(self.north - 0.5 * self.rows * self.dy)
        self.cell_x_m = self.dx * METRES_PER_DEGREE * math.cos(middle)
        self.cell_y_m = self.dy * METRES_PER_DEGREE

    def height(self, row, column):
        return self.heights[row * self.columns + column]

    def height_between(self, row, column):
        """Height between grid points, linear in both directions."""
        r = min(int(row), self.rows - 2)
        c = min(int(column), self.columns - 2)
        u, v = row - r, column - c
        return (
            (1 - u) * ((1 - v) * self.height(r, c) + v * self.height(r, c + 1))
            + u * ((1 - v) * self.height(r + 1, c) + v * self.height(r + 1, c + 1))
        )

    def distance_m(self, a, b):
        return math.hypot((a[0] - b[0]) * self.cell_y_m, (a[1] - b[1]) * self.cell_x_m)


def find_path(terrain, start, goal):
    """The cheapest way over the grid (Dijkstra 1959); steep ground costs more."""
    best = {start: 0.0}
    before = {}
    queue = [(0.0, start)]
    while queue:
        cost, here = heapq.heappop(queue)
        if here == goal:
            break
        if cost > best[here]:
            continue
        for down, right in MOVES:
            there = (here[0] + down, here[1] + right)
            if not (0 <= there[0] < terrain.rows and 0 <= there[1] < terrain.columns):
                continue
            length = terrain.distance_m(here, there)
            grade = abs(terrain.height(*there) - terrain.height(*here)) / length
            total = cost + length * (1.0 + (grade / GRADE_TO_AVOID) ** 2)
            if total < best.get(there, math.inf):
                best[there] = total
                before[there] = here
                heapq.heappush(queue, (total, there))
    path = [goal]
    while path[-1] != start:
        path.append(before[path[-1]])
    return path[::-1]


def drop_spurs(path):
    """The path without ways that go out and come straight back."""
    kept = []
    for place in path:
        kept.append(place)
        while len(kept) >= 3 and kept[-1] == kept[-3]:
            del kept[-2:]
    return kept


def round_bends(path):
    """Means over neighbours along an evenly spaced path; its ends stay."""
    half = int(BEND_LENGTH_M / POINT_SPACING_M / 2)
    for _ in range(2):
        rounded = []
        for i in range(len(path)):
            reach = min(half, i, len(path) - 1 - i)
            part = path[i - reach : i + reach + 1]
            rounded.append(tuple(sum(p[k] for p in part) / len(part) for k in (0, 1)))
        path = rounded
    return path


def resample(terrain, path, spacing_m):
    """Points of even spacing along the path, with their distances."""
    places = [0.0]
    for a, b in zip(path, path[1:]):
        places.append(places[-1] + terrain.distance_m(a, b))
    count = int(places[-1] / spacing_m)
    points, i = [], 0
    for k in range(count + 1):
        place = k * places[-1] / count
        while i + 2 < len(places) and places[i + 1] < place:
            i += 1
        part = (place - places[i]) / max(places[i + 1] - places[i], 1e-9)
        a, b = path[i], path[i + 1]
        points.append((place, a[0] + part * (b[0] - a[0]), a[1] + part * (b[1] - a[1])))
    return points


def limit_grade(places, heights):
    """Cuts and fills: the mean of the lowest road above and the highest road below the
    ground that are nowhere steeper than MAX_GRADE; so is their mean."""
    above, below = list(heights), list(heights)
    steps = [b - a for a, b in zip(places, places[1:])]
    for order in (range(1, len(heights)), range(len(heights) - 2, -1, -1)):
        for i in order:
            j = i - 1 if order.step > 0 else i + 1
            rise = MAX_GRADE * steps[min(i, j)]
            above[i] = max(above[i], above[j] - rise)
            below[i] = min(below[i], below[j] + rise)
    return [0.5 * (a + b) for a, b in zip(above, below)]


def write_gpx(path, terrain, points, heights):
    with open(path, "w", encoding="utf-8", newline="\n") as out:
        out.write('<?xml version="1.0" encoding="UTF-8"?>\n')
        out.write('<gpx version="1.1" creator="make_course.py" ')
        out.write('xmlns="http://www.topografix.com/GPX/1/1">\n')
        out.write("<trk><name>Quillfern Ridge Loop (invented road, real terrain)</name>\n")
        out.write("<trkseg>\n")
        for (_, row, column), height in zip(points, heights):
            latitude = terrain.north - row * terrain.dy
            longitude = terrain.west + column * terrain.dx
            out.write(
                '<trkpt lat="%.6f" lon="%.6f"><ele>%.1f</ele></trkpt>\n'
                % (latitude, longitude, height)
            )
        out.write("</trkseg></trk></gpx>\n")


def main():
    terrain = Terrain(sys.argv[1])
    corners = [(int(r * terrain.rows), int(c * terrain.columns)) for r, c in WAYPOINTS]
    path = []
    for start, goal in zip(corners, corners[1:] + corners[:1]):
        path += find_path(terrain, start, goal)[:-1]
    path.append(corners[0])
    even = [p[1:] for p in resample(terrain, drop_spurs(path), POINT_SPACING_M)]
    points = resample(terrain, round_bends(even), POINT_SPACING_M)
    ground = [terrain.height_between(row, column) for _, row, column in points]
    heights = limit_grade([p[0] for p in points], ground)
    write_gpx(sys.argv[2], terrain, points, heights)
    rise = sum(max(0.0, b - a) for a, b in zip(heights, heights[1:]))
    print("%d points, %.1f km, %.0f m up" % (len(points), points[-1][0] / 1000, rise))


if __name__ == "__main__":
    main()
