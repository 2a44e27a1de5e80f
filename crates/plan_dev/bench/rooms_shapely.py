"""Times shapely (GEOS) at deriving rooms from walls: the outside figure that ours is compared with.

usage: rooms_shapely.py WALLS.json

Each round starts from plain numbers, as the program does: it makes the wall rectangles, unites them, and takes the
holes of the union as rooms. Prints one JSON object: the median time of a round, and how many rooms there are.
"""

import json
import statistics
import sys
import time

import shapely

ROUNDS = 300
"""Enough for a steady median; about a second in all."""

WARM_UP_ROUNDS = 30
"""Not counted: caches and allocators settle."""


def rectangle(wall):
    """The least and greatest x and y of a wall parallel to an axis, given by its centre line."""
    (x0, y0), (x1, y1) = wall["from"], wall["to"]
    half = wall["thickness"] / 2
    if y0 == y1:
        return min(x0, x1), y0 - half, max(x0, x1), y0 + half
    if x0 == x1:
        return x0 - half, min(y0, y1), x0 + half, max(y0, y1)
    raise ValueError(f"the wall from {wall['from']} to {wall['to']} is not parallel to an axis")


def rooms(rectangles):
    united = shapely.unary_union([shapely.box(*rectangle) for rectangle in rectangles])
    parts = united.geoms if united.geom_type == "MultiPolygon" else [united]
    return [shapely.Polygon(hole) for part in parts for hole in part.interiors]


def timed(rectangles):
    start = time.perf_counter_ns()
    rooms(rectangles)
    return time.perf_counter_ns() - start


def main(path):
    with open(path, encoding="utf-8") as file:
        rectangles = [rectangle(wall) for wall in json.load(file)]
    for _ in range(WARM_UP_ROUNDS):
        rooms(rectangles)
    median = statistics.median(timed(rectangles) for _ in range(ROUNDS))
    print(json.dumps({"median_ns": median, "rooms": len(rooms(rectangles)), "walls": len(rectangles)}))


if __name__ == "__main__":
    main(sys.argv[1])
