//! The direction of a room, modulo a quarter turn.

use std::sync::Arc;

use plan_model::{Length, Point};

use super::ClearSizes;
use crate::kernel::{Frame, project};
use crate::{Area, OFF_AXIS_SLACK, Region};

/// Sides of one direction and their total length.
struct Bundle {
    /// The longest side, turned by quarters.
    longest: Point,
    length: Length,
    /// All sides behind each other, each turned by quarters: their direction is surer than that of any one.
    sum: Point,
    total: Length,
    sides: i64,
}

impl Bundle {
    /// The direction of its sides. One that lies along the axes is exact.
    fn direction(&self) -> Point {
        if self.is_square() { self.longest } else { self.sum }
    }

    fn is_square(&self) -> bool {
        self.longest.x == Length::ZERO || self.longest.y == Length::ZERO
    }

    fn frame(&self, origin: Point) -> Frame {
        Frame::of_direction(origin, self.direction())
    }

    /// What its total length may be off by: sides between faces off the axes carry their slack each.
    fn slack(&self) -> Length {
        if self.is_square() { Length::ZERO } else { OFF_AXIS_SLACK * self.sides }
    }
}

/// The frame of the direction with the greatest total length of sides, open boundaries included; on a tie the one with the
/// larger clear rectangle, then the one parallel to the mate line.
///
/// Totals are equal, and so are rectangles, if they differ by no more than the slack of what they are made of.
pub(super) fn frame(region: &Arc<Region>, mate_line: Option<Point>) -> Frame {
    let origin = region.outer.first().copied().unwrap_or_default();
    if region.sides().all(|(a, b)| a.x == b.x || a.y == b.y) {
        return Frame::of_direction(origin, Point::inches(1, 0));
    }
    let bundles = bundles(region);
    let Some(greatest) = bundles.iter().max_by_key(|bundle| bundle.total) else {
        return Frame::of_direction(origin, Point::inches(1, 0));
    };
    let tie = |bundle: &&Bundle| greatest.total - bundle.total <= greatest.slack().max(bundle.slack());
    let tied: Vec<&Bundle> = bundles.iter().filter(tie).collect();
    if let [only] = tied[..] {
        return only.frame(origin);
    }
    let clear = |bundle: &Bundle| {
        let clear = ClearSizes::in_frame(region, bundle.frame(origin)).rectangle();
        (Area::of_rectangle(clear.width, clear.length), Area::of_rectangle(OFF_AXIS_SLACK, clear.width + clear.length))
    };
    let clear: Vec<(Area, Area)> = tied.iter().map(|bundle| clear(bundle)).collect();
    let largest = clear.iter().map(|(area, _)| *area).max().unwrap_or_default();
    let mut as_large =
        tied.iter().zip(clear).filter(|(_, (area, slack))| *area + *slack >= largest).map(|(bundle, _)| *bundle);
    let first = as_large.next().unwrap_or(greatest);
    let parallel =
        |bundle: &Bundle| mate_line.is_some_and(|line| same_direction(bundle, first_quadrant(line), bundle.length));
    if parallel(first) { first } else { as_large.find(|bundle| parallel(bundle)).unwrap_or(first) }.frame(origin)
}

/// The sides of a region by direction.
fn bundles(region: &Region) -> Vec<Bundle> {
    let mut bundles: Vec<Bundle> = Vec::new();
    for (a, b) in region.sides() {
        let (direction, length) = (first_quadrant(b - a), project(a, b, b).0);
        let Some(bundle) = bundles.iter_mut().find(|bundle| same_direction(bundle, direction, length)) else {
            bundles.push(Bundle { longest: direction, length, sum: direction, total: length, sides: 1 });
            continue;
        };
        // A direction just below the x axis was turned to one just below the y axis.
        let (ahead, aside) = project(Point::default(), bundle.longest, direction);
        let alike = match (ahead.abs() >= aside.abs(), aside > Length::ZERO) {
            (true, _) => direction,
            (false, true) => Point::new(direction.y, -direction.x),
            (false, false) => Point::new(-direction.y, direction.x),
        };
        bundle.sum = bundle.sum + alike;
        bundle.total += length;
        bundle.sides += 1;
        if length > bundle.length {
            (bundle.longest, bundle.length) = (alike, length);
        }
    }
    bundles
}

/// The direction turned by quarters until it points to the right and not down.
fn first_quadrant(mut direction: Point) -> Point {
    while direction.x <= Length::ZERO || direction.y < Length::ZERO {
        direction = Point::new(-direction.y, direction.x);
        if direction == Point::default() {
            return Point::inches(1, 0);
        }
    }
    direction
}

/// Whether a side runs in a bundle's direction: over the shorter of the two it strays by no more than rounding does.
fn same_direction(bundle: &Bundle, direction: Point, length: Length) -> bool {
    let origin = Point::default();
    let strays = |of: Point, over: Length| {
        let (ahead, aside) = project(origin, bundle.longest, of);
        let aside = aside.abs().min(ahead.abs());
        i128::from(aside.steps()) * i128::from(over.steps())
            <= i128::from(2 * OFF_AXIS_SLACK.steps()) * i128::from(project(origin, of, of).0.steps())
    };
    strays(direction, length.min(bundle.length))
}
