//! Places along a wall and beside it, in whole grid steps.

use plan_model::elements::{PlacedBy, Wall};
use plan_model::{Length, Point};

/// How far places on lines off the axes may be from true, in grid steps: each is rounded to the grid by half a step, and
/// two of them are compared.
const OFF_AXIS_SLACK: i64 = plan_geometry::OFF_AXIS_SLACK.steps();

/// A directed line between two different points.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Line {
    from: Point,
    ahead: Point,
}

/// A place as seen from a [`Line`], in grid steps; rounded to them off the axes.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) struct Place {
    /// From the line's start in its direction.
    pub(crate) along: i64,
    /// To its left.
    pub(crate) left: i64,
}

impl Line {
    pub(crate) fn new(from: Point, to: Point) -> Self {
        Self { from, ahead: to - from }
    }

    pub(crate) fn is_square_to_axes(&self) -> bool {
        self.ahead.x == Length::ZERO || self.ahead.y == Length::ZERO
    }

    /// What measures against this line may be off by, in grid steps.
    pub(crate) fn slack(&self) -> i64 {
        if self.is_square_to_axes() { 0 } else { OFF_AXIS_SLACK }
    }

    /// Whether the line from `from` to `to` is parallel to this one.
    pub(crate) fn is_parallel_to(&self, from: Point, to: Point) -> bool {
        let slack = self.slack().max(Self::new(from, to).slack());
        (self.place(from).left - self.place(to).left).abs() <= slack
    }

    /// Whether the line from `from` to `to` is square to this one.
    pub(crate) fn is_square_to(&self, from: Point, to: Point) -> bool {
        let slack = self.slack().max(Self::new(from, to).slack());
        (self.place(from).along - self.place(to).along).abs() <= slack
    }

    /// Its left normal, as long as the line.
    pub(crate) fn normal(&self) -> Point {
        Point::new(-self.ahead.y, self.ahead.x)
    }

    pub(crate) fn length(&self) -> i64 {
        self.place(self.from + self.ahead).along
    }

    pub(crate) fn place(&self, point: Point) -> Place {
        let to = point - self.from;
        let (x, y) = (to.x.steps(), to.y.steps());
        let (ahead_x, ahead_y) = (self.ahead.x.steps(), self.ahead.y.steps());
        // Walls square to the axes are exact, and nearly all there are: they do not pay for the root.
        match (ahead_x, ahead_y) {
            (_, 0) => Place { along: x * ahead_x.signum(), left: y * ahead_x.signum() },
            (0, _) => Place { along: y * ahead_y.signum(), left: -x * ahead_y.signum() },
            _ => {
                let square = dot(self.ahead, self.ahead);
                Place { along: over_root(dot(self.ahead, to), square), left: over_root(dot(self.normal(), to), square) }
            }
        }
    }

    /// The step on the grid that leads `left` to the left, square to the line. That of `-left` is its exact opposite.
    pub(crate) fn aside(&self, left: i64) -> Point {
        let normal = self.normal();
        let (x, y) = (normal.x.steps(), normal.y.steps());
        let part = |part: i64| -> i64 {
            if self.is_square_to_axes() {
                return part.signum() * left;
            }
            over_root(i128::from(part) * i128::from(left), dot(normal, normal))
        };
        Point::new(Length::from_steps(part(x)), Length::from_steps(part(y)))
    }
}

/// A wall's two faces, as distances to the left of the line that places it, in grid steps.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Faces {
    pub(crate) left: i64,
    pub(crate) right: i64,
}

impl Faces {
    pub(crate) fn of(wall: &Wall) -> Self {
        let thickness = wall.thickness.steps();
        let left = match wall.placed_by {
            PlacedBy::Centre => thickness / 2,
            PlacedBy::LeftFace => 0,
            PlacedBy::RightFace => thickness,
        };
        Self { left, right: left - thickness }
    }
}

pub(crate) fn dot(a: Point, b: Point) -> i128 {
    i128::from(a.x.steps()) * i128::from(b.x.steps()) + i128::from(a.y.steps()) * i128::from(b.y.steps())
}

/// The whole number nearest to `numerator / denominator`, halves away from zero.
pub(crate) fn nearest_quotient(numerator: i128, denominator: i128) -> i64 {
    let size = (2 * numerator.abs() + denominator.abs()) / (2 * denominator.abs());
    saturated(size * numerator.signum() * denominator.signum())
}

/// The whole number nearest to `numerator / sqrt(square)`, halves away from zero: an odd function of the numerator.
///
/// Coordinates are at most 200 m, so that a numerator stays below 2^63 and its square in range.
fn over_root(numerator: i128, square: i128) -> i64 {
    let twice = (4 * numerator * numerator / square).isqrt();
    saturated((twice + 1) / 2 * numerator.signum())
}

fn saturated(steps: i128) -> i64 {
    // Far outside any plan either way; what follows refuses it as too far.
    i64::try_from(steps).unwrap_or(if steps < 0 { i64::MIN / 4 } else { i64::MAX / 4 })
}

#[cfg(test)]
mod tests {
    use super::*;

    fn steps(x: i64, y: i64) -> Point {
        Point::new(Length::from_steps(x), Length::from_steps(y))
    }

    #[test]
    fn places_are_exact_along_the_axes() {
        let up = Line::new(steps(10, 10), steps(10, 110));
        assert_eq!(up.place(steps(7, 40)), Place { along: 30, left: 3 });
        let back = Line::new(steps(10, 10), steps(-90, 10));
        assert_eq!(back.place(steps(0, 4)), Place { along: 10, left: 6 });
        assert_eq!(back.aside(6), steps(0, -6));
    }

    #[test]
    fn places_off_the_axes_are_rounded() {
        let line = Line::new(steps(0, 0), steps(300, 400));
        assert_eq!(line.length(), 500);
        assert_eq!(line.aside(5), steps(-4, 3));
        assert_eq!(line.aside(-7), steps(6, -4), "5.6 and 4.2");
        assert_eq!(line.place(steps(1, 0)), Place { along: 1, left: -1 }, "0.6 and 0.8");
    }

    #[test]
    fn roots_round_to_nearest() {
        for numerator in -60..60_i128 {
            for square in 1..40_i128 {
                #[expect(clippy::cast_precision_loss, reason = "small numbers")]
                let (above, below) = (numerator as f64, square as f64);
                #[expect(clippy::cast_possible_truncation, reason = "small numbers")]
                let expected = (above / below.sqrt()).round() as i64;
                assert_eq!(over_root(numerator, square), expected, "{numerator} over the root of {square}");
            }
        }
    }
}
