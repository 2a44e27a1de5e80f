//! The direction of a room, modulo a quarter turn.

use std::sync::Arc;

use plan_model::{Length, Point};

use super::ClearSizes;
use crate::kernel::{Frame, project};
use crate::{OFF_AXIS_SLACK, Region};

/// Sides of one direction and their total length.
struct Bundle {
    direction: Point,
    longest: Length,
    total: Length,
}

/// The frame of the direction with the greatest total length of sides; on a tie the one with the larger clear
/// rectangle, then the one parallel to the mate line.
pub(super) fn frame(region: &Arc<Region>, mate_line: Option<Point>) -> Frame {
    let origin = region.outer.first().copied().unwrap_or_default();
    if region.sides().all(|(a, b)| a.x == b.x || a.y == b.y) {
        return Frame::of_direction(origin, Point::inches(1, 0));
    }
    let mut bundles: Vec<Bundle> = Vec::new();
    for (a, b) in region.sides() {
        let (direction, length) = (first_quadrant(b - a), project(a, b, b).0);
        match bundles.iter_mut().find(|bundle| same_direction(bundle, direction, length)) {
            Some(bundle) => {
                bundle.total += length;
                if length > bundle.longest {
                    (bundle.direction, bundle.longest) = (direction, length);
                }
            }
            None => bundles.push(Bundle { direction, longest: length, total: length }),
        }
    }
    let greatest = bundles.iter().map(|bundle| bundle.total).max().unwrap_or_default();
    let tie = |bundle: &&Bundle| greatest - bundle.total <= OFF_AXIS_SLACK;
    let tied: Vec<Frame> =
        bundles.iter().filter(tie).map(|bundle| Frame::of_direction(origin, bundle.direction)).collect();
    if let [only] = tied[..] {
        return only;
    }
    let parallel =
        |bundle: &Bundle| mate_line.is_some_and(|line| same_direction(bundle, first_quadrant(line), bundle.longest));
    let rank = |bundle: &Bundle| {
        let frame = Frame::of_direction(origin, bundle.direction);
        let clear = ClearSizes::in_frame(region, frame).rectangle();
        (crate::Area::of_rectangle(clear.width, clear.length), parallel(bundle))
    };
    let best = bundles.iter().filter(tie).max_by_key(|bundle| rank(bundle));
    Frame::of_direction(origin, best.map_or(Point::inches(1, 0), |bundle| bundle.direction))
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
        let (ahead, aside) = project(origin, bundle.direction, of);
        // A direction just below the x axis was turned to one just below the y axis.
        let aside = aside.abs().min(ahead.abs());
        i128::from(aside.steps()) * i128::from(over.steps())
            <= i128::from(2 * OFF_AXIS_SLACK.steps()) * i128::from(project(origin, of, of).0.steps())
    };
    strays(direction, length.min(bundle.longest))
}
