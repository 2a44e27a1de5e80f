//! From a point to an outline.

use plan_model::{Length, Point};

use crate::kernel::{along, project};
use crate::region::{cross, dot, sides_of, twice_area};
use crate::{Measured, OFF_AXIS_SLACK};

/// How far a point is from an outline, rounded down to the grid, and the nearest point of it. Nothing inside it, or on it.
///
/// Worked in squares of whole steps, so that a distance of exactly so many inches is exactly that, and one that falls
/// short of it by however little is less.
pub(super) fn to_outline(point: Point, outline: &[Point; 4]) -> (Measured, Point) {
    // A line, or a fixture without a size, has no inside.
    let has_inside = twice_area(outline) > 0;
    if has_inside && sides_of(outline).all(|(a, b)| cross(a, b, point) >= 0) {
        return (Measured::exact(Length::ZERO), point);
    }
    let nearest = sides_of(outline).map(|(a, b)| to_segment(point, a, b)).min_by_key(|(squared, _)| *squared);
    let (squared, nearest) = nearest.unwrap_or_default();
    let is_square = sides_of(outline).all(|(a, b)| a.x == b.x || a.y == b.y);
    let value = Length::from_steps(i64::try_from(squared.isqrt()).unwrap_or(i64::MAX));
    let slack = if is_square { Length::ZERO } else { OFF_AXIS_SLACK };
    (Measured { value, slack }, nearest)
}

/// The square of the distance from a segment, rounded down, and the nearest point of it on the grid.
fn to_segment(point: Point, a: Point, b: Point) -> (i128, Point) {
    let squared = |from: Point| dot(from, point, point);
    let (ahead, long) = (dot(a, b, point), dot(a, b, b));
    if ahead <= 0 {
        return (squared(a), a);
    }
    if ahead >= long {
        return (squared(b), b);
    }
    let aside = cross(a, b, point);
    (aside * aside / long, along(a, b, project(a, b, point).0))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::kernel::rectangle;

    #[test]
    fn distances_are_exact_and_rounded_down() {
        let outline = rectangle(Point::inches(10, 20), Point::inches(40, 24));
        let from = |x, y| to_outline(Point::inches(x, y), &outline);
        assert_eq!(from(15, -16), (Measured::exact(Length::inches(36)), Point::inches(15, 20)));
        assert_eq!(from(43, 28), (Measured::exact(Length::inches(5)), Point::inches(40, 24)), "3, 4, 5");
        assert_eq!(from(15, 22).0.value, Length::ZERO);
        assert_eq!(from(40, 24).0.value, Length::ZERO);
        // 16,256 x sqrt 2 = 22,989.455...
        assert_eq!(from(41, 25).0.value, Length::from_steps(22_989));
    }

    #[test]
    fn a_line_and_a_point_have_no_inside() {
        let (a, b) = (Point::inches(0, 0), Point::inches(10, 0));
        assert_eq!(to_outline(Point::inches(15, 0), &[a, b, b, a]).0.value, Length::inches(5));
        assert_eq!(to_outline(Point::inches(3, 4), &[a; 4]).0.value, Length::inches(5));
    }

    #[test]
    fn the_largest_plan_does_not_run_over() {
        let far = Point::new(Length::LARGEST, Length::LARGEST);
        let back = Point::new(-Length::LARGEST, -Length::LARGEST);
        let slanted = [back, Point::new(Length::LARGEST, -Length::LARGEST + Length::INCH), far, back];
        assert!(to_outline(Point::new(-Length::LARGEST, Length::LARGEST), &slanted).0.value > Length::LARGEST);
    }
}
