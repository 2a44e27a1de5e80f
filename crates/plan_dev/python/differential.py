"""Works out rooms and areas of plans a second time, with shapely (GEOS), and says where the program differs.

usage: differential.py PLANS.jsonl

Each line of PLANS holds a plan as it was drawn (walls, columns, open boundaries, the rooms' points) and what the program
derived from it. Nothing here is taken from the program: walls become rectangles in float metres, joints are filled by
`fills`, rooms are what is left inside the footprint. Prints one JSON object a line, a verdict on each plan.
"""

import json
import math
import sys
from multiprocessing import Pool

import numpy as np
import shapely
from shapely.geometry import LineString, Point, Polygon

STEP = 1 / 640_000
"""The program's grid, in metres."""

SNAP = 1e-9
"""Unions are noded on a grid of a nanometre, a thousandth of a step: float corners that should be one become one."""

LOST = 1e-6
"""A union has all the ground of its parts, to this many square metres of rounding."""

NEAR = 2 * STEP
"""An end that was drawn on a slanted face lies off it by the rounding of both to the grid."""

DRAWN_ON = NEAR / math.sin(math.radians(25))
"""How far along its own line such an end lies off the face: random plans draw nothing that meets at less than 25 degrees."""

FURTHEST = 3
"""A corner is drawn out by this many times the thicker wall's thickness at the most; beyond, it stays square."""

OVERLAP = 0.001
"""What a fill shares with its own wall, in metres, so that the two are one solid."""

EXACT = 1e-3
"""In a room square to the axes the program is exact. Floats are not: they get a thousandth of a step along the edge."""

SLANTED = 1.0
"""Off the axes a face lies within one step of true: an area within one step along the edge."""

UNSURE = 8 * STEP
"""Off the axes a width lies between two faces (2 steps), turned to the room's direction (2 more) where faces on one line
are laid on one line again (3), and rounded (1)."""

QUALIFYING = (1.524, 2.1336)
"""5 ft and 7 ft."""

STANDING = 0.9144
"""36 in."""

PARALLEL = 3 * STEP
"""Sides that are drawn parallel stray from it by less over the length of the shorter; each end lies a step and a half off."""

ASKEW = 8 * STEP
"""Those that stray by more are surely drawn askew, however little. The program allows 4 steps, from ends that are rounded."""


class Wall:
    """A wall as it was drawn: where its faces run, and which way."""

    def __init__(self, drawn):
        (x0, y0), (x1, y1) = ((x * STEP, y * STEP) for x, y in drawn["ends"])
        self.thickness = drawn["thickness"] * STEP
        self.line = (x0, y0), (x1, y1)
        length = math.hypot(x1 - x0, y1 - y0)
        self.along = ((x1 - x0) / length, (y1 - y0) / length)
        # Faces lie on the grid: of an odd thickness, the left face has the smaller half.
        half = drawn["thickness"] // 2 * STEP
        left = {"centre": half, "left": 0.0, "right": self.thickness}[drawn["by"]]
        aside = (-self.along[1], self.along[0])

        def at(x, y, by):
            return x + aside[0] * by, y + aside[1] * by

        self.left = at(x0, y0, left), at(x1, y1, left)
        self.right = at(x0, y0, left - self.thickness), at(x1, y1, left - self.thickness)

    def outline(self):
        return [self.right[0], self.right[1], self.left[1], self.left[0]]

    def end(self, which):
        """The segment that closes the wall at its start (0) or end (1)."""
        return self.left[which], self.right[which]

    def arm(self, which):
        """The wall as seen from one of its ends, walking away from it: direction, left face, right face."""
        if which == 0:
            return Arm(self, self.along, self.left, self.right, self.line[0])
        (x, y), back = self.along, slice(None, None, -1)
        return Arm(self, (-x, -y), self.right[back], self.left[back], self.line[1])


class Arm:
    """A wall as it leaves a joint."""

    def __init__(self, wall, out, left, right, drawn_to):
        self.wall, self.out, self.left, self.right, self.drawn_to = wall, out, left, right, drawn_to
        self.passes = False
        self.middle = tuple(((lx + rx) / 2, (ly + ry) / 2) for (lx, ly), (rx, ry) in zip(left, right))

    def beyond(self, place):
        """How far beyond the end of the wall a place lies."""
        (x, y), (ox, oy) = self.left[0], self.out
        return (x - place[0]) * ox + (y - place[1]) * oy

    def inside(self, place, times=1):
        """A place moved a little into the wall, or out of it."""
        return place[0] + times * OVERLAP * self.out[0], place[1] + times * OVERLAP * self.out[1]

    def shared(self, other):
        """The strip across the end of this wall that another one in line with it has as well, from the left face on."""
        def aside(place):
            return (place[0] - self.left[0][0]) * -self.out[1] + (place[1] - self.left[0][1]) * self.out[0]
        low, high = sorted((aside(other.left[0]), aside(other.right[0])))
        return max(low, -self.wall.thickness), min(high, 0.0)

    def across(self, aside, times):
        """A place on the end of this wall, so far aside of its left face, moved a little into the wall or out of it."""
        (x, y), (ox, oy) = self.inside(self.left[0], times), self.out
        return x - oy * aside, y + ox * aside


def crossing(line, other):
    """Where two lines meet, or None if they are nearly parallel."""
    (ax, ay), (bx, by) = line
    (cx, cy), (dx, dy) = other
    ux, uy, vx, vy = bx - ax, by - ay, dx - cx, dy - cy
    turn = ux * vy - uy * vx
    if abs(turn) <= 1e-5 * math.hypot(ux, uy) * math.hypot(vx, vy):
        return None
    share = ((cx - ax) * vy - (cy - ay) * vx) / turn
    return ax + share * ux, ay + share * uy


def turned(arm, other):
    """The angle from one arm to another, counter-clockwise, in radians from 0 to 2 pi."""
    (ux, uy), (vx, vy) = arm.out, other.out
    return math.atan2(ux * vy - uy * vx, ux * vx + uy * vy) % (2 * math.pi)


def drawn_on(own, face, beside, facing):
    """Where a face meets the next walls around the joint, of which several may run beside each other: the one it meets last."""
    met = []
    for other in beside:
        furthest = FURTHEST * max(own.wall.thickness, other.wall.thickness)
        # Where a wall comes in nearly along one that passes, the middle of that one is too far away though its face is not.
        faces = [getattr(other, facing), other.middle]
        for line in reversed(faces) if other.passes else faces:
            place = crossing(face, line)
            if place is None:
                continue
            beyond = own.beyond(place)
            # A face that is too far out to meet the other's runs into the other, where that one stands.
            is_there = line is not other.middle or other.passes or other.beyond(place) <= 0
            if 0 < beyond <= furthest and is_there:
                met.append((face, place, other, getattr(other, facing)[0]))
                break
    return sorted(met, key=lambda one: own.beyond(one[1]))[-1:]


def starts_in(face, others):
    """Whether a face starts in another wall."""
    return any(Polygon(other.wall.outline()).dwithin(Point(face[0]), NEAR) for other in others)


def straight_on(angle):
    """Whether an arm at this angle runs on in line with the wall."""
    return abs(angle - math.pi) < 1e-4


def fill(own, others):
    """What joins a wall to the others at a joint: its end, drawn on until its faces meet those that face them.

    Each face meets the facing face of the next wall around the joint; the ground between it and the end of the wall's
    line is filled. At a wall that passes, a face is drawn on to the middle of that wall, so that the two share ground.
    """
    around = sorted((turned(own, other), at) for at, other in enumerate(others))
    around = [(angle, at) for angle, at in around if 1e-4 < angle < 2 * math.pi - 1e-4]
    if not around:
        return []
    shapes = []
    middle = own.drawn_to
    across = [others[at] for angle, at in around if not straight_on(angle)]
    met, is_closed = [], True
    for face, (first, _), facing in ((own.left, around[0], "right"), (own.right, around[-1], "left")):
        beside = [others[place] for angle, place in around if abs(angle - first) < 1e-4]
        reached = drawn_on(own, face, beside, facing)
        # A face that is not drawn on may start in a wall, or have come out of it on the far side.
        is_closed = is_closed and (bool(reached) or starts_in(face, across))
        met.extend(reached)
    # The line of a wall may stop before walls that pass: if they close it in, it is led into the first of them.
    ahead = [crossing(own.middle, other.middle) for _, _, other, _ in met if other.passes and is_closed]
    furthest = FURTHEST * own.wall.thickness
    ahead = min((place for place in ahead if place and 0 < own.beyond(place) <= furthest), key=own.beyond, default=None)
    for face, place, other, corner in met:
        shapes.append([own.inside(middle), own.inside(face[0]), face[0], place, middle])
        if ahead is not None and other.passes:
            shapes.append([middle, place, ahead])
        if not other.passes:
            # It shares ground with the other wall as well: shapes that only touch may come apart.
            shapes.append([middle, place, other.inside(other.drawn_to)])
            if other.beyond(place) > 0:
                shapes.append([middle, place, other.inside(corner)])
    for angle, at in around:
        other = others[at]
        low, high = own.shared(other)
        if straight_on(angle) and high - low > NEAR:
            # Pieces of one wall, end to end: they get a little ground in common, where both are.
            shapes.append([own.across(low, 1), own.across(high, 1), own.across(high, -1), own.across(low, -1)])
    return [Polygon(shape) for shape in shapes]


def fills(walls, rectangles):
    """What joins the walls at all their joints."""
    ends = shapely.linestrings([wall.end(which) for wall in walls for which in (0, 1)])
    met = {(int(end) // 2, int(end) % 2, int(other)) for end, other in
           zip(*shapely.STRtree(rectangles).query(ends, predicate="dwithin", distance=NEAR)) if end // 2 != other}
    joints = {}
    for wall, which, other in met:
        own = walls[wall].arm(which)
        here = [end for end in (0, 1) if (other, end, wall) in met]
        if here:
            start = own.middle[0]
            away = min(here, key=lambda end: math.dist(walls[other].arm(end).middle[0], start))
            arms = [walls[other].arm(away)]
        else:
            arms = [walls[other].arm(0), walls[other].arm(1)]
            for arm in arms:
                arm.passes = True
        joints.setdefault((wall, which), []).extend(arms)
    return [shape for (wall, which), others in sorted(joints.items()) for shape in fill(walls[wall].arm(which), others)]


def united(shapes):
    """The union of shapes. GEOS now and then loses a part on one grid; on another it does not."""
    shapes = np.array(shapes)
    for grid in (SNAP, SNAP / 3, SNAP * 3):
        union = shapely.union_all(shapes, grid_size=grid)
        if shapely.area(shapely.difference(shapes, union)).sum() < LOST:
            return union
    raise ValueError("the union of the walls has lost a part")


def parts(shape):
    """The polygons of a shape that are more than slivers."""
    polygons = [part for part in shapely.get_parts(shape) if part.geom_type == "Polygon"]
    return [part for part in polygons if part.area > 2 * STEP * part.length]


def cut(room, lines):
    """The parts of a room between open boundaries."""
    # A line may run through walls as well: it divides where it is open. What ends inside a room divides nothing.
    inside = [line for line in lines if room.intersects(line)]
    if not inside:
        return [room]
    drawn = shapely.union_all([room.boundary, *inside], grid_size=SNAP)
    pieces = shapely.get_parts(shapely.polygonize([*shapely.get_parts(drawn)]))
    return [piece for piece in pieces if room.contains(piece.representative_point()) and piece.area > 2 * STEP * piece.length]


def boundary(drawn):
    """An open boundary; off the axes its ends lie on faces only nearly, so it is drawn on a little."""
    (x0, y0), (x1, y1) = ((x * STEP, y * STEP) for x, y in drawn)
    length = math.hypot(x1 - x0, y1 - y0)
    x, y = (x1 - x0) / length * DRAWN_ON, (y1 - y0) / length * DRAWN_ON
    return LineString([(x0 - x, y0 - y), (x1 + x, y1 + y)])


def spaced(plan):
    """The footprint and the spaces between the walls, columns taken out."""
    walls = [Wall(wall) for wall in plan["walls"]]
    rectangles = [Polygon(wall.outline()) for wall in walls]
    columns = [shapely.box(*(value * STEP for value in np.sort(np.array(column), axis=0).ravel())) for column in plan["columns"]]
    solid = united([*rectangles, *fills(walls, rectangles), *columns])
    if not solid.is_valid:
        raise ValueError("the union of the walls is not valid")
    outer = [Polygon(part.exterior) for part in shapely.get_parts(solid)]
    footprint = shapely.union_all(outer, grid_size=SNAP)
    return footprint, parts(shapely.difference(footprint, solid, grid_size=SNAP))


def enclosed(plan):
    """The footprint and the regions between the walls and the open boundaries."""
    footprint, spaces = spaced(plan)
    lines = [boundary(line) for line in plan["boundaries"]]
    return footprint, [part for space in spaces for part in cut(space, lines)]


def sides(region):
    """The ends of every side, as an array."""
    rings = [np.asarray(ring.coords) for ring in (region.exterior, *region.interiors)]
    return np.concatenate([np.stack([ring[:-1], ring[1:]], axis=1) for ring in rings])


def directions(region):
    """The angles that may be the region's direction: the one with the most side, or those that tie. None if unsure."""
    ends = sides(region)
    delta = ends[:, 1] - ends[:, 0]
    lengths = np.hypot(delta[:, 0], delta[:, 1])
    angles = np.arctan2(delta[:, 1], delta[:, 0]) % (math.pi / 2)
    order = np.argsort(-lengths)
    bundles = []
    for angle, length in zip(angles[order], lengths[order]):
        if length < 0.01:
            continue
        for bundle in bundles:
            apart = abs((angle - bundle[0] + math.pi / 4) % (math.pi / 2) - math.pi / 4)
            if apart * length < PARALLEL:
                bundle[1] += length
                break
            if apart * length < ASKEW:
                return None
        else:
            bundles.append([angle, length])
    most = max(total for _, total in bundles)
    return [angle for angle, total in bundles if most - total < 0.02 * 2 + 40 * STEP]


def swept(ends, low, high):
    """The hulls of a square, reaching from `low` to `high` both ways, that goes along each side."""
    square = np.array([[low, low], [low, high], [high, low], [high, high]])
    corners = (ends[:, :, None, :] + square[None, None, :, :]).reshape(len(ends), 8, 2)
    return shapely.convex_hull(shapely.multipoints(corners))


def places(region, side):
    """Where the lower left corner of a square may stand: an erosion by the square itself."""
    closed = shapely.union_all(swept(sides(region), -side, 0.0), grid_size=SNAP)
    return shapely.difference(region, closed, grid_size=SNAP)


def qualifying(region, side):
    """Area of the largest part that squares of a side cover without leaving the region between."""
    eroded = [part for part in shapely.get_parts(places(region, side)) if part.area > 10 * SNAP * part.length]
    covered = (shapely.union_all([part, *swept(sides(part), 0.0, side)], grid_size=SNAP).area for part in eroded)
    return max(covered, default=0.0)


def measured(region):
    """Area and length of the edge, in steps."""
    return {"square_steps": region.area / STEP**2, "edge_steps": region.length / STEP}


class Comparison:
    """What differs in one plan."""

    def __init__(self, plan):
        self.plan, self.differences, self.figures, self.compared = plan, [], {}, 0

    def differs(self, sentence):
        self.differences.append(sentence)

    def made(self):
        derived = self.plan["derived"]
        footprint, regions = enclosed(self.plan)
        self.figures = {
            "by": f"shapely {shapely.__version__}, GEOS {shapely.geos_version_string}",
            "spaces": len(regions),
            "footprint": measured(footprint),
            "rooms": {},
        }
        found = {}
        for room in self.plan["rooms"]:
            at = Point(room["at"][0] * STEP, room["at"][1] * STEP)
            holding = [region for region in regions if region.contains(at)]
            if len(holding) == 1:
                found[room["id"]] = holding[0]
                self.figures["rooms"][room["id"]] = measured(holding[0])
        count = len(derived["rooms"]) + derived["unnamed"]
        if count != len(regions):
            self.differs(f"the program has {count} spaces, shapely {len(regions)} ({'; '.join(derived['problems'])})")
        for room in self.plan["rooms"]:
            if room["id"] in found and all(other["id"] != room["id"] for other in derived["rooms"]):
                self.differs(f"the program has no {room['id']} ({'; '.join(derived['problems'])})")
        for room in derived["rooms"]:
            if room["id"] in found:
                self.room(room, found[room["id"]])
            else:
                self.differs(f"shapely has no {room['id']}")
        square = all(x0 == x1 or y0 == y1 for (x0, y0), (x1, y1) in (wall["ends"] for wall in self.plan["walls"]))
        self.area("the footprint", derived["footprint"], footprint, square, 1)
        filled = derived["walls"] + sum(room["area"] for room in derived["rooms"])
        # Each area off the axes is rounded down to whole square steps; a slanted open boundary ends on faces only nearly,
        # and puts corners on two of them which lie within a step of the face, between corners that may be far apart.
        allowed = count + 3
        if not square:
            allowed += sum(4 * math.dist(*line) + footprint.length / STEP / 2 for line in self.plan["boundaries"])
        if not derived["unnamed"] and abs(filled - derived["footprint"]) > allowed:
            self.differs(f"rooms and walls differ from the footprint by {filled - derived['footprint']} square steps")

    def area(self, name, ours, theirs, square, times):
        allowed = theirs.length / STEP * (EXACT if square else SLANTED) * times
        off = ours - theirs.area / STEP**2
        if abs(off) > allowed:
            self.differs(f"{name} is off by {off / (theirs.length / STEP):.3f} steps along its edge")

    def room(self, room, region):
        self.compared += 1
        outline = Polygon(room["outline"][0], room["outline"][1:])
        corners = sides(outline)
        square = bool(np.all((corners[:, 0] == corners[:, 1]).any(axis=1)))
        name = room["id"]
        self.area(name, room["area"], region, square, 1)
        metres = shapely.transform(outline, lambda points: points * STEP)
        apart = shapely.symmetric_difference(metres, region, grid_size=SNAP).area / STEP / region.length
        # Sides that stray to both sides add up here, where in the area they cancel out.
        if apart > (2 * EXACT if square else 2 * SLANTED):
            self.differs(f"the outline of {name} is off by {apart:.3f} steps along its edge")
        angles = [0.0] if square else directions(region)
        if angles is None:
            return
        wrong = [self.clear_sizes(room, region, angle, square) for angle in angles]
        if all(wrong):
            self.differs(f"{name}: {'; '.join(wrong[0])}")

    def clear_sizes(self, room, region, angle, square):
        """What differs in one direction."""
        cos, sin = math.cos(angle), math.sin(angle)
        region = shapely.transform(region, lambda points: points @ np.array([[cos, -sin], [sin, cos]]))
        # A square that is exactly as wide as a neck slides through it: half a step, so that there is a place for it.
        wider, narrower = (0.0, STEP / 2) if square else (UNSURE, UNSURE)
        allowed = region.length * (STEP if square else UNSURE)
        wrong = []

        def compare(what, ours, measure, side):
            ours *= STEP**2
            most = measure(region, side - narrower)
            if ours > most + allowed:
                wrong.append(f"{what} is {ours:.6f} m2, more than {most:.6f}")
            elif ours < most - allowed:
                least = measure(region, side + wider)
                # On the axes a room as wide as the square to the step has a place for it, for us as for them.
                if square or ours < least - allowed:
                    wrong.append(f"{what} is {ours:.6f} m2, less than {least:.6f}")

        for side, ours in zip(QUALIFYING, room["qualifying"]):
            compare(f"the qualifying area at {side} m", ours, qualifying, side)
        compare("the area where a square can stand", room["standing"], lambda shape, side: places(shape, side).area, STANDING)
        return wrong


def verdict(line):
    comparison = Comparison(json.loads(line))
    try:
        comparison.made()
    except (ValueError, shapely.errors.GEOSException) as error:
        comparison.differs(f"shapely gives no figures: {error}")
    return json.dumps({
        "differences": comparison.differences,
        "compared": comparison.compared,
        "figures": comparison.figures,
    })


def main(path):
    with open(path, encoding="utf-8") as file, Pool(2) as pool:
        for line in pool.imap(verdict, file, chunksize=10):
            print(line)


if __name__ == "__main__":
    main(sys.argv[1])
