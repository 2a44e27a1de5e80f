//! Places as seen along the mate line: how far ahead of its start, and how far to its left.

use plan_model::{Length, MateLine, Point};

use crate::OFF_AXIS_SLACK;
use crate::kernel::{along, offset, project};

/// The mate line, walked from its start to its end.
#[derive(Clone, Copy, Debug)]
pub(super) struct MateFrame(pub(super) MateLine);

impl MateFrame {
    /// How long it is.
    pub(super) fn length(self) -> Length {
        self.seen(self.0.to).x
    }

    /// What measures across it or along it may be off by.
    pub(super) fn slack(self) -> Length {
        let is_square = self.0.from.x == self.0.to.x || self.0.from.y == self.0.to.y;
        if is_square { Length::ZERO } else { OFF_AXIS_SLACK }
    }

    /// A place as seen along the line: x ahead, y to the left.
    pub(super) fn seen(self, place: Point) -> Point {
        let (ahead, left) = project(self.0.from, self.0.to, place);
        Point::new(ahead, left)
    }

    /// A shape as seen along the line.
    pub(super) fn shape(self, corners: &[Point]) -> Vec<Point> {
        corners.iter().map(|corner| self.seen(*corner)).collect()
    }

    /// Where on the plan a place is that is seen so.
    pub(super) fn place(self, seen: Point) -> Point {
        offset(along(self.0.from, self.0.to, seen.x), self.0.from, self.0.to, seen.y)
    }
}

/// The part of a convex shape between two lines that run ahead, one low and one high; corners in the order of the shape's.
/// Only the part's ends are of use where it has no width.
pub(super) fn between(shape: &[Point], low: Length, high: Length) -> Vec<Point> {
    let above = cut(shape, |point| point.y - low, low);
    cut(&above, |point| high - point.y, high)
}

/// From where to where a shape reaches ahead; none for no shape.
pub(super) fn reach(shape: &[Point]) -> Option<[Length; 2]> {
    let ahead = || shape.iter().map(|point| point.x);
    Some([ahead().min()?, ahead().max()?])
}

/// The part of a convex shape where `inside` is not negative, which is zero on the line at `level`.
fn cut(shape: &[Point], inside: impl Fn(&Point) -> Length, level: Length) -> Vec<Point> {
    let mut kept = Vec::with_capacity(shape.len() + 1);
    for (a, b) in crate::region::sides_of(shape) {
        let (at_a, at_b) = (inside(&a), inside(&b));
        if at_a >= Length::ZERO {
            kept.push(a);
        }
        if at_a.steps().signum() * at_b.steps().signum() < 0 {
            kept.push(Point::new(crossing(a, b, level), level));
        }
    }
    kept
}

/// Where a side crosses a level, to the nearest step; the ends lie on different sides of it.
pub(super) fn crossing(a: Point, b: Point, level: Length) -> Length {
    // From the lower end, so that a side walked either way is crossed at the same place.
    let (low, high) = if a.y <= b.y { (a, b) } else { (b, a) };
    let rise = i128::from((high.y - low.y).steps());
    if rise == 0 {
        return low.x;
    }
    let run = i128::from((high.x - low.x).steps()) * i128::from((level - low.y).steps());
    let ahead = (2 * run + rise).div_euclid(2 * rise);
    low.x + Length::from_steps(i64::try_from(ahead).unwrap_or_default())
}
