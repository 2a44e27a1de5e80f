//! Narrow places: segments inside a room from a corner that juts into it to another side.

use plan_model::{Length, Point};

use crate::Region;
use crate::kernel::{along, project, slice};
use crate::region::{cross, sides_of};

/// A narrow place.
pub(super) struct Narrow {
    /// Its width, rounded down to the grid where it is not square to the axes.
    pub(super) width: Length,
    /// The corner and the place on the other side.
    pub(super) ends: [Point; 2],
}

/// The narrow places of a room that are narrower than `reach`, the narrowest first.
pub(super) fn of(region: &Region, reach: Length) -> Vec<Narrow> {
    let sides: Vec<(Point, Point)> = region.sides().collect();
    let mut narrows = Vec::new();
    for boundary in region.boundaries() {
        for ((before, corner), (_, after)) in sides_of(boundary).zip(sides_of(boundary).cycle().skip(1)) {
            if cross(before, corner, after) >= 0 {
                continue;
            }
            for (a, b) in sides.iter().copied().filter(|(a, b)| *a != corner && *b != corner) {
                let place = nearest_on(a, b, corner);
                let width = distance(corner, place);
                if width < reach && inside(region, &sides, corner, place) {
                    narrows.push(Narrow { width, ends: [corner, place] });
                }
            }
        }
    }
    narrows.sort_by_key(|narrow| (narrow.width, narrow.ends));
    narrows
}

/// The parts into which narrow places cut a room.
pub(super) fn cut(region: &Region, narrows: &[Narrow]) -> Vec<Region> {
    let lines: Vec<[Point; 2]> = narrows
        .iter()
        .map(|narrow| {
            let [corner, place] = narrow.ends;
            // Off the axes the place lies on its side only to within a step.
            let square = corner.x == place.x || corner.y == place.y;
            [corner, if square { place } else { along(place, corner, -crate::OFF_AXIS_SLACK) }]
        })
        .collect();
    slice(region, &lines)
}

/// The point of a segment nearest to `point`, on the grid.
pub(crate) fn nearest_on(a: Point, b: Point, point: Point) -> Point {
    let ahead = project(a, b, point).0;
    if ahead <= Length::ZERO {
        a
    } else if ahead >= project(a, b, b).0 {
        b
    } else {
        along(a, b, ahead)
    }
}

/// Rounded down to the grid; exact along the axes.
#[expect(clippy::cast_possible_truncation, clippy::cast_precision_loss, reason = "exact in f64 below 2^53")]
pub(crate) fn distance(a: Point, b: Point) -> Length {
    let (dx, dy) = ((b.x - a.x).steps() as f64, (b.y - a.y).steps() as f64);
    Length::from_steps(dx.hypot(dy).floor() as i64)
}

/// Whether the segment between two points of the boundary runs inside the room.
fn inside(region: &Region, sides: &[(Point, Point)], a: Point, b: Point) -> bool {
    if a == b {
        return false;
    }
    let crossed = sides.iter().any(|(p, q)| {
        cross(*p, *q, a).signum() * cross(*p, *q, b).signum() < 0
            && cross(a, b, *p).signum() * cross(a, b, *q).signum() < 0
    });
    !crossed && region.contains_inside(crate::rooms::middle(a, b))
}
