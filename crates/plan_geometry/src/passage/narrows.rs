//! Narrow places: segments inside a floor from a corner that juts into it to another side.
//!
//! Only those matter whose middle is no nearer to anything else: where another side or corner reaches into the circle that
//! has the segment as its diameter, a disc is held up there before it is held up here. (The parts into which places
//! narrower than a disc cut a floor are those in which its centre can move: they part where the distance to the nearest
//! side, seen as a height, has a saddle, and a saddle lies in the middle of such a segment.)

use plan_model::{Length, Point};

use crate::kernel::{along, project, slice};
use crate::region::{cross, sides_of};
use crate::{OFF_AXIS_SLACK, Region};

/// A narrow place.
#[derive(Debug)]
pub(super) struct Narrow {
    /// Its width, rounded down to the grid where it is not square to the axes.
    pub(super) width: Length,
    /// The corner and the place on the other side.
    pub(super) ends: [Point; 2],
    cut: [Point; 2],
}

/// The narrow places of a floor that are narrower than `reach`, the narrowest first.
pub(super) fn of(region: &Region, reach: Length) -> Vec<Narrow> {
    let sides: Vec<Side> = region.sides().map(|(a, b)| Side { a, b }).collect();
    let mut narrows = Vec::new();
    for boundary in region.boundaries() {
        for ((before, corner), (_, after)) in sides_of(boundary).zip(sides_of(boundary).cycle().skip(1)) {
            if cross(before, corner, after) >= 0 {
                continue;
            }
            let beside = [Side { a: before, b: corner }, Side { a: corner, b: after }];
            // What a corner is nearest to, looks towards it.
            let across = sides.iter().filter(|side| side.a != corner && side.b != corner);
            let near = across.filter(|side| side.bounds_are_within(corner, reach));
            for side in near.filter(|side| cross(side.a, side.b, corner) >= 0) {
                let place = nearest_on(side.a, side.b, corner);
                let width = distance(corner, place);
                if width < reach
                    && is_narrowest(&beside, corner, place)
                    && is_narrowest(&sides, corner, place)
                    && inside(region, &sides, corner, place)
                {
                    narrows.push(Narrow { width, ends: [corner, place], cut: cut_to(side, corner, place) });
                }
            }
        }
    }
    let between = |narrow: &Narrow| {
        let [a, b] = narrow.ends;
        (narrow.width, a.min(b), a.max(b))
    };
    narrows.sort_by_key(between);
    narrows.dedup_by_key(|narrow| between(narrow));
    narrows
}

/// The parts into which narrow places cut a floor.
pub(super) fn cut(region: &Region, narrows: &[Narrow]) -> Vec<Region> {
    slice(region, &narrows.iter().map(|narrow| narrow.cut).collect::<Vec<_>>())
}

/// The line that cuts a floor from a corner to a place on a side: off the axes, that place lies on its side only to within
/// a step, and a line that falls short cuts nothing.
fn cut_to(side: &Side, corner: Point, place: Point) -> [Point; 2] {
    let is_exact = corner.x == place.x || corner.y == place.y || place == side.a || place == side.b;
    [corner, if is_exact { place } else { along(place, corner, -OFF_AXIS_SLACK) }]
}

/// A side of a floor.
struct Side {
    a: Point,
    b: Point,
}

impl Side {
    /// Whether its bounds come within `reach` of a point; what does not, is further away for certain.
    fn bounds_are_within(&self, point: Point, reach: Length) -> bool {
        let near = |p: Length, q: Length, at: Length| p.min(q) - at < reach && at - p.max(q) < reach;
        near(self.a.x, self.b.x, point.x) && near(self.a.y, self.b.y, point.y)
    }

    /// Square of the distance from a place given in half steps, in square steps.
    #[expect(clippy::cast_precision_loss, reason = "exact in f64 below 2^53")]
    fn squared_distance(&self, [x, y]: [i64; 2]) -> f64 {
        let from = |p: Point| ((x - 2 * p.x.steps()) as f64 / 2.0, (y - 2 * p.y.steps()) as f64 / 2.0);
        let (px, py) = from(self.a);
        let (ux, uy) = ((self.b.x - self.a.x).steps() as f64, (self.b.y - self.a.y).steps() as f64);
        let length = ux * ux + uy * uy;
        let part = if length == 0.0 { 0.0 } else { ((px * ux + py * uy) / length).clamp(0.0, 1.0) };
        let (dx, dy) = (px - part * ux, py - part * uy);
        dx * dx + dy * dy
    }
}

/// Whether none of the sides reaches into the circle over a segment, by more than places off the axes may be off.
#[expect(clippy::cast_precision_loss, reason = "exact in f64 below 2^53")]
fn is_narrowest(sides: &[Side], a: Point, b: Point) -> bool {
    let middle = [(a.x + b.x).steps(), (a.y + b.y).steps()];
    let radius = ((b.x - a.x).steps() as f64).hypot((b.y - a.y).steps() as f64) / 2.0;
    let kept_clear = (radius - OFF_AXIS_SLACK.steps() as f64).max(0.0).powi(2);
    sides.iter().all(|side| side.squared_distance(middle) >= kept_clear)
}

/// The point of a segment nearest to `point`, on the grid. So near to an end that rounding may take it past, it is the end.
pub(crate) fn nearest_on(a: Point, b: Point, point: Point) -> Point {
    let (ahead, length) = (project(a, b, point).0, project(a, b, b).0);
    let near = if a.x == b.x || a.y == b.y { Length::ZERO } else { OFF_AXIS_SLACK };
    if ahead <= near {
        a
    } else if ahead >= length - near {
        b
    } else {
        along(a, b, ahead)
    }
}

/// Rounded down to the grid; exact along the axes.
#[expect(clippy::cast_possible_truncation, clippy::cast_precision_loss, reason = "exact in f64 below 2^53")]
pub(crate) fn distance(a: Point, b: Point) -> Length {
    if a.x == b.x || a.y == b.y {
        return (b.x - a.x).abs().max((b.y - a.y).abs());
    }
    let (dx, dy) = ((b.x - a.x).steps() as f64, (b.y - a.y).steps() as f64);
    Length::from_steps(dx.hypot(dy).floor() as i64)
}

/// Whether the segment between two points of the boundary runs inside the floor.
fn inside(region: &Region, sides: &[Side], a: Point, b: Point) -> bool {
    if a == b {
        return false;
    }
    // Off the axes the place may lie beyond its side by a step: the segment is taken to a little before it.
    let b = if a.x == b.x || a.y == b.y { b } else { along(b, a, OFF_AXIS_SLACK) };
    let crossed = sides.iter().any(|side| {
        let (p, q) = (side.a, side.b);
        cross(p, q, a).signum() * cross(p, q, b).signum() < 0 && cross(a, b, p).signum() * cross(a, b, q).signum() < 0
    });
    !crossed && region.contains_inside(crate::rooms::middle(a, b))
}
