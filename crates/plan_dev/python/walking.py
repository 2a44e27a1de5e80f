"""Works out walking distances of plans a second time, with shapely (GEOS) and networkx, and says where the program differs.

usage: walking.py PLANS.jsonl

Each line of PLANS holds a plan as it was drawn (walls, columns, open boundaries, rooms' points, doors in their walls, what
stands on the floors) and the ways that the program derived from it. Of the program's own geometry nothing is taken: floors
are those that `differential.py` finds between the walls, less the rectangles of what stands on them, with the openings of
doors cut through. The only figures of the program that are used, beside the ways it tells, are how far off each claims to be,
and what a stopped leaf leaves open of its doorway.

A gap under 18 in is closed: from every corner that juts into the ground, to the nearest place of every side that faces it, the
ground is slit. What is left is a shape, and a shortest way in a shape is a shortest path between its corners that see each other.
Prints one JSON object a line, a verdict on each plan.
"""

import json
import math
import sys
from multiprocessing import Pool

import networkx
import numpy as np
import shapely
from shapely.geometry import LineString, MultiPolygon, Point, Polygon

from differential import NEAR, SNAP, STEP, Wall, cut, boundary, parts, spaced

LEAST_GAP = 0.4572
"""18 in: a gap, or a doorway, that is narrower is closed."""

SLIT = 1e-7
"""Half the width of a slit, in metres: a fifteenth of a step, so that the corners of slits lengthen no way by a step."""

GROWN = 1e-8
"""By how much the ground is grown before it is asked what it covers. Corners lie on the grid of SNAP, ten times finer, so
that a line along a side strays from it by less; and slits, ten times wider, stay closed."""

DRAWN_IN = 1e-8
"""By how much an opening is drawn into the floor in front of it, so that the two share ground; over nothing that stands there."""

TOUCHING = 3 * STEP
"""Off the axes things are grown by this. What touches a wall or another thing lies off it by the rounding of both to the
grid and of its direction; in a gap of a step nobody walks, and it would only make corners."""

JUTS = 1e-4
"""Sides that turn by less, in radians, are one side drawn in pieces, and the place between them no corner with gaps."""

ROUNDED = 3 * STEP
"""Between corners on the grid the program is exact and rounds down (1 step). The middle of a door may lie on half steps, and
is rounded twice at both ends of a way (2 steps at the most along it)."""

HANGING = {"wall-cabinet", "rod-and-shelf", "electrical-panel"}
"""What does not stand on the floor."""

BESIDE = 0.0254 / 8
"""How far beside the face of a wall it is looked which room is there."""


class Gaps:
    """From which length on a gap is surely open, and up to which surely closed. Between the two it is not told apart."""

    SQUARE = (LEAST_GAP - STEP, LEAST_GAP - STEP / 1000)
    """Along the axes a gap of exactly 18 in is open; on the slant its root is rounded down to the step."""

    SLANTED = (LEAST_GAP - 16 * STEP, LEAST_GAP - 10 * STEP)
    """The program takes a gap for open that is narrower by up to 8 steps: its ends lie within 2 steps of true, and things
    are grown by 2. Here they are grown by TOUCHING at both ends (6), and what is drawn as 18 in may be short of it by the
    rounding of its ends (2); all this is added up at its worst, and rounded (2)."""


class Door:
    """A door as it was drawn: its opening in its wall, the rooms and spaces beside it, and its middle."""

    def __init__(self, drawn, walls, footprint, rooms, spaces, stopped):
        wall = walls[drawn["wall"]]
        at, width = drawn["at"] * STEP, drawn["width"] * STEP
        left = stopped.get(drawn["id"])
        leaves = width if left is None else left * STEP
        self.name, self.is_open = drawn["id"], min(width, leaves) >= LEAST_GAP - STEP / 1000
        ux, uy = wall.along

        def on(face):
            x, y = face[0]
            return np.array([[x + ux * by, y + uy * by] for by in (at, at + width)])

        faces = self.faces = [on(wall.left), on(wall.right)]
        self.middles = (faces[0] + faces[1]) / 2
        self.at = self.middles.mean(axis=0)
        aside = np.array([-uy, ux])
        self.rooms, self.spaces, is_outdoors, self.reaching = [], [], False, []
        for face, out in zip(faces, (aside, -aside)):
            beside = Point(face.mean(axis=0) + out * BESIDE)
            here = [name for name, region in rooms.items() if region.contains(beside)]
            self.rooms += here
            # A space of which no room is named is told as a problem, and no way leads there.
            self.spaces.append(next((at for at, space in enumerate(spaces) if here and space.contains(beside)), None))
            self.reaching.append(face + out * DRAWN_IN)
            is_outdoors = is_outdoors or not footprint.covers(beside)
        self.is_exterior = is_outdoors and bool(self.rooms)

    def leads_both_ways(self, led_through):
        return all(space in led_through for space in self.spaces)

    def ground(self, led_through, standing):
        """Its opening, from the middle of the wall as far as the spaces that ways lead through."""
        to_faces, beyond = (
            Polygon([*ends[0], *ends[1][::-1]]) for ends in
            ([face if space in led_through else self.middles for face, space in zip(faces, self.spaces)]
             for faces in (self.faces, self.reaching)))
        return [to_faces, shapely.difference(beyond, standing)]


def standing(drawn):
    """The rectangle of a thing, by the middle of its back and the way its front looks."""
    dx, dy = drawn["faces"]
    length = math.hypot(dx, dy)
    ahead, left = np.array([dx, dy]) / length, np.array([-dy, dx]) / length
    width, depth = drawn["size"]
    grown = 0.0 if dx * dy == 0 else TOUCHING
    # On the grid: of an odd width, the left half is the smaller one.
    halves = (width // 2 - width) * STEP - grown, width // 2 * STEP + grown
    at = np.array(drawn["at"]) * STEP
    back, front = -grown, depth * STEP + grown
    return Polygon([at + ahead * forward + left * aside for forward, aside in
                    ((back, halves[0]), (front, halves[0]), (front, halves[1]), (back, halves[1]))])


def rings(shape):
    """The rings of a shape as arrays of corners, with the ground to their left."""
    polygons = shapely.get_parts(shapely.orient_polygons(MultiPolygon(parts(shape))))
    return [np.asarray(ring.coords)[:-1] for polygon in polygons for ring in (polygon.exterior, *polygon.interiors)]


def cross(a, b):
    return a[..., 0] * b[..., 1] - a[..., 1] * b[..., 0]


def unit(vectors):
    return vectors / np.hypot(vectors[..., 0], vectors[..., 1])[..., None]


class Corners:
    """The corners of a shape that jut into it by more than an angle."""

    def __init__(self, shape, angle):
        # Nothing juts into an empty shape: a ring without corners stands for it.
        all_rings = rings(shape) or [np.zeros((0, 2))]
        at = np.concatenate(all_rings)
        self.back = unit(np.concatenate([np.roll(ring, 1, axis=0) for ring in all_rings]) - at)
        self.ahead = unit(np.concatenate([np.roll(ring, -1, axis=0) for ring in all_rings]) - at)
        juts = cross(-self.back, self.ahead) < -math.sin(angle)
        self.at, self.back, self.ahead = at[juts], self.back[juts], self.ahead[juts]
        self.is_square = along_axis(self.back) & along_axis(self.ahead)


def along_axis(directions):
    """Whether directions are those of an axis: a side of a foot strays by the grid of SNAP at the most."""
    return np.abs(directions).min(axis=-1) < 1e-7


def covered(ground, lines):
    shapely.prepare(ground)
    return shapely.covers(ground, lines)


def narrow_places(ground, grown, ending):
    """Lines across all gaps that may be closed, and whether each surely is."""
    if ground.is_empty:
        return np.zeros((0, 2, 2)), np.zeros(0, dtype=bool)
    corners = Corners(ground, JUTS)
    sides = np.concatenate([np.stack([ring, np.roll(ring, -1, axis=0)], axis=1) for ring in rings(ground)])
    if ending:
        # Where the ground ends in the middle of an opening there is no wall.
        ends = shapely.points(sides)
        is_open = shapely.dwithin(ends, shapely.union_all(ending), 2 * GROWN).all(axis=1)
        sides = sides[~is_open]
    start, along = sides[:, 0], sides[:, 1] - sides[:, 0]
    is_square = along_axis(unit(along))
    off = corners.at[:, None, :] - start[None, :, :]
    share = np.clip((off * along).sum(axis=-1) / (along**2).sum(axis=-1), 0.0, 1.0)
    nearest = start + share[..., None] * along
    towards = nearest - corners.at[:, None, :]
    length = np.hypot(towards[..., 0], towards[..., 1])
    both_square = corners.is_square[:, None] & is_square[None, :]
    closed, opened = (np.where(both_square, square, slanted) for square, slanted in zip(Gaps.SQUARE, Gaps.SLANTED))
    # A side that looks away from the corner bounds no gap with it: one that it shares a corner with does, if any.
    faces = cross(along[None, :, :], off) > 0
    near = faces & (length > 2 * GROWN) & (length < opened)
    corner, side = np.nonzero(near)
    direction = towards[near] / length[near][:, None]
    # What lies along a side of the corner is no gap.
    own = [(np.abs(cross(direction, edge[corner])) < 1e-9) & ((direction * edge[corner]).sum(axis=-1) > 0)
           for edge in (corners.back, corners.ahead)]
    ends = np.stack([corners.at[corner], nearest[near]], axis=1)[~(own[0] | own[1])]
    surely = (length < closed)[near][~(own[0] | own[1])]
    inside = covered(grown, shapely.linestrings(ends)) if len(ends) else np.zeros(0, dtype=bool)
    touching = touches(ground)
    return np.concatenate([ends[inside], touching]), np.concatenate([surely[inside], np.ones(len(touching), dtype=bool)])


def touches(ground):
    """Where corners of a shape touch, as lines of no length to speak of: a gap of no width at all."""
    at = np.concatenate(rings(ground))
    points = shapely.points(at)
    one, other = shapely.STRtree(points).query(points, predicate="dwithin", distance=2 * GROWN)
    place = at[one[one < other]]
    return np.stack([place, place + [GROWN, 0.0]], axis=1)


def slits(ends, half):
    """Rectangles along lines, drawn on a little at both ends, so that they reach into what stands there."""
    along = unit(ends[:, 1] - ends[:, 0]) * half
    aside = np.stack([-along[:, 1], along[:, 0]], axis=1)
    start, end = ends[:, 0] - along, ends[:, 1] + along
    return shapely.polygons(np.stack([start - aside, end - aside, end + aside, start + aside], axis=1))


class Ways:
    """The lengths of shortest ways from some places to all others, in metres."""

    def __init__(self, ground, grown, closed, stops):
        free, seen = ground, grown
        if len(closed):
            free = shapely.difference(ground, shapely.union_all(slits(closed, SLIT), grid_size=SNAP), grid_size=SNAP)
            # The ground that is seen over is grown, and so its slits are narrower by as much.
            seen = shapely.difference(grown, shapely.union_all(slits(closed, SLIT - GROWN)))
        corners = Corners(free, 0.0)
        places = np.concatenate([stops, corners.at])
        one, other = np.triu_indices(len(places), 1)
        passes = self.passing(corners, places, len(stops))
        kept = passes[one, other] & passes[other, one]
        one, other = one[kept], other[kept]
        legs = np.stack([places[one], places[other]], axis=1)
        seen_over = covered(seen, shapely.linestrings(legs)) if len(legs) else np.zeros(0, dtype=bool)
        lengths = np.hypot(*(legs[:, 1] - legs[:, 0]).T)
        self.graph = networkx.Graph()
        self.graph.add_nodes_from(range(len(places)))
        self.graph.add_weighted_edges_from(
            (int(a), int(b), float(length)) for a, b, length in
            zip(one[seen_over], other[seen_over], lengths[seen_over]))

    @staticmethod
    def passing(corners, places, stops):
        """Whether a line from one place to another passes the corner where it starts: a way never turns otherwise. It
        leaves out lines that no shortest way takes, and is generous with those along a side."""
        passes = np.ones((len(places), len(places)), dtype=bool)
        if len(corners.at):
            towards = places[None, :, :] - corners.at[:, None, :]
            with np.errstate(invalid="ignore", divide="ignore"):
                towards = unit(towards)
            sides = [cross(towards, edge[:, None, :]) for edge in (corners.back, corners.ahead)]
            between = (sides[0] * sides[1] < 0) & (np.minimum(np.abs(sides[0]), np.abs(sides[1])) > 1e-5)
            passes[stops:] = ~between
        return passes

    def from_stops(self, stops):
        """The length of the way to each node from the nearest of some stops; those that it does not come to are not there."""
        return networkx.multi_source_dijkstra_path_length(self.graph, set(stops)) if stops else {}


class Comparison:
    """What differs in one plan."""

    def __init__(self, plan):
        self.plan, self.differences, self.figures, self.compared = plan, [], {}, 0

    def made(self):
        plan = self.plan
        footprint, spaces = spaced(plan)
        rooms = self.rooms(spaces)
        walls = {wall["id"]: Wall(wall) for wall in plan["walls"]}
        stopped = plan["derived"]["stopped"]
        doors = [Door(door, walls, footprint, rooms, spaces, stopped) for door in plan["doors"]]
        led_through = self.led_through(doors, spaces)
        things = shapely.union_all([standing(thing) for thing in plan["fixtures"] if thing["kind"] not in HANGING])
        floor = shapely.union_all([spaces[space] for space in led_through])
        floor = shapely.difference(floor, things, grid_size=SNAP)
        openings = [ground for door in doors if door.is_open and led_through & {*door.spaces}
                    for ground in door.ground(led_through, things)]
        ground = MultiPolygon(parts(shapely.union_all([floor, *openings], grid_size=SNAP)))
        grown = shapely.buffer(ground, GROWN, join_style="mitre")
        if not (ground.is_valid and grown.is_valid and (ground.is_empty or grown.covers(ground))):
            raise ValueError("the ground is not valid")
        ending = [LineString(door.middles) for door in doors if door.is_open and not door.leads_both_ways(led_through)]
        boundaries = [np.array(line) * STEP for line in plan["boundaries"]]
        stops = np.array([door.at for door in doors] + [line.mean(axis=0) for line in boundaries]).reshape(-1, 2)
        gaps, surely = narrow_places(ground, grown, ending)
        # The more gaps are closed, the longer is a way: where some are not told apart, it lies between the two.
        bounds = [Ways(ground, grown, gaps[surely], stops)]
        bounds.append(bounds[0] if surely.all() else Ways(ground, grown, gaps, stops))
        self.walks(doors, bounds)
        self.ways_out(doors, boundaries, rooms, bounds)
        self.exits(doors)

    def led_through(self, doors, spaces):
        """The spaces that ways lead through. Nobody walks outdoors; and whoever goes to a space with a single doorway has
        arrived in that doorway, so that what stands beyond closes no gap before it. An open boundary is a doorway, too."""
        sides = [space for door in doors if door.is_open for space in door.spaces]
        bounded = [np.mean(line, axis=0) * STEP for line in self.plan["boundaries"]]
        return {at for at, space in enumerate(spaces)
                if sides.count(at) > 1 or any(space.covers(Point(middle)) for middle in bounded)}

    def rooms(self, spaces):
        """The regions of the rooms by their names."""
        lines = [boundary(line) for line in self.plan["boundaries"]]
        regions = [part for space in spaces for part in cut(space, lines)]
        named = {}
        for room in self.plan["rooms"]:
            at = Point(room["at"][0] * STEP, room["at"][1] * STEP)
            named.update((room["id"], region) for region in regions if region.contains(at))
        return named

    def compare(self, what, ours, shortest, longest):
        """Compares a length and what it is off by at most, or that there is none, with one between two bounds."""
        self.compared += 1
        self.figures[what] = None if math.isinf(shortest) else shortest / STEP
        value, slack = (math.inf, 0) if ours is None else ours
        value, slack = value * STEP, slack * STEP + ROUNDED
        if shortest - slack <= value <= longest + slack:
            return
        told = "no way" if ours is None else f"{ours[0]} steps ({ours[1]} off at most)"
        theirs = ["no way" if math.isinf(bound) else f"{bound / STEP:.2f} steps" for bound in (shortest, longest)]
        between = theirs[0] if theirs[0] == theirs[1] else " to ".join(theirs)
        self.differences.append(f"{what}: the program has {told}, networkx {between}")

    def walks(self, doors, bounds):
        index = {door.name: at for at, door in enumerate(doors)}
        lengths = [[way.from_stops([at]) for way in bounds] for at in range(len(doors))]
        told = [*self.plan["derived"]["walks"], *self.plan["derived"]["exits"]]
        for walk in told:
            one, other = (index[name] for name in walk["of"])
            shortest, longest = (length.get(other, math.inf) for length in lengths[one])
            self.compare(" to ".join(walk["of"]), walk["length"], shortest, longest)
        pairs = len(doors) * (len(doors) - 1) // 2
        if len(self.plan["derived"]["walks"]) != pairs:
            self.differences.append(f"{pairs} pairs of doors, but {len(self.plan['derived']['walks'])} are told")

    def ways_out(self, doors, boundaries, rooms, bounds):
        exits = [at for at, door in enumerate(doors) if door.is_exterior]
        from_exits = [way.from_stops(exits) for way in bounds]
        for name, region in rooms.items():
            # Where the program found no such room, that is for the comparison of rooms to tell.
            if name not in self.plan["derived"]["rooms"]:
                continue
            leaving = [at for at, door in enumerate(doors) if name in door.rooms]
            leaving += [len(doors) + at for at, line in enumerate(boundaries)
                        if region.boundary.dwithin(Point(line.mean(axis=0)), NEAR)]
            shortest, longest = (min((lengths.get(at, math.inf) for at in leaving), default=math.inf)
                                 for lengths in from_exits)
            self.compare(f"out of {name}", self.plan["derived"]["ways_out"].get(name), shortest, longest)

    def exits(self, doors):
        """Straight distances between exterior doors; told of up to eight of them."""
        exits = [door for door in doors if door.is_exterior]
        straight = {tuple(pair["of"]): pair["straight"] for pair in self.plan["derived"]["exits"]}
        pairs = [(one, other) for at, one in enumerate(exits) for other in exits[at + 1:]] if len(exits) <= 8 else []
        if len(pairs) != len(straight):
            self.differences.append(f"{len(pairs)} pairs of exterior doors, but {len(straight)} are told")
        for one, other in pairs:
            apart = math.dist(one.at, other.at)
            self.compare(f"{one.name} straight to {other.name}", straight.get((one.name, other.name)), apart, apart)


def verdict(line):
    comparison = Comparison(json.loads(line))
    try:
        comparison.made()
    except (ValueError, shapely.errors.GEOSException) as error:
        comparison.differences.append(f"shapely gives no figures: {error}")
    return json.dumps({
        "differences": comparison.differences,
        "compared": comparison.compared,
        "figures": comparison.figures,
    })


def main(path):
    with open(path, encoding="utf-8") as file, Pool(2) as pool:
        for line in pool.imap(verdict, file, chunksize=5):
            print(line)


if __name__ == "__main__":
    main(sys.argv[1])
