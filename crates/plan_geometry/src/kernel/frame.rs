use plan_model::{Length, Point};

use crate::Region;

/// A turn of the plan that lays a room's direction along the x axis.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(crate) struct Frame {
    origin: Point,
    /// Cosine and sine of the direction; none for a room that is square to the axes already.
    turn: Option<(f64, f64)>,
}

/// Faces that were parallel before a turn differ by this much at most after it, and are laid on one line again.
const SAME_LINE: Length = Length::from_steps(3);

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
        let mut turned = Region {
            outer: region.outer.iter().map(|p| self.origin + rotate(*p - self.origin, cos, -sin)).collect(),
            holes: region
                .holes
                .iter()
                .map(|hole| hole.iter().map(|p| self.origin + rotate(*p - self.origin, cos, -sin)).collect())
                .collect(),
        };
        snap(&mut turned, |point| &mut point.x);
        snap(&mut turned, |point| &mut point.y);
        turned
    }

    /// A point of the plan in this frame.
    pub(crate) fn enter_point(self, point: Point) -> Point {
        self.turn.map_or(point, |(cos, sin)| self.origin + rotate(point - self.origin, cos, -sin))
    }

    /// A point of this frame on the plan.
    pub(crate) fn leave(self, point: Point) -> Point {
        match self.turn {
            None => point,
            Some((cos, sin)) => self.origin + rotate(point - self.origin, cos, sin),
        }
    }
}

/// Lays coordinates that differ by no more than [`SAME_LINE`] on the lowest of them.
fn snap(region: &mut Region, coordinate: fn(&mut Point) -> &mut Length) {
    let points = || std::iter::once(&region.outer).chain(&region.holes).flatten();
    let mut values: Vec<Length> = points().map(|point| *coordinate(&mut point.clone())).collect();
    values.sort_unstable();
    values.dedup_by(|later, earlier| *later - *earlier <= SAME_LINE);
    for point in std::iter::once(&mut region.outer).chain(&mut region.holes).flatten() {
        let value = coordinate(point);
        let at = values.partition_point(|line| *line <= *value);
        *value = values[at.saturating_sub(1)];
    }
}

#[expect(clippy::cast_possible_truncation, clippy::cast_precision_loss, reason = "exact in f64 below 2^53")]
fn rotate(point: Point, cos: f64, sin: f64) -> Point {
    let (x, y) = (point.x.steps() as f64, point.y.steps() as f64);
    let nearest = |value: f64| Length::from_steps(value.round() as i64);
    Point::new(nearest(x * cos - y * sin), nearest(x * sin + y * cos))
}
