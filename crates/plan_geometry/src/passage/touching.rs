//! Where a disc inside a room can touch one of its doorways, or stand on a line across its floor.
//!
//! In the doorway's own axes (along its line, and square to it into the room) the centre of a disc of diameter `w` that
//! touches the line stands at depth `w / 2`. Every side of the room forbids an open interval of places along the line:
//! those from which the side is nearer than `w / 2`. What the sides leave of the doorway is where the disc can touch. A disc
//! that goes over an open boundary stands on it with its centre: the same at depth zero.
//!
//! Worked in `f64`: along the axes all values are whole or half steps and exact; elsewhere they are far nearer than the
//! slack that such measures carry.

use plan_model::{Id, Length, Point};

use super::{Doorway, Pinch};
use crate::Region;
use crate::kernel::{along, offset, project};
use crate::region::on_segment;

/// A doorway or another line with the sides around it in the line's axes.
#[derive(Debug)]
pub(crate) struct Edge {
    pub(crate) doorway: Id,
    stands: Stands,
    /// The line, with the room to its left.
    line: [Point; 2],
    /// Its length.
    length: f64,
    sides: Vec<[Local; 2]>,
}

/// How a disc stands at an edge.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum Stands {
    /// It touches the line from inside.
    Against,
    /// Its centre is on the line.
    Across,
}

/// A point along the line and into the room.
#[derive(Clone, Copy, Debug)]
struct Local {
    along: f64,
    depth: f64,
}

impl Edge {
    /// The edge of a room at one of its doorways; none if the doorway does not lie on the room's boundary.
    pub(super) fn of(region: &Region, doorway: &Doorway) -> Option<Self> {
        Self::against(region, std::slice::from_ref(region), doorway)
    }

    /// The same where things stand in the room: `floors` is what they leave of it.
    #[expect(clippy::cast_precision_loss, reason = "exact in f64 below 2^53")]
    pub(crate) fn against(room: &Region, floors: &[Region], doorway: &Doorway) -> Option<Self> {
        let [a, b] = doorway.line;
        let (p, q) = side_of(room, doorway.line)?;
        let line = if project(p, q, a).0 <= project(p, q, b).0 { [a, b] } else { [b, a] };
        let start = project(p, q, line[0]).0;
        let local = |point: Point| {
            if p.x == q.x || p.y == q.y {
                return Local::of(line, point);
            }
            // Off the axes the line is taken from the side itself, so that the side has no depth.
            let (ahead, left) = project(p, q, point);
            Local { along: (ahead - start).steps() as f64, depth: left.steps() as f64 }
        };
        Some(Self::with_sides(doorway.id.clone(), Stands::Against, line, floors, local))
    }

    /// A line across floors, which the centre of a disc goes over.
    pub(crate) fn across(floors: &[Region], boundary: &Doorway) -> Self {
        let line = boundary.line;
        Self::with_sides(boundary.id.clone(), Stands::Across, line, floors, |point| Local::of(line, point))
    }

    #[expect(clippy::cast_precision_loss, reason = "exact in f64 below 2^53")]
    fn with_sides(
        doorway: Id,
        stands: Stands,
        line: [Point; 2],
        floors: &[Region],
        local: impl Fn(Point) -> Local,
    ) -> Self {
        let sides = floors.iter().flat_map(Region::sides).map(|(a, b)| [local(a), local(b)]).collect();
        let length = project(line[0], line[1], line[1]).0.steps() as f64;
        Self { doorway, stands, line, length, sides }
    }

    /// How far from the line the centre of a disc stands.
    const fn depth(&self, radius: f64) -> f64 {
        match self.stands {
            Stands::Against => radius,
            Stands::Across => 0.0,
        }
    }

    /// The diameter of the widest disc that can touch the doorway, rounded down to the grid.
    #[expect(clippy::cast_possible_truncation, reason = "no further than the room is deep, far below 2^53")]
    pub(crate) fn widest(&self) -> Length {
        // Where nothing juts in, what lies opposite holds the widest one.
        let opposite = self.opposite().ceil() as i64;
        let mut forbidden = Vec::new();
        let mut is_free = |steps: i64| {
            self.forbid(Length::from_steps(steps), &mut forbidden);
            self.left_by(&forbidden).next().is_some()
        };
        if opposite == 0 || is_free(opposite) {
            return Length::from_steps(opposite);
        }
        // What holds it elsewhere most often juts in to just that depth.
        let mut depths: Vec<i64> = self.sides.iter().map(|[end, _]| end.depth as i64).collect();
        depths.retain(|depth| *depth > 0 && *depth < opposite);
        depths.sort_unstable();
        depths.dedup();
        let free = depths.partition_point(|depth| is_free(*depth));
        let mut yes = free.checked_sub(1).map_or(0, |last| depths[last]);
        if yes > 0 && !is_free(yes + 1) {
            return Length::from_steps(yes);
        }
        let mut no = depths.get(free).copied().unwrap_or(opposite);
        while no - yes > 1 {
            let middle = yes + (no - yes) / 2;
            if is_free(middle) {
                yes = middle;
            } else {
                no = middle;
            }
        }
        Length::from_steps(yes)
    }

    /// How far away the nearest side is that lies before the whole doorway; the deepest place of the floor where none does.
    fn opposite(&self) -> f64 {
        let deepest = self.sides.iter().flatten().map(|end| end.depth).fold(0.0, f64::max);
        let before_all = |[a, b]: &&[Local; 2]| {
            a.depth == b.depth && a.depth > 0.0 && a.along.min(b.along) <= 0.0 && a.along.max(b.along) >= self.length
        };
        self.sides.iter().filter(before_all).map(|[a, _]| a.depth).fold(deepest, f64::min)
    }

    /// A centre in every stretch of the doorway that a disc of this diameter can touch.
    #[expect(clippy::cast_possible_truncation, reason = "a place on the doorway, far below 2^53")]
    pub(crate) fn centres(&self, width: Length) -> Vec<Point> {
        let depth = match self.stands {
            Stands::Against => Length::from_steps(width.steps() / 2),
            Stands::Across => Length::ZERO,
        };
        let at = |place: f64| {
            let foot = along(self.line[0], self.line[1], Length::from_steps(place.floor() as i64));
            offset(foot, self.line[0], self.line[1], depth)
        };
        let mut forbidden = Vec::new();
        self.forbid(width, &mut forbidden);
        self.left_by(&forbidden).map(|(from, to)| at(f64::midpoint(from, to))).collect()
    }

    /// Where the widest disc stands at the doorway, and the two places that it touches there which are farthest apart: across
    /// a narrow end, from the doorway to what lies opposite it, or from the doorway to what stands beside it.
    #[expect(clippy::cast_possible_truncation, clippy::cast_precision_loss, reason = "far below 2^53")]
    pub(crate) fn pinch(&self, width: Length) -> Pinch {
        /// What is touched lies on the grid to within a step, and so does the width.
        const ROUNDED: f64 = 2.0;
        let mut forbidden = Vec::new();
        self.forbid(width, &mut forbidden);
        let place = self.left_by(&forbidden).next().map_or(self.length / 2.0, |(from, to)| f64::midpoint(from, to));
        let radius = width.steps() as f64 / 2.0;
        let centre = Local { along: place, depth: self.depth(radius) };
        let foot = Local { along: place, depth: 0.0 };
        let near = self.sides.iter().map(|side| nearest(side, centre));
        let near = near.filter(|point| point.distance(centre) <= radius + ROUNDED);
        let touched: Vec<Local> = (self.stands == Stands::Against).then_some(foot).into_iter().chain(near).collect();
        let pairs =
            touched.iter().enumerate().flat_map(|(at, one)| touched[at + 1..].iter().map(|other| [*one, *other]));
        let ends = pairs
            .max_by(|[a, b], [c, d]| a.distance(*b).total_cmp(&c.distance(*d)))
            .unwrap_or([foot, Local { along: place, depth: 2.0 * radius }]);
        let on_plan = |point: Local| {
            let foot = along(self.line[0], self.line[1], Length::from_steps(point.along.round() as i64));
            offset(foot, self.line[0], self.line[1], Length::from_steps(point.depth.round() as i64))
        };
        Pinch { ends: ends.map(on_plan), centre: on_plan(centre) }
    }

    /// The open intervals of places along the doorway that the sides forbid to a disc of this diameter, in order.
    #[expect(clippy::cast_precision_loss, reason = "exact in f64 below 2^53")]
    fn forbid(&self, width: Length, forbidden: &mut Vec<(f64, f64)>) {
        let radius = width.steps() as f64 / 2.0;
        let depth = self.depth(radius);
        let ([low, high], [before, behind]) = ([depth - radius, depth + radius], [-radius, self.length + radius]);
        forbidden.clear();
        for side in &self.sides {
            let [a, b] = side;
            if a.depth >= high && b.depth >= high
                || a.depth <= low && b.depth <= low
                || a.along <= before && b.along <= before
                || a.along >= behind && b.along >= behind
            {
                continue;
            }
            let intervals = [around(*a, radius, depth), around(*b, radius, depth), beside(side, radius, depth)];
            let counts = |(from, to): &(f64, f64)| from < to && *to > 0.0 && *from < self.length;
            forbidden.extend(intervals.into_iter().flatten().filter(counts));
        }
        forbidden.sort_unstable_by(|a, b| a.0.total_cmp(&b.0));
    }

    /// The closed stretches of the doorway that forbidden intervals leave.
    fn left_by(&self, forbidden: &[(f64, f64)]) -> impl Iterator<Item = (f64, f64)> {
        // The ends of forbidden intervals are free: two that meet leave a single place between them.
        let (mut reached, end) = (0.0, [(self.length, f64::INFINITY)]);
        forbidden.iter().copied().chain(end).filter_map(move |(from, to)| {
            let free = (from >= reached).then_some((reached, from));
            reached = to.max(reached);
            free
        })
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

/// The places at a depth from which a point is nearer than the radius.
fn around(point: Local, radius: f64, depth: f64) -> Option<(f64, f64)> {
    let off = point.depth - depth;
    let squared = (radius - off) * (radius + off);
    (squared > 0.0).then(|| (point.along - squared.sqrt(), point.along + squared.sqrt()))
}

/// The places at a depth from which the inside of a segment, square to it, is nearer than the radius.
fn beside([a, b]: &[Local; 2], radius: f64, depth: f64) -> Option<(f64, f64)> {
    let (u, v) = (b.along - a.along, b.depth - a.depth);
    let length = u.hypot(v);
    if length == 0.0 {
        return None;
    }
    if v == 0.0 {
        let between = a.depth > depth - radius && a.depth < depth + radius;
        return between.then(|| (a.along.min(b.along), a.along.max(b.along)));
    }
    // With the centre at (t, depth): its foot on the segment and its distance from the line are linear in t.
    let place_at_distance = |distance: f64| a.along + ((depth - a.depth) * u + distance * length) / v;
    let near = [place_at_distance(-radius), place_at_distance(radius)];
    let near = (near[0].min(near[1]), near[0].max(near[1]));
    if u == 0.0 {
        let (low, high) = (a.depth.min(b.depth), a.depth.max(b.depth));
        return (low < depth && depth < high).then_some(near);
    }
    let foot_at = |part: f64| a.along + (part * length * length - (depth - a.depth) * v) / u;
    let feet = [foot_at(0.0), foot_at(1.0)];
    Some((near.0.max(feet[0].min(feet[1])), near.1.min(feet[0].max(feet[1]))))
}

impl Local {
    /// In the axes of a line.
    #[expect(clippy::cast_precision_loss, reason = "exact in f64 below 2^53")]
    fn of(line: [Point; 2], point: Point) -> Self {
        let (ahead, left) = project(line[0], line[1], point);
        Self { along: ahead.steps() as f64, depth: left.steps() as f64 }
    }

    fn distance(self, other: Self) -> f64 {
        (self.along - other.along).hypot(self.depth - other.depth)
    }
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
