//! Where a disc inside a room can touch one of its doorways.
//!
//! In the doorway's own axes (along its line, and square to it into the room) the centre of a disc of diameter `w` that
//! touches the line stands at depth `w / 2`. Every side of the room forbids an open interval of places along the line:
//! those from which the side is nearer than `w / 2`. What the sides leave of the doorway is where the disc can touch.
//!
//! Worked in `f64`: along the axes all values are whole or half steps and exact; elsewhere they are far nearer than the
//! slack that such measures carry.

use plan_model::{Id, Length, Point};

use super::Doorway;
use crate::Region;
use crate::kernel::{along, offset, project};
use crate::region::on_segment;

/// A doorway with the room's sides in the doorway's axes.
pub(super) struct Edge {
    pub(super) doorway: Id,
    /// The line, with the room to its left.
    line: [Point; 2],
    /// Its length.
    length: f64,
    sides: Vec<[Local; 2]>,
}

/// A point along the line and into the room.
#[derive(Clone, Copy)]
struct Local {
    along: f64,
    depth: f64,
}

impl Edge {
    /// None if the doorway does not lie on the room's boundary.
    #[expect(clippy::cast_precision_loss, reason = "exact in f64 below 2^53")]
    pub(super) fn of(region: &Region, doorway: &Doorway) -> Option<Self> {
        let [a, b] = doorway.line;
        let (p, q) = side_of(region, doorway.line)?;
        let line = if project(p, q, a).0 <= project(p, q, b).0 { [a, b] } else { [b, a] };
        let local = |point: Point| {
            if p.x == q.x || p.y == q.y {
                let (ahead, left) = project(line[0], line[1], point);
                return Local { along: ahead.steps() as f64, depth: left.steps() as f64 };
            }
            // Off the axes the line is taken from the side itself, so that the side has no depth.
            let (ahead, left) = project(p, q, point);
            let start = project(p, q, line[0]).0;
            Local { along: (ahead - start).steps() as f64, depth: left.steps() as f64 }
        };
        let sides = region.sides().map(|(a, b)| [local(a), local(b)]).collect();
        let length = project(line[0], line[1], line[1]).0.steps() as f64;
        Some(Self { doorway: doorway.id.clone(), line, length, sides })
    }

    /// The diameter of the widest disc that can touch the doorway, rounded down to the grid.
    pub(super) fn widest(&self) -> Length {
        let (mut yes, mut no) = (0, 2 * Length::LARGEST.steps());
        while no - yes > 1 {
            let middle = yes + (no - yes) / 2;
            if self.free(Length::from_steps(middle)).is_empty() {
                no = middle;
            } else {
                yes = middle;
            }
        }
        Length::from_steps(yes)
    }

    /// A centre in every stretch of the doorway that a disc of this diameter can touch.
    #[expect(clippy::cast_possible_truncation, reason = "a place on the doorway, far below 2^53")]
    pub(super) fn centres(&self, width: Length) -> Vec<Point> {
        let depth = Length::from_steps(width.steps() / 2);
        let at = |place: f64| {
            let foot = along(self.line[0], self.line[1], Length::from_steps(place.floor() as i64));
            offset(foot, self.line[0], self.line[1], depth)
        };
        self.free(width).into_iter().map(|(from, to)| at(f64::midpoint(from, to))).collect()
    }

    /// Where the widest disc touches the doorway, and the place on another side that keeps a wider one out.
    #[expect(clippy::cast_possible_truncation, clippy::cast_precision_loss, reason = "far below 2^53")]
    pub(super) fn pinch(&self, width: Length) -> [Point; 2] {
        let place = self.free(width).first().map_or(self.length / 2.0, |(from, to)| f64::midpoint(*from, *to));
        let radius = width.steps() as f64 / 2.0;
        let centre = Local { along: place, depth: radius };
        let touched = self
            .sides
            .iter()
            .map(|side| nearest(side, centre))
            .filter(|point| (point.along - centre.along).hypot(point.depth - centre.depth) <= radius + 2.0)
            .max_by(|a, b| a.depth.total_cmp(&b.depth))
            .unwrap_or(Local { along: place, depth: 2.0 * radius });
        let on_plan = |point: Local| {
            let foot = along(self.line[0], self.line[1], Length::from_steps(point.along.round() as i64));
            offset(foot, self.line[0], self.line[1], Length::from_steps(point.depth.round() as i64))
        };
        // Held between the two sides of a narrow end, the disc is shown across them.
        if touched.depth < radius * 1.5 {
            let across = Local { along: 2.0 * place - touched.along, depth: touched.depth };
            return [on_plan(across), on_plan(touched)];
        }
        [on_plan(Local { along: touched.along, depth: 0.0 }), on_plan(touched)]
    }

    /// The closed stretches of the doorway that a disc of this diameter can touch.
    #[expect(clippy::cast_precision_loss, reason = "exact in f64 below 2^53")]
    fn free(&self, width: Length) -> Vec<(f64, f64)> {
        let radius = width.steps() as f64 / 2.0;
        let mut forbidden: Vec<(f64, f64)> = Vec::new();
        for side in &self.sides {
            forbidden.extend(side.iter().filter_map(|end| around(*end, radius)));
            forbidden.extend(beside(side, radius));
        }
        forbidden.retain(|(from, to)| from < to && *to > 0.0 && *from < self.length);
        forbidden.sort_by(|a, b| a.0.total_cmp(&b.0));
        let mut free = Vec::new();
        // The ends of forbidden intervals are free: two that meet leave a single place between them.
        let mut reached = 0.0;
        for (from, to) in forbidden {
            if from >= reached {
                free.push((reached, from));
            }
            reached = to.max(reached);
        }
        if reached <= self.length {
            free.push((reached, self.length));
        }
        free
    }
}

/// The side of a room on which a line lies, to within rounding where it is not square to the axes.
pub(crate) fn side_of(region: &Region, line: [Point; 2]) -> Option<(Point, Point)> {
    let middle = crate::rooms::middle(line[0], line[1]);
    let near = |p: Point, q: Point| {
        let (ahead, aside) = project(p, q, middle);
        on_segment(middle, p, q)
            || (p.x != q.x && p.y != q.y)
                && aside.abs() <= crate::OFF_AXIS_SLACK
                && ahead >= Length::ZERO
                && ahead <= project(p, q, q).0
    };
    region.sides().find(|(p, q)| near(*p, *q))
}

/// The places from which a point is nearer than the radius.
fn around(point: Local, radius: f64) -> Option<(f64, f64)> {
    let squared = point.depth * (2.0 * radius - point.depth);
    (squared > 0.0).then(|| (point.along - squared.sqrt(), point.along + squared.sqrt()))
}

/// The places from which the inside of a segment, square to it, is nearer than the radius.
fn beside([a, b]: &[Local; 2], radius: f64) -> Option<(f64, f64)> {
    let (u, v) = (b.along - a.along, b.depth - a.depth);
    let length = u.hypot(v);
    if length == 0.0 {
        return None;
    }
    if v == 0.0 {
        let between = a.depth > 0.0 && a.depth < 2.0 * radius;
        return between.then(|| (a.along.min(b.along), a.along.max(b.along)));
    }
    // With the centre at (t, radius): its foot on the segment and its distance from the line are linear in t.
    let place_at_distance = |distance: f64| a.along + ((radius - a.depth) * u + distance * length) / v;
    let near = [place_at_distance(-radius), place_at_distance(radius)];
    let near = (near[0].min(near[1]), near[0].max(near[1]));
    if u == 0.0 {
        let (low, high) = (a.depth.min(b.depth), a.depth.max(b.depth));
        return (low < radius && radius < high).then_some(near);
    }
    let foot_at = |part: f64| a.along + (part * length * length - (radius - a.depth) * v) / u;
    let feet = [foot_at(0.0), foot_at(1.0)];
    Some((near.0.max(feet[0].min(feet[1])), near.1.min(feet[0].max(feet[1]))))
}

fn nearest([a, b]: &[Local; 2], point: Local) -> Local {
    let (u, v) = (b.along - a.along, b.depth - a.depth);
    let squared = u * u + v * v;
    let part = if squared == 0.0 {
        0.0
    } else {
        (((point.along - a.along) * u + (point.depth - a.depth) * v) / squared).clamp(0.0, 1.0)
    };
    Local { along: a.along + part * u, depth: a.depth + part * v }
}
