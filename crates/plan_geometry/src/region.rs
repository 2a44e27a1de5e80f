use plan_model::{Length, Point};

use crate::Area;

/// A connected part of the plan with straight sides: an outer boundary and holes.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Region {
    /// Corners of the outer boundary, counter-clockwise, the first not repeated.
    pub outer: Vec<Point>,
    /// Corners of each hole, clockwise.
    pub holes: Vec<Vec<Point>>,
}

impl Region {
    /// Its exact area.
    #[must_use]
    pub fn area(&self) -> Area {
        let twice: i128 = self.boundaries().map(|boundary| twice_area(boundary)).sum();
        Area::from_square_steps(twice / 2)
    }

    /// Whether the point lies inside or on the boundary.
    #[must_use]
    pub fn contains(&self, point: Point) -> bool {
        self.sides().any(|(a, b)| on_segment(point, a, b)) || self.winds_around(point)
    }

    /// Whether the point lies inside and not on the boundary.
    #[must_use]
    pub fn contains_inside(&self, point: Point) -> bool {
        !self.sides().any(|(a, b)| on_segment(point, a, b)) && self.winds_around(point)
    }

    /// The outer boundary, then the holes.
    pub fn boundaries(&self) -> impl Iterator<Item = &Vec<Point>> + Clone {
        std::iter::once(&self.outer).chain(&self.holes)
    }

    /// The outer boundary, then the holes, for keeps.
    pub(crate) fn into_boundaries(self) -> impl Iterator<Item = Vec<Point>> {
        std::iter::once(self.outer).chain(self.holes)
    }

    /// Every side, with the inside of the region to its left.
    pub fn sides(&self) -> impl Iterator<Item = (Point, Point)> {
        self.boundaries().flat_map(|boundary| sides_of(boundary))
    }

    /// Even-odd rule with a ray to the right.
    fn winds_around(&self, point: Point) -> bool {
        let crossed = self.sides().filter(|(a, b)| {
            if (a.y > point.y) == (b.y > point.y) {
                return false;
            }
            let side = cross(*a, *b, point);
            if b.y > a.y { side > 0 } else { side < 0 }
        });
        crossed.count() % 2 == 1
    }
}

/// The sides of a closed boundary.
pub(crate) fn sides_of(boundary: &[Point]) -> impl Iterator<Item = (Point, Point)> + Clone + '_ {
    let count = boundary.len();
    (0..count).map(move |at| (boundary[at], boundary[if at + 1 < count { at + 1 } else { 0 }]))
}

/// Takes out corners at which the boundary goes straight on.
pub(crate) fn drop_straight_corners(boundary: &mut Vec<Point>) {
    let count = boundary.len();
    let straight = |at: usize| cross(boundary[(at + count - 1) % count], boundary[at], boundary[(at + 1) % count]) == 0;
    let kept: Vec<Point> = (0..count).filter(|at| !straight(*at)).map(|at| boundary[at]).collect();
    *boundary = kept;
}

/// Twice the signed area of a closed boundary, positive when counter-clockwise.
pub(crate) fn twice_area(boundary: &[Point]) -> i128 {
    sides_of(boundary)
        .map(|(a, b)| {
            i128::from(a.x.steps()) * i128::from(b.y.steps()) - i128::from(b.x.steps()) * i128::from(a.y.steps())
        })
        .sum()
}

/// Positive when `c` lies to the left of the line from `a` to `b`, zero when on it.
pub(crate) fn cross(a: Point, b: Point, c: Point) -> i128 {
    let (u, v) = (b - a, c - a);
    i128::from(u.x.steps()) * i128::from(v.y.steps()) - i128::from(u.y.steps()) * i128::from(v.x.steps())
}

/// Positive when `c` lies ahead of `a` in the direction of `b`.
pub(crate) fn dot(a: Point, b: Point, c: Point) -> i128 {
    let (u, v) = (b - a, c - a);
    i128::from(u.x.steps()) * i128::from(v.x.steps()) + i128::from(u.y.steps()) * i128::from(v.y.steps())
}

/// Whether `point` lies on the segment from `a` to `b`, ends included.
pub(crate) fn on_segment(point: Point, a: Point, b: Point) -> bool {
    // Most points are not even within its bounds.
    let between = |p: Length, q: Length, at: Length| p.min(q) <= at && at <= p.max(q);
    between(a.x, b.x, point.x) && between(a.y, b.y, point.y) && cross(a, b, point) == 0
}
