//! Points and lines on the grid. Exact along the axes; elsewhere rounded to the nearest step.

use plan_model::{Length, Point};

/// The point at a distance from `from` in the direction of `to`.
pub(crate) fn along(from: Point, to: Point, distance: Length) -> Point {
    match square_unit(from, to) {
        Some([x, y]) => from + Point::new(distance * x, distance * y),
        None => {
            let (ux, uy) = unit(from, to);
            from + scaled(ux, uy, distance)
        }
    }
}

/// `point` moved to the left of the direction from `from` to `to`.
pub(crate) fn offset(point: Point, from: Point, to: Point, left: Length) -> Point {
    match square_unit(from, to) {
        Some([x, y]) => point + Point::new(left * -y, left * x),
        None => {
            let (ux, uy) = unit(from, to);
            point + scaled(-uy, ux, left)
        }
    }
}

/// A direction along one of the axes; most are. Of no length, it is that of the x axis.
fn square_unit(from: Point, to: Point) -> Option<[i64; 2]> {
    if from.y == to.y {
        Some([if to.x >= from.x { 1 } else { -1 }, 0])
    } else if from.x == to.x {
        Some([0, if to.y > from.y { 1 } else { -1 }])
    } else {
        None
    }
}

/// How far ahead of `from` in the direction of `to` a point lies, and how far to the left, to the nearest step.
#[expect(clippy::cast_possible_truncation, clippy::cast_precision_loss, reason = "exact in f64 below 2^53")]
pub(crate) fn project(from: Point, to: Point, point: Point) -> (Length, Length) {
    let delta = point - from;
    if from.y == to.y {
        return if to.x >= from.x { (delta.x, delta.y) } else { (-delta.x, -delta.y) };
    }
    if from.x == to.x {
        return if to.y > from.y { (delta.y, -delta.x) } else { (-delta.y, delta.x) };
    }
    let (ux, uy) = unit(from, to);
    let (dx, dy) = (delta.x.steps() as f64, delta.y.steps() as f64);
    let nearest = |value: f64| Length::from_steps(value.round() as i64);
    (nearest(dx * ux + dy * uy), nearest(dy * ux - dx * uy))
}

/// The four corners, counter-clockwise, of the rectangle between two opposite corners square to the axes.
pub(crate) fn rectangle(a: Point, b: Point) -> [Point; 4] {
    let (left, right) = (a.x.min(b.x), a.x.max(b.x));
    let (low, high) = (a.y.min(b.y), a.y.max(b.y));
    [Point::new(left, low), Point::new(right, low), Point::new(right, high), Point::new(left, high)]
}

/// Where the lines through `a`, `b` and through `c`, `d` meet, to the nearest step; none if they are parallel.
pub(crate) fn meet(a: Point, b: Point, c: Point, d: Point) -> Option<Point> {
    // Most lines are square to the axes, and to each other.
    if a.y == b.y && c.x == d.x && a.x != b.x && c.y != d.y {
        return Some(Point::new(c.x, a.y));
    }
    if a.x == b.x && c.y == d.y && a.y != b.y && c.x != d.x {
        return Some(Point::new(a.x, c.y));
    }
    let (u, v, w) = (b - a, d - c, c - a);
    let wide = |length: Length| i128::from(length.steps());
    let cross = |p: Point, q: Point| wide(p.x) * wide(q.y) - wide(p.y) * wide(q.x);
    let denominator = cross(u, v);
    if denominator == 0 {
        return None;
    }
    let part = cross(w, v);
    let ahead = |step: Length| {
        let doubled = 2 * wide(step) * part;
        let rounded = (doubled * denominator.signum() + denominator.abs()).div_euclid(2 * denominator.abs());
        // Lines that are nearly parallel meet far outside any plan: such a point is of no use.
        i64::try_from(rounded).ok().map(Length::from_steps)
    };
    Some(a + Point::new(ahead(u.x)?, ahead(u.y)?))
}

/// A direction along neither axis.
#[expect(clippy::cast_precision_loss, reason = "exact in f64 below 2^53")]
fn unit(from: Point, to: Point) -> (f64, f64) {
    let delta = to - from;
    let (dx, dy) = (delta.x.steps() as f64, delta.y.steps() as f64);
    let length = dx.hypot(dy);
    (dx / length, dy / length)
}

#[expect(clippy::cast_possible_truncation, clippy::cast_precision_loss, reason = "exact in f64 below 2^53")]
fn scaled(ux: f64, uy: f64, distance: Length) -> Point {
    let steps = distance.steps() as f64;
    Point::new(Length::from_steps((ux * steps).round() as i64), Length::from_steps((uy * steps).round() as i64))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn lines_meet_exactly_on_the_axes_and_to_the_nearest_step_elsewhere() {
        let p = Point::inches;
        assert_eq!(meet(p(0, 5), p(9, 5), p(3, 0), p(3, 1)), Some(p(3, 5)));
        assert_eq!(meet(p(0, 0), p(1, 1), p(10, 0), p(9, 1)), Some(p(5, 5)));
        assert_eq!(meet(p(0, 0), p(1, 0), p(0, 1), p(5, 1)), None);
    }

    #[test]
    fn projections_undo_offsets() {
        let (from, to) = (Point::inches(1, 2), Point::inches(4, 6));
        let point = offset(along(from, to, Length::inches(10)), from, to, Length::inches(-5));
        assert_eq!(project(from, to, point), (Length::inches(10), Length::inches(-5)));
    }
}
