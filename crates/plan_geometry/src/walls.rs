//! Walls as they stand: swept lines with their joints resolved.
//!
//! A wall that ends on another is drawn into it up to its centre line, so that the two solids share ground and no room
//! leaks through a joint, at any angle. Where two ends form the outside of a corner, both are drawn out to the other's
//! far face, which fills the corner.

use plan_model::elements::{PlacedBy, Wall};
use plan_model::{Id, Length, Point};

use crate::conflict::convex_overlap;
use crate::kernel::{Bounds, Whereabouts, along, meet, offset, project};
use crate::region::{cross, dot};
use crate::{Problem, ProblemKind};

/// A wall as it stands: its corners on the grid, joints resolved.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct WallSolid {
    /// The wall.
    pub id: Id,
    /// Index in the home's list of walls.
    pub index: usize,
    /// Corners, counter-clockwise; extended into the walls that it meets.
    pub outline: [Point; 4],
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
            let near: Vec<usize> =
                whereabouts.touching(bounds[index]).into_iter().filter(|other| *other != index).collect();
            let met = |end: [Point; 2]| -> Vec<WallFaces> {
                near.iter().filter(|other| touches(end, &outlines[**other])).map(|other| faces[*other]).collect()
            };
            let [to_left, to_right] = end_corners(&own, &met([own.left[1], own.right[1]]));
            let backward = own.reversed();
            let [from_right, from_left] = end_corners(&backward, &met([own.left[0], own.right[0]]));
            let outline = [from_right, to_right, to_left, from_left];
            WallSolid { id: wall.id.clone(), index, outline, faces: own }
        })
        .collect()
}

/// How far a wall may end short of another for it to look like a slip: a door jamb or a deliberate opening is wider.
const NEARLY: Length = Length::inches(3);

/// Ends of walls that meet nothing and stop just short of another wall ahead of them.
pub(crate) fn gaps(solids: &[WallSolid]) -> Vec<Problem> {
    let outlines: Vec<[Point; 4]> = solids.iter().map(|solid| solid.faces.outline()).collect();
    let whereabouts = Whereabouts::of(outlines.iter().map(|outline| Bounds::around(outline)));
    let mut gaps = Vec::new();
    for (index, solid) in solids.iter().enumerate() {
        for faces in [solid.faces, solid.faces.reversed()] {
            let ahead = |face: [Point; 2]| along(face[1], face[1] + (face[1] - face[0]), NEARLY);
            let strip = [faces.right[1], ahead(faces.right), ahead(faces.left), faces.left[1]];
            let around = Bounds::around(&strip);
            let near = whereabouts.touching(around);
            let others = || near.iter().copied().filter(|other| *other != index);
            let end = [faces.left[1], faces.right[1]];
            if others().any(|other| touches(end, &outlines[other])) {
                continue;
            }
            let [from, to] = faces.centre_line();
            let distance = |other: &usize| {
                let corners = outlines[*other].iter().map(|corner| project(from, to, *corner).0);
                corners.min().unwrap_or_default() - project(from, to, to).0
            };
            let reached = others().filter(|other| convex_overlap(&strip, &outlines[*other]));
            if let Some(other) = reached.min_by_key(distance) {
                let gap = distance(&other).max(Length::ZERO);
                let kind = ProblemKind::Gap { wall: solid.id.clone(), other: solids[other].id.clone(), gap };
                gaps.push(Problem::at(kind, to));
            }
        }
    }
    gaps
}

/// The left and right corner of a wall's forward end among the walls that it meets there.
fn end_corners(own: &WallFaces, met: &[WallFaces]) -> [Point; 2] {
    let drawn = [own.left[1], own.right[1]];
    // Each wall met here, walked away from this joint if it ends here as well, and whether it does.
    let met: Vec<(WallFaces, bool)> = met.iter().map(|other| away_from(own, other)).collect();
    let mut corners = drawn;
    for (other, ends_here) in &met {
        let reach = if !ends_here {
            centre_of(other)
        } else if outside_of_corner(own, other, &met) {
            far_face(own, other)
        } else {
            centre_of(other)
        };
        let furthest = 3 * own.thickness().max(other.thickness()).steps();
        let reached = [own.left, own.right].map(|[a, b]| {
            let place = reach.and_then(|[c, d]| meet(a, b, c, d))?;
            let beyond = project(a, b, place).0 - project(a, b, b).0;
            (beyond > Length::ZERO && beyond.steps() <= furthest).then_some((place, beyond))
        });
        for (corner, reached, face) in [(0, reached[0], own.left), (1, reached[1], own.right)] {
            if let Some((place, beyond)) = reached
                && beyond > project(face[0], face[1], corners[corner]).0 - project(face[0], face[1], face[1]).0
            {
                corners[corner] = place;
            }
        }
    }
    for (other, _) in &met {
        if parallel(own, other) {
            corners = into_collinear(own, other, corners);
        }
    }
    corners
}

/// The other wall walked away from the forward end of `own`, and whether it ends there too.
fn away_from(own: &WallFaces, other: &WallFaces) -> (WallFaces, bool) {
    let own_outline = own.outline();
    let starts = touches([other.left[0], other.right[0]], &own_outline);
    let ends = touches([other.left[1], other.right[1]], &own_outline);
    match (starts, ends) {
        (false, true) => (other.reversed(), true),
        (starts, _) => (*other, starts),
    }
}

fn centre_of(other: &WallFaces) -> Option<[Point; 2]> {
    Some(other.centre_line())
}

/// The face of `other` that lies further ahead of `own`.
fn far_face(own: &WallFaces, other: &WallFaces) -> Option<[Point; 2]> {
    let [from, to] = own.centre_line();
    let at = |face: [Point; 2]| meet(from, to, face[0], face[1]).map(|place| project(from, to, place).0);
    Some(if at(other.left)? > at(other.right)? { other.left } else { other.right })
}

/// Whether `own` and `other`, both ending here, have the open side of the corner between them: no third wall stands in
/// the angle of more than 180 degrees.
fn outside_of_corner(own: &WallFaces, other: &WallFaces, met: &[(WallFaces, bool)]) -> bool {
    // Directions away from the joint; `own` comes in, so its way out is back along itself.
    let out = |faces: &WallFaces| faces.left[1] - faces.left[0];
    let origin = Point::default();
    let own_out = origin - out(own);
    let turn = |direction: Point| cross(origin, own_out, direction);
    let side = turn(out(other)).signum();
    if side == 0 {
        return false;
    }
    // A wall in the open angle lies on the other side of `own`, or beyond `other`.
    met.iter().filter(|(third, _)| third != other).all(|(third, ends_here)| {
        let directions = if *ends_here { vec![out(third)] } else { vec![out(third), origin - out(third)] };
        directions.into_iter().all(|third| {
            let inside = turn(third).signum() == side && cross(origin, third, out(other)).signum() == side;
            let along_own = turn(third) == 0 && dot(origin, own_out, third) > 0;
            let along_other = cross(origin, third, out(other)) == 0 && dot(origin, third, out(other)) > 0;
            inside || along_own || along_other
        })
    })
}

fn parallel(own: &WallFaces, other: &WallFaces) -> bool {
    let origin = Point::default();
    let (u, v) = (own.left[1] - own.left[0], other.left[1] - other.left[0]);
    let [ahead, aside] = [dot(origin, u, v).abs(), cross(origin, u, v).abs()];
    // Off the axes, parallel walls differ by a step over their length.
    aside * 1_000_000 <= ahead
}

/// Draws a wall that runs on in another into it, so that the two share ground; only as far as it is not the thicker.
fn into_collinear(own: &WallFaces, other: &WallFaces, corners: [Point; 2]) -> [Point; 2] {
    let [from, to] = own.centre_line();
    let across = |point: Point| project(from, to, point).1;
    let (low, high) = (across(own.right[1]), across(own.left[1]));
    let sides = [across(other.left[0]), across(other.right[0])];
    let slack = crate::OFF_AXIS_SLACK;
    let within = low >= sides[0].min(sides[1]) - slack && high <= sides[0].max(sides[1]) + slack;
    let reach = project(from, to, to).0;
    let ends = [0, 1].map(|end| project(from, to, other.left[end]).0);
    let runs_on = ends[0].max(ends[1]) > reach;
    if !within || !runs_on {
        return corners;
    }
    let depth = own.thickness().min(ends[0].max(ends[1]) - reach);
    [own.left, own.right].map(|[a, b]| crate::kernel::along(a, b, project(a, b, b).0 + depth))
}

/// Whether a segment touches a convex quadrilateral, boundary included.
fn touches(segment: [Point; 2], outline: &[Point; 4]) -> bool {
    let [a, b] = segment;
    // Faces off the axes lie within a step of true: ends that were drawn on a face may stand that far off it.
    let near = |p: Point, q: Point, point: Point| {
        let (ahead, left) = project(p, q, point);
        ahead >= -crate::OFF_AXIS_SLACK
            && ahead <= project(p, q, q).0 + crate::OFF_AXIS_SLACK
            && left.abs() <= crate::OFF_AXIS_SLACK
    };
    let square = |p: Point, q: Point| p.x == q.x || p.y == q.y;
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
            || off_axis && (near(p, q, a) || near(p, q, b))
    })
}

/// Whether two segments on one line share a point.
fn overlap(a: Point, b: Point, p: Point, q: Point) -> bool {
    use crate::region::on_segment;
    on_segment(a, p, q) || on_segment(b, p, q) || on_segment(p, a, b)
}
