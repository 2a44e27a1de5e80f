//! Narrow places: gaps in which nobody walks.
//!
//! The narrowest places of a ground are segments inside it from a corner that juts into it to the nearest point of a side
//! that faces it. A way does not cross such a segment that is shorter than the least gap. It may touch one of its ends, as any
//! other corner or side, and walk on along the same side of it; so a segment that ends at a corner divides the free
//! directions there into those on its one side and those on its other.

use plan_model::{Length, Point};

use super::ground::{Turn, is_square};
use super::sight::{Directions, Joined, Sight, Trail, View, Watch};
use crate::OFF_AXIS_SLACK;
use crate::kernel::{Edge, Vector, along};
use crate::passage::{distance, nearest_on};

/// A gap under this is closed, one of exactly this is open: between what stands, between the jambs of a doorway, and what a
/// stopped leaf leaves of one.
///
/// Common practice, no source.
pub(super) const LEAST_GAP: Length = Length::inches(18);

/// A gap off the axes that is narrower by no more than this is on the limit, and open: its corner and its side may each be
/// grown by the slack, and are within it of the true place.
const GAP_SLACK: Length = Length::from_steps(4 * OFF_AXIS_SLACK.steps());

/// All narrow places of joined grounds.
#[derive(Debug)]
pub(super) struct Narrows {
    /// For each ground, the narrow places that lie in it.
    pub(super) bars: Vec<Vec<[Point; 2]>>,
    /// For each turn, by ground and index, the direction of a narrow place that ends there; in order, each once.
    pub(super) dividing: Vec<(u32, usize, Vector)>,
}

impl Narrows {
    pub(super) fn of(joined: &Joined<'_>) -> Self {
        let mut narrows = Self { bars: vec![Vec::new(); joined.grounds.len()], dividing: Vec::new() };
        let mut sight = Sight::new(joined);
        for (ground, here) in joined.grounds.iter().enumerate() {
            for (index, turn) in here.turns.iter().enumerate() {
                let at = (ground as u32, index);
                let mut search = Search { joined, narrows: &mut narrows, turn, at };
                sight.look_from_turn(ground as u32, turn, Directions::All, &mut search);
            }
        }
        narrows.dividing.sort_unstable();
        narrows.dividing.dedup_by(|(a, b, c), (d, e, f)| (*a, *b) == (*d, *e) && c.is_along(*f));
        for bars in &mut narrows.bars {
            bars.sort_unstable();
            bars.dedup();
        }
        narrows
    }

    /// Whether a leg that leads through these grounds crosses a narrow place.
    pub(super) fn bar(&self, leg: [Point; 2], mut grounds: impl Iterator<Item = u32>) -> bool {
        grounds.any(|ground| self.bars[ground as usize].iter().any(|bar| cross_inside(leg, *bar)))
    }
}

/// Whether two segments cross, at a place that is an end of neither.
fn cross_inside([a, b]: [Point; 2], [c, d]: [Point; 2]) -> bool {
    let apart = |p: Length, q: Length, r: Length, s: Length| p.max(q) < r.min(s) || r.max(s) < p.min(q);
    if apart(a.x, b.x, c.x, d.x) || apart(a.y, b.y, c.y, d.y) {
        return false;
    }
    let side = |p: Point, q: Point, r: Point| Vector::between(p, q).cross(Vector::between(p, r)).signum();
    side(a, b, c) * side(a, b, d) < 0 && side(c, d, a) * side(c, d, b) < 0
}

/// Looks for the narrow places that start at a turn.
struct Search<'a> {
    joined: &'a Joined<'a>,
    narrows: &'a mut Narrows,
    turn: &'a Turn,
    /// The turn's ground, and its index there.
    at: (u32, usize),
}

impl Watch for Search<'_> {
    fn turn(&mut self, _: &Sight<'_>, _: u32, _: u32, _: Trail) {}

    fn side(&mut self, sight: &Sight<'_>, ground: u32, edge: Edge, view: &View, trail: Trail) {
        if !self.looks_beyond(sight, ground, edge) {
            return;
        }
        let there = self.joined.grounds[ground as usize];
        let [a, b] = there.mesh.ends(edge);
        let place = nearest_on(a, b, self.turn.at);
        let towards = Vector::between(self.turn.at, place);
        let least = if self.turn.is_square && is_square(a, b) { LEAST_GAP } else { LEAST_GAP - GAP_SLACK };
        let free = self.turn.free;
        let is_narrow = !towards.is_zero()
            && distance(self.turn.at, place) < least
            && view.has_place(towards)
            && !towards.is_along(free.from)
            && !towards.is_along(free.to);
        if !is_narrow {
            return;
        }
        self.narrows.dividing.push((self.at.0, self.at.1, towards));
        let corner = [edge, edge.next()].map(|edge| there.mesh.start(edge));
        let ending = corner.into_iter().find(|corner| there.mesh.corner(*corner) == place);
        let back = towards.reversed();
        let mut at_end = ending.map(|corner| there.turns_at(corner)).unwrap_or_default();
        let divided = at_end.find(|turn| there.turns[*turn].free.has(back));
        if let Some(turn) = divided {
            self.narrows.dividing.push((ground, turn, back));
        }
        // Drawn into the side, so that nobody slips by along it; and off the axes the place lies short of it by a step.
        let end = if divided.is_some() { place } else { along(place, self.turn.at, -OFF_AXIS_SLACK) };
        for ground in sight.grounds(trail) {
            self.narrows.bars[ground as usize].push([self.turn.at, end]);
        }
    }

    /// Whether an edge comes nearer than the least gap.
    fn looks_beyond(&self, sight: &Sight<'_>, ground: u32, edge: Edge) -> bool {
        let reach = LEAST_GAP.steps();
        let [a, b] = sight.ends(ground, edge);
        if a.x.max(b.x) <= -reach || a.x.min(b.x) >= reach || a.y.max(b.y) <= -reach || a.y.min(b.y) >= reach {
            return false;
        }
        let near = |end: Vector| end.dot(end) < reach * reach;
        if near(a) || near(b) {
            return true;
        }
        let along = Vector { x: b.x - a.x, y: b.y - a.y };
        let (ahead, length) = (a.reversed().dot(along), along.dot(along));
        let aside = i128::from(a.cross(along));
        ahead > 0 && ahead < length && aside * aside < i128::from(length) * i128::from(reach) * i128::from(reach)
    }
}
