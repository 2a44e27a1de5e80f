use plan_model::{Length, Point};

use crate::Region;

/// A turn of the plan that lays a room's direction along the x axis.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(crate) struct Frame {
    origin: Point,
    /// Cosine and sine of the direction; none for a room that is square to the axes already.
    turn: Option<(f64, f64)>,
}

/// Corners on one face differ by this much at most after a turn, and are laid on one line again: each lies within a step of
/// the true face, at either end, and the direction of a room is as sure as the corners it is taken from.
const SAME_LINE: f64 = 4.0;

impl Frame {
    /// The frame of a direction given in grid steps.
    #[expect(clippy::cast_precision_loss, reason = "exact in f64 below 2^53")]
    pub(crate) fn of_direction(origin: Point, direction: Point) -> Self {
        if direction.x == Length::ZERO || direction.y == Length::ZERO {
            return Self { origin, turn: None };
        }
        let (dx, dy) = (direction.x.steps() as f64, direction.y.steps() as f64);
        let length = dx.hypot(dy);
        Self { origin, turn: Some((dx / length, dy / length)) }
    }

    /// Whether the frame is the plan's own.
    pub(crate) const fn is_square(self) -> bool {
        self.turn.is_none()
    }

    /// A region in this frame; what is square to the frame becomes exactly square to its axes.
    pub(crate) fn enter(self, region: &Region) -> Region {
        let Some((cos, sin)) = self.turn else { return region.clone() };
        let turned = |point: &Point| rotate(*point - self.origin, cos, -sin);
        let mut boundaries: Vec<Vec<[f64; 2]>> =
            region.boundaries().map(|boundary| boundary.iter().map(turned).collect()).collect();
        straighten::<0>(&mut boundaries);
        straighten::<1>(&mut boundaries);
        let mut boundaries =
            boundaries.iter().map(|corners| corners.iter().map(|at| self.origin + nearest(*at)).collect());
        Region { outer: boundaries.next().unwrap_or_default(), holes: boundaries.collect() }
    }

    /// A point of the plan in this frame.
    pub(crate) fn enter_point(self, point: Point) -> Point {
        self.turn.map_or(point, |(cos, sin)| self.origin + nearest(rotate(point - self.origin, cos, -sin)))
    }

    /// A point of this frame on the plan.
    pub(crate) fn leave(self, point: Point) -> Point {
        match self.turn {
            None => point,
            Some((cos, sin)) => self.origin + nearest(rotate(point - self.origin, cos, sin)),
        }
    }
}

/// Lays coordinates that differ by no more than [`SAME_LINE`] on the middle between the least and the greatest of them.
fn straighten<const AXIS: usize>(boundaries: &mut [Vec<[f64; 2]>]) {
    let mut values: Vec<f64> = boundaries.iter().flatten().map(|at| at[AXIS]).collect();
    values.sort_unstable_by(f64::total_cmp);
    let mut lines: Vec<[f64; 2]> = Vec::new();
    for value in values {
        match lines.last_mut() {
            Some([first, last]) if value - *first <= SAME_LINE => *last = value,
            _ => lines.push([value, value]),
        }
    }
    for at in boundaries.iter_mut().flatten() {
        let line =
            lines.partition_point(|[first, _]| *first <= at[AXIS]).checked_sub(1).and_then(|line| lines.get(line));
        if let Some([first, last]) = line {
            at[AXIS] = f64::midpoint(*first, *last);
        }
    }
}

#[expect(clippy::cast_precision_loss, reason = "exact in f64 below 2^53")]
fn rotate(point: Point, cos: f64, sin: f64) -> [f64; 2] {
    let (x, y) = (point.x.steps() as f64, point.y.steps() as f64);
    [x * cos - y * sin, x * sin + y * cos]
}

#[expect(clippy::cast_possible_truncation, reason = "a turn leaves places as near as they were")]
fn nearest([x, y]: [f64; 2]) -> Point {
    Point::new(Length::from_steps(x.round() as i64), Length::from_steps(y.round() as i64))
}
