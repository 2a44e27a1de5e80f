//! Walls as they stand: swept lines with their joints resolved.
//!
//! A wall that ends on another is drawn into it up to its centre line, so that the two solids share ground and no room
//! leaks through a joint, at any angle. Where two ends form the outside of a corner, both are drawn out to the other's
//! far face, which fills the corner.

mod gaps;
mod joint;

use plan_model::elements::{PlacedBy, Wall};
use plan_model::{Id, Length, Point};

pub(crate) use self::gaps::gaps;
use crate::kernel::{Bounds, Whereabouts, offset, project};
use crate::region::{cross, dot};

/// A wall as it stands: its corners on the grid, joints resolved.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct WallSolid {
    /// The wall.
    pub id: Id,
    /// Index in the home's list of walls.
    pub index: usize,
    /// Corners, counter-clockwise; extended into the walls that it meets.
    pub outline: [Point; 4],
    /// Ground beside the outline that fills joints with walls at odd angles.
    pub fills: Vec<[Point; 4]>,
    /// The wall without the ground that it shares at joints.
    pub faces: WallFaces,
}

/// The two faces of a wall between the ends that were drawn.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct WallFaces {
    /// The face to the left, walking from the wall's `from` to its `to`.
    pub left: [Point; 2],
    /// The face to the right, in the same sense.
    pub right: [Point; 2],
}

impl WallFaces {
    /// The faces of a wall on the grid.
    #[must_use]
    pub fn of(wall: &Wall) -> Self {
        let half = Length::from_steps(wall.thickness.steps() / 2);
        let (left, right) = match wall.placed_by {
            PlacedBy::Centre => (half, half - wall.thickness),
            PlacedBy::LeftFace => (Length::ZERO, -wall.thickness),
            PlacedBy::RightFace => (wall.thickness, Length::ZERO),
        };
        let face = |at: Length| [offset(wall.from, wall.from, wall.to, at), offset(wall.to, wall.from, wall.to, at)];
        Self { left: face(left), right: face(right) }
    }

    /// Corners, counter-clockwise.
    #[must_use]
    pub const fn outline(&self) -> [Point; 4] {
        [self.right[0], self.right[1], self.left[1], self.left[0]]
    }

    /// The line in the middle between the faces, rounded down to the grid.
    #[must_use]
    pub fn centre_line(&self) -> [Point; 2] {
        let middle = |a: Length, b: Length| Length::from_steps((a.steps() + b.steps()).div_euclid(2));
        [0, 1].map(|end| {
            let (l, r) = (self.left[end], self.right[end]);
            Point::new(middle(l.x, r.x), middle(l.y, r.y))
        })
    }

    /// The faces walked the other way.
    const fn reversed(&self) -> Self {
        Self { left: [self.right[1], self.right[0]], right: [self.left[1], self.left[0]] }
    }

    /// Whether the faces are square to the axes.
    #[must_use]
    pub fn is_square(&self) -> bool {
        self.left[0].x == self.left[1].x || self.left[0].y == self.left[1].y
    }

    fn thickness(&self) -> Length {
        project(self.right[0], self.right[1], self.left[0]).1
    }
}

/// Resolves the joints of all walls of a home.
pub(crate) fn solids(walls: &[Wall]) -> Vec<WallSolid> {
    let faces: Vec<WallFaces> = walls.iter().map(WallFaces::of).collect();
    let outlines: Vec<[Point; 4]> = faces.iter().map(WallFaces::outline).collect();
    let bounds: Vec<Bounds> = outlines.iter().map(|outline| Bounds::around(outline)).collect();
    let whereabouts = Whereabouts::of(bounds.iter().copied());
    walls
        .iter()
        .enumerate()
        .map(|(index, wall)| {
            let own = faces[index];
            let near = whereabouts.touching(bounds[index]);
            let met = |end: [Point; 2], line: [Point; 2]| -> Vec<WallFaces> {
                let here = near.iter().filter(|other| **other != index && touches(end, &outlines[**other]));
                let here = here.filter(|other| !ends_at_the_other_end(line, &walls[**other], &outlines[index]));
                here.map(|other| faces[*other]).collect()
            };
            let to = joint::end(&own, wall.to, &met([own.left[1], own.right[1]], [wall.from, wall.to]));
            let from = joint::end(&own.reversed(), wall.from, &met([own.left[0], own.right[0]], [wall.to, wall.from]));
            let ([to_left, to_right], [from_right, from_left]) = (to.corners, from.corners);
            let outline = [from_right, to_right, to_left, from_left];
            let fills = [to.fills, from.fills].concat();
            WallSolid { id: wall.id.clone(), index, outline, fills, faces: own }
        })
        .collect()
}

/// Whether a wall that touches the forward end of a line ends at the line's start instead: a wall no longer than others are
/// thick is touched along its whole length by what it meets at one of its ends.
fn ends_at_the_other_end([start, end]: [Point; 2], other: &Wall, outline: &[Point; 4]) -> bool {
    let away = |from: Point, to: Point| dot(from, to, to);
    let ends = [other.from, other.to].into_iter().filter(|place| touches([*place, *place], outline));
    ends.min_by_key(|place| away(*place, end)).is_some_and(|place| away(place, start) < away(place, end))
}

/// Whether a segment touches a convex quadrilateral, boundary included.
#[inline]
fn touches(segment: [Point; 2], outline: &[Point; 4]) -> bool {
    let [a, b] = segment;
    if (a.x == b.x || a.y == b.y) && is_upright(outline) {
        return Bounds::of(&segment).touches(Bounds::of(&[outline[0], outline[2]]));
    }
    touches_off_axis(segment, outline)
}

/// The same where one of the two may lie off the axes.
fn touches_off_axis(segment: [Point; 2], outline: &[Point; 4]) -> bool {
    let [a, b] = segment;
    let square = |p: Point, q: Point| p.x == q.x || p.y == q.y;
    // Faces off the axes lie within a step of true: ends that were drawn on a face may stand that far off it.
    let near = |p: Point, q: Point, point: Point| {
        let (ahead, left) = project(p, q, point);
        ahead >= -crate::OFF_AXIS_SLACK
            && ahead <= project(p, q, q).0 + crate::OFF_AXIS_SLACK
            && left.abs() <= crate::OFF_AXIS_SLACK
    };
    if !Bounds::around(&segment).touches(Bounds::around(outline)) {
        return false;
    }
    let sides = || crate::region::sides_of(outline);
    let inside = |point: Point| sides().all(|(p, q)| cross(p, q, point) >= 0);
    if inside(a) || inside(b) {
        return true;
    }
    sides().any(|(p, q)| {
        let crosses = cross(p, q, a).signum() * cross(p, q, b).signum() <= 0
            && cross(a, b, p).signum() * cross(a, b, q).signum() <= 0;
        let off_axis = !square(p, q) || !square(a, b);
        crosses && !(cross(p, q, a) == 0 && cross(p, q, b) == 0 && !overlap(a, b, p, q))
            || off_axis && (near(p, q, a) || near(p, q, b) || near(a, b, p))
    })
}

/// Whether a quadrilateral is a rectangle square to the axes, as most are, with some length and width.
fn is_upright([a, b, c, d]: &[Point; 4]) -> bool {
    let one_way = a.y == b.y && b.x == c.x && c.y == d.y && d.x == a.x;
    let other_way = a.x == b.x && b.y == c.y && c.x == d.x && d.y == a.y;
    (one_way || other_way) && a.x != c.x && a.y != c.y
}

/// Whether two segments on one line share a point.
fn overlap(a: Point, b: Point, p: Point, q: Point) -> bool {
    use crate::region::on_segment;
    on_segment(a, p, q) || on_segment(b, p, q) || on_segment(p, a, b)
}
