//! The ground of one space: its free floor, with the opening of each of its doorways as far as the middle of the wall.

use std::ops::Range;

use plan_model::{Length, Point};

use crate::asked::{Asked, Question};
use crate::free_floor::FreeFloor;
use crate::kernel::{Edge, Link, Mesh, Vector, along, difference, project};
use crate::region::{sides_of, twice_area};
use crate::{OFF_AXIS_SLACK, Region};

/// How far an opening off the axes is drawn into the room. Its line and the side of the floor that it lies on are each within
/// the slack of the true face: drawn in by less, it could leave a sliver of wall between them.
const DRAWN_IN: Length = Length::from_steps(2 * OFF_AXIS_SLACK.steps());

/// How far the middle of an opening off the axes is drawn into its jambs. The two corners of a jamb are each rounded to the grid
/// twice, its middle three times, by less than three quarters of a step. By less than all of it, the middle could stand
/// out from the line between the corners, where no way turns, and bar the way around them.
const DRAWN_INTO_JAMBS: Length = Length::from_steps(2 * OFF_AXIS_SLACK.steps());

/// By how much fixtures off the axes are grown. What touches there may be apart or overlap by less than a step: grown, it
/// overlaps for good. A fixture square to the axes stays as it is: ways around it are exact, and so are gaps beside it.
const GROWN: Length = OFF_AXIS_SLACK;

/// By how much, 1/80 mm, all fixtures are grown where that leaves no sound floor by chance: a corner of one that is square to
/// the axes may touch a slanted side.
const ALL_GROWN: Length = Length::from_steps(4 * OFF_AXIS_SLACK.steps());

/// The half of a doorway's opening that belongs to the space on one side of the wall.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct Threshold {
    /// On the face of the wall.
    line: [Point; 2],
    /// Along the middle of the wall, where the other half begins.
    middle: [Point; 2],
}

impl Threshold {
    /// Off the axes, jambs lie on faces only to within a step. So that no sliver of wall bars the way or juts into it, the
    /// opening is then drawn into the room, and its middle into its jambs.
    pub(super) fn new(line: [Point; 2], middle: [Point; 2]) -> Self {
        if is_square(line[0], line[1]) {
            return Self { line, middle };
        }
        let [a, b] = middle;
        let inwards = |from: Point, to: Point| along(from, to, project(from, to, to).0 + DRAWN_IN);
        Self {
            line: [inwards(a, line[0]), inwards(b, line[1])],
            middle: [along(a, b, -DRAWN_INTO_JAMBS), along(b, a, -DRAWN_INTO_JAMBS)],
        }
    }

    fn outline(&self) -> [Point; 4] {
        let [a, b] = self.line;
        let [c, d] = self.middle;
        if twice_area(&[a, b, d, c]) > 0 { [a, b, d, c] } else { [a, c, d, b] }
    }

    fn spans(&self, a: Point, b: Point) -> bool {
        self.middle == [a, b] || self.middle == [b, a]
    }

    /// Whether both points lie on the middle line, to within rounding where it is not square to the axes.
    fn has_on_it(&self, points: [Point; 2]) -> bool {
        let [from, to] = self.middle;
        let slack = if is_square(from, to) { Length::ZERO } else { OFF_AXIS_SLACK };
        points.into_iter().all(|point| {
            let (ahead, aside) = project(from, to, point);
            aside.abs() <= slack && ahead >= -slack && ahead <= project(from, to, to).0 + slack
        })
    }
}

pub(super) fn is_square(a: Point, b: Point) -> bool {
    a.x == b.x || a.y == b.y
}

/// What the ground of a space follows from.
#[derive(Debug, PartialEq)]
pub(crate) struct GroundOf {
    pub(super) floor: Asked<FreeFloor>,
    pub(super) thresholds: Vec<Threshold>,
}

impl Question for GroundOf {
    type Answer = Ground;

    fn answer(&self) -> Ground {
        let (mut mesh, is_exact) = self.mesh();
        let portals = open_portals(&mut mesh, &self.thresholds);
        let turns = turns(&mesh, is_exact);
        let mut turns_at = vec![0; mesh.corner_count() + 1];
        for turn in &turns {
            turns_at[turn.corner as usize + 1] += 1;
        }
        for corner in 1..turns_at.len() {
            turns_at[corner] += turns_at[corner - 1];
        }
        Ground { mesh, turns, turns_at, portals }
    }
}

impl GroundOf {
    /// The ground as triangles, and whether its corners that are square to the axes are where they were drawn.
    fn mesh(&self) -> (Mesh, bool) {
        let FreeFloor { region, obstructions } = self.floor.question();
        let mut sides = region.sides();
        if sides.all(|(a, b)| is_square(a, b)) && obstructions.iter().all(|one| is_square_to_axes(&one.outline)) {
            return (self.mesh_over(self.floor.get()), true);
        }
        let slanted = |outline: [Point; 4]| if is_square_to_axes(&outline) { outline } else { grown(outline, GROWN) };
        let mesh = self.mesh_over(&self.floor_around(slanted));
        if mesh.is_sound() {
            return (mesh, true);
        }
        (self.mesh_over(&self.floor_around(|outline| grown(outline, ALL_GROWN))), false)
    }

    fn mesh_over(&self, floor: &[Region]) -> Mesh {
        let openings: Vec<[Point; 4]> = self.thresholds.iter().map(Threshold::outline).collect();
        let floor = floor.iter().flat_map(Region::boundaries).map(Vec::as_slice);
        Mesh::filling(floor.chain(openings.iter().map(<[Point; 4]>::as_slice)))
    }

    /// The floor without what stands on it, each thing drawn otherwise.
    fn floor_around(&self, drawn: impl Fn([Point; 4]) -> [Point; 4]) -> Vec<Region> {
        let FreeFloor { region, obstructions } = self.floor.question();
        let outlines: Vec<[Point; 4]> = obstructions.iter().map(|standing| drawn(standing.outline)).collect();
        difference(region, outlines.iter().map(<[Point; 4]>::as_slice))
    }
}

fn is_square_to_axes(outline: &[Point]) -> bool {
    sides_of(outline).all(|(a, b)| is_square(a, b))
}

/// A rectangle moved out by as much on all sides.
fn grown([a, b, c, d]: [Point; 4], by: Length) -> [Point; 4] {
    let out =
        |before: Point, corner: Point, after: Point| along(corner, before, -by) + (along(corner, after, -by) - corner);
    [out(d, a, b), out(a, b, c), out(b, c, d), out(c, d, a)]
}

/// The ground of a space.
#[derive(Debug)]
pub(crate) struct Ground {
    pub(super) mesh: Mesh,
    /// In the order of the mesh's corners.
    pub(super) turns: Vec<Turn>,
    /// For each corner of the mesh, where its turns start; one more for the end.
    turns_at: Vec<usize>,
    /// For each threshold, the edges on the middle of the wall.
    pub(super) portals: Vec<Vec<Edge>>,
}

impl Ground {
    /// The turns at a corner of the mesh, as a range of [`Self::turns`].
    pub(super) fn turns_at(&self, corner: u32) -> Range<usize> {
        self.turns_at[corner as usize]..self.turns_at[corner as usize + 1]
    }

    #[inline]
    pub(super) fn is_turn(&self, corner: u32) -> bool {
        let corner = corner as usize;
        self.turns_at[corner] < self.turns_at[corner + 1]
    }
}

/// A corner that juts into the ground: the only places where a shortest way turns.
#[derive(Debug)]
pub(super) struct Turn {
    pub(super) corner: u32,
    pub(super) at: Point,
    /// The side that starts at it.
    pub(super) side: Edge,
    pub(super) free: Wedge,
    /// Whether both its sides are square to the axes, and where they were drawn.
    pub(super) is_square: bool,
}

/// The free directions at a corner, from one of them counter-clockwise to another; half a turn or more.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct Wedge {
    pub(super) from: Vector,
    pub(super) to: Vector,
}

impl Wedge {
    /// Ends included.
    pub(super) const fn has(self, direction: Vector) -> bool {
        self.to.cross(direction) <= 0 || direction.cross(self.from) <= 0
    }

    /// Whether a straight line in this direction passes the corner and does not run into what lies behind it: a shortest
    /// way never arrives at a corner or leaves it otherwise.
    pub(super) const fn passes(self, direction: Vector) -> bool {
        self.has(direction) && self.has(direction.reversed())
    }

    pub(super) const fn is_half_turn_or_more(self) -> bool {
        let turn = self.from.cross(self.to);
        turn < 0 || (turn == 0 && self.from.dot(self.to) < 0)
    }

    /// Which of two free directions comes first.
    pub(super) fn order(self, one: Vector, other: Vector) -> std::cmp::Ordering {
        let is_late = |direction: Vector| {
            let turn = self.from.cross(direction);
            turn < 0 || (turn == 0 && self.from.dot(direction) < 0)
        };
        is_late(one).cmp(&is_late(other)).then_with(|| 0.cmp(&one.cross(other)))
    }

    /// The directions that pass, as two arcs of less than half a turn.
    pub(super) const fn passing(self) -> [Wedge; 2] {
        [Wedge { from: self.from, to: self.to.reversed() }, Wedge { from: self.from.reversed(), to: self.to }]
    }
}

/// Opens the outer edges of the mesh that lie on the middle of a wall within an opening.
fn open_portals(mesh: &mut Mesh, thresholds: &[Threshold]) -> Vec<Vec<Edge>> {
    let mut by_end: Vec<(Point, u32)> = Vec::with_capacity(2 * thresholds.len());
    for (at, threshold) in thresholds.iter().enumerate() {
        by_end.extend(threshold.middle.map(|end| (end, at as u32)));
    }
    by_end.sort_unstable();
    let mut portals = vec![Vec::new(); thresholds.len()];
    let outer: Vec<Edge> = mesh.outer_edges().collect();
    for edge in &outer {
        let [a, b] = mesh.ends(*edge);
        let candidates = by_end[by_end.partition_point(|(end, _)| *end < a)..].iter();
        let mut ending = candidates.take_while(|(end, _)| *end == a).map(|(_, threshold)| *threshold);
        if let Some(threshold) = ending.find(|threshold| thresholds[*threshold as usize].spans(a, b)) {
            mesh.open(*edge, threshold);
            portals[threshold as usize].push(*edge);
        }
    }
    // Where openings overlap, or rounding moved an end of the middle line, the edges are not those that were drawn.
    for (at, threshold) in thresholds.iter().enumerate().filter(|(at, _)| portals[*at].is_empty()).collect::<Vec<_>>() {
        for edge in &outer {
            if mesh.link(*edge) == Link::Side && threshold.has_on_it(mesh.ends(*edge)) {
                mesh.open(*edge, at as u32);
                portals[at].push(*edge);
            }
        }
    }
    portals
}

fn turns(mesh: &Mesh, is_exact: bool) -> Vec<Turn> {
    let sides = mesh.outer_edges().filter(|edge| mesh.link(*edge) == Link::Side);
    let turn = |side: Edge| {
        let last = mesh.around(side).last()?.previous();
        let ([at, next], [before, _]) = (mesh.ends(side), mesh.ends(last));
        let free = Wedge { from: Vector::between(at, next), to: Vector::between(at, before) };
        let is_turn = mesh.link(last) == Link::Side && free.from.cross(free.to) < 0;
        let is_square = is_exact && is_square(at, next) && is_square(before, at);
        is_turn.then(|| Turn { corner: mesh.start(side), at, side, free, is_square })
    };
    let mut turns: Vec<Turn> = sides.filter_map(turn).collect();
    turns.sort_by_key(|turn| turn.corner);
    turns
}
