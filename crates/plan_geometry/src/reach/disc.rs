//! The largest disc of a floor.
//!
//! The floor's bounds are divided into ever smaller boxes, the most promising first. In a box only those sides and corners
//! count that can be nearest to some place of it; where they are few, every place that is equally far from three of them
//! is tried: the centre of the largest disc is such a place, since a disc held by fewer can still grow or be moved along.
//! A box that promises nothing larger than what was found is left out.
//!
//! Worked in `f64` about the middle of the floor, where whole and half steps, and so all discs between sides that are
//! square to the axes, are exact.

use std::collections::BinaryHeap;
use std::ops::Range;

use plan_model::{Length, Point};

use super::equidistant::{Feature, for_each_place};
use crate::Region;
use crate::region::{cross, sides_of};

/// What rounding in `f64` may take from a distance inside a plan, many times over, in steps: a diameter that is less than
/// this below a whole step is that step.
const ROUNDING: f64 = 1.0 / 1024.0;

/// From how many sides and corners in a box places are taken at once; with more, it is divided first.
const FEW: usize = 5;

/// A box so small, in steps, is divided no further: more sides than a few meet a disc at once, as in a regular polygon.
const SMALL: f64 = 8.0;

/// Which disc is sought.
#[derive(Clone, Copy, Debug)]
pub(super) enum Sought {
    /// The largest one.
    Largest,
    /// One that is at least as large as this.
    AtLeast(Length),
}

/// A disc that lies in one of some floors, rounded down to the grid, with its centre to the nearest step; of those only
/// whose centre `counts`.
#[expect(clippy::cast_possible_truncation, reason = "a distance inside a plan, far below 2^53")]
pub(super) fn find(floors: &[Region], sought: Sought, counts: impl Fn(Point) -> bool) -> Option<(Point, Length)> {
    if let [floor] = floors
        && let Some(disc) = in_rectangle(floor, &counts)
    {
        return Some(disc);
    }
    let mut best: Option<(Point, f64)> = None;
    for floor in floors {
        best = Search::of(floor, sought).larger(best, &counts).or(best);
        if best.is_some() && matches!(sought, Sought::AtLeast(_)) {
            break;
        }
    }
    let (centre, radius) = best?;
    Some((centre, Length::from_steps((2.0 * radius + ROUNDING).floor() as i64)))
}

/// The disc in the middle of a floor that is a rectangle square to the axes: most rooms.
fn in_rectangle(floor: &Region, counts: impl Fn(Point) -> bool) -> Option<(Point, Length)> {
    let [a, _, c, _] = *floor.outer.as_slice() else { return None };
    if !floor.holes.is_empty() || floor.sides().any(|(a, b)| a.x != b.x && a.y != b.y) {
        return None;
    }
    let (middle, across) = (crate::rooms::middle(a, c), c - a);
    counts(middle).then(|| (middle, across.x.abs().min(across.y.abs())))
}

/// A side of a floor, with the inside to its left.
struct Side {
    line: Feature,
    a: [f64; 2],
    b: [f64; 2],
    /// Its bounds.
    low: [f64; 2],
    high: [f64; 2],
    /// Along the side.
    unit: [f64; 2],
    length: f64,
    /// Whether the floor's corner at its end juts in.
    juts: bool,
}

impl Side {
    fn distance(&self, at: [f64; 2]) -> f64 {
        let (x, y) = (at[0] - self.a[0], at[1] - self.a[1]);
        let ahead = x * self.unit[0] + y * self.unit[1];
        if ahead <= 0.0 {
            length([x, y])
        } else if ahead >= self.length {
            length([at[0] - self.b[0], at[1] - self.b[1]])
        } else {
            (y * self.unit[0] - x * self.unit[1]).abs()
        }
    }

    /// No more than the distance from any place of a box, and no less than from every place of it, both squared.
    fn squared_distances(&self, cell: &Cell) -> (f64, f64) {
        let (x, y) = (self.beside(cell, 0), self.beside(cell, 1));
        let nearest = x.0 * x.0 + y.0 * y.0;
        if self.unit[0] == 0.0 || self.unit[1] == 0.0 {
            return (nearest, x.1 * x.1 + y.1 * y.1);
        }
        let (middle, around) = (self.distance(cell.at), length(cell.half));
        (nearest.max((middle - around).max(0.0).powi(2)), (middle + around).powi(2))
    }

    /// No more than how far it is from any place of a box along one axis, and no less than from every place.
    fn beside(&self, cell: &Cell, axis: usize) -> (f64, f64) {
        let (from, to) = (cell.at[axis] - cell.half[axis], cell.at[axis] + cell.half[axis]);
        let (before, behind) = (self.low[axis] - from, to - self.high[axis]);
        let outside = if before > to - from { before - (to - from) } else { behind - (to - from) };
        let furthest = if before > behind { before } else { behind };
        (if outside > 0.0 { outside } else { 0.0 }, if furthest > 0.0 { furthest } else { 0.0 })
    }

    /// Whether some place of a box lies before the side, on its inside.
    fn is_before(&self, cell: &Cell) -> bool {
        let (x, y) = (cell.at[0] - self.a[0], cell.at[1] - self.a[1]);
        let reach = |u: f64, v: f64| u.abs() * cell.half[0] + v.abs() * cell.half[1];
        let ahead = x * self.unit[0] + y * self.unit[1];
        let left = y * self.unit[0] - x * self.unit[1];
        let (along, aside) = (reach(self.unit[0], self.unit[1]), reach(self.unit[1], self.unit[0]));
        ahead + along >= 0.0 && ahead - along <= self.length && left + aside >= 0.0
    }
}

/// Inside a plan nothing overflows, and this is several times as fast as `hypot`.
fn length([x, y]: [f64; 2]) -> f64 {
    (x * x + y * y).sqrt()
}

/// A box of the plan.
struct Cell {
    at: [f64; 2],
    half: [f64; 2],
    /// The square of a radius that no disc with its centre in the box exceeds.
    promises: f64,
    /// The sides that count in it, in the search's list.
    sides: Range<usize>,
    /// Whether it is known to lie inside the floor.
    is_inside: bool,
}

impl PartialEq for Cell {
    fn eq(&self, other: &Self) -> bool {
        self.cmp(other).is_eq()
    }
}

impl Eq for Cell {}

impl PartialOrd for Cell {
    fn partial_cmp(&self, other: &Self) -> Option<std::cmp::Ordering> {
        Some(self.cmp(other))
    }
}

impl Ord for Cell {
    fn cmp(&self, other: &Self) -> std::cmp::Ordering {
        self.promises.total_cmp(&other.promises)
    }
}

struct Search {
    /// Smaller radii are of no use.
    least: f64,
    is_first_enough: bool,
    origin: Point,
    half: [f64; 2],
    sides: Vec<Side>,
}

impl Search {
    #[expect(clippy::cast_precision_loss, reason = "exact in f64 below 2^53")]
    fn of(floor: &Region, sought: Sought) -> Self {
        let first = floor.outer.first().copied().unwrap_or_default();
        let (low, high) = floor.outer.iter().fold((first, first), |(low, high), p| {
            (Point::new(low.x.min(p.x), low.y.min(p.y)), Point::new(high.x.max(p.x), high.y.max(p.y)))
        });
        let origin = crate::rooms::middle(low, high);
        let local = |p: Point| [(p.x - origin.x).steps() as f64, (p.y - origin.y).steps() as f64];
        let mut sides = Vec::new();
        for boundary in floor.boundaries() {
            let next = sides_of(boundary).cycle().skip(1);
            for ((p, q), (_, after)) in sides_of(boundary).zip(next).filter(|((p, q), _)| p != q) {
                let (a, b) = (local(p), local(q));
                let length = (b[0] - a[0]).hypot(b[1] - a[1]);
                let unit = [(b[0] - a[0]) / length, (b[1] - a[1]) / length];
                let juts = cross(p, q, after) < 0;
                let (low, high) = ([a[0].min(b[0]), a[1].min(b[1])], [a[0].max(b[0]), a[1].max(b[1])]);
                sides.push(Side { line: Feature::line(a, unit), a, b, low, high, unit, length, juts });
            }
        }
        let half = local(high);
        let (least, is_first_enough) = match sought {
            Sought::Largest => (0.0, false),
            Sought::AtLeast(diameter) => (diameter.steps() as f64 / 2.0 - ROUNDING, true),
        };
        Self { least, is_first_enough, origin, half: [half[0] + 1.0, half[1] + 1.0], sides }
    }

    #[expect(clippy::cast_possible_truncation, reason = "a place of the plan")]
    fn on_plan(&self, at: [f64; 2]) -> Point {
        self.origin + Point::new(Length::from_steps(at[0].round() as i64), Length::from_steps(at[1].round() as i64))
    }

    /// Even-odd rule with a ray to the right.
    fn contains(&self, at: [f64; 2]) -> bool {
        let crossed = self.sides.iter().filter(|side| {
            (side.a[1] > at[1]) != (side.b[1] > at[1])
                && at[0] < side.a[0] + (at[1] - side.a[1]) / (side.b[1] - side.a[1]) * (side.b[0] - side.a[0])
        });
        crossed.count() % 2 == 1
    }

    /// A larger disc than the best one so far.
    fn larger(&self, mut best: Option<(Point, f64)>, counts: impl Fn(Point) -> bool) -> Option<(Point, f64)> {
        let mut found = None;
        let mut counting: Vec<usize> = (0..self.sides.len()).collect();
        let whole =
            Cell { at: [0.0; 2], half: self.half, promises: f64::INFINITY, sides: 0..counting.len(), is_inside: false };
        let mut cells = BinaryHeap::from([whole]);
        let (mut features, mut reached) = (Vec::new(), Vec::new());
        while let Some(cell) = cells.pop() {
            let radius = best.map_or(self.least, |(_, radius)| radius);
            if cell.promises <= radius * radius {
                break;
            }
            let may_divide = cell.half[0].max(cell.half[1]) > SMALL;
            let are_many = may_divide && cell.sides.len() > 2 * FEW;
            if !are_many {
                self.features(&cell, &counting, &mut features);
            }
            if are_many || may_divide && features.len() > FEW {
                cells.extend(self.halves(&cell, &mut counting, &mut reached, radius));
                continue;
            }
            for_each_place(&features, |at, radius| {
                let largest = best.map_or(self.least, |(_, radius)| radius);
                if radius <= largest || !cell.holds(at) {
                    return;
                }
                let sides = counting[cell.sides.clone()].iter();
                let clear = sides.map(|side| self.sides[*side].distance(at)).fold(f64::INFINITY, f64::min);
                if clear > largest && (cell.is_inside || self.contains(at)) && counts(self.on_plan(at)) {
                    best = Some((self.on_plan(at), clear));
                    found = best;
                }
            });
            if self.is_first_enough && found.is_some() {
                break;
            }
        }
        found
    }

    /// What may hold a disc that has its centre in a box: sides that it lies before, and corners that jut in.
    fn features(&self, cell: &Cell, counting: &[usize], features: &mut Vec<Feature>) {
        features.clear();
        for side in counting[cell.sides.clone()].iter().map(|side| &self.sides[*side]) {
            if side.is_before(cell) && !features.contains(&side.line) {
                features.push(side.line);
            }
            if side.juts {
                features.push(Feature::Corner(side.b));
            }
        }
    }

    /// A box cut in two across its longer side, without what promises no more than a radius.
    fn halves(
        &self,
        cell: &Cell,
        counting: &mut Vec<usize>,
        reached: &mut Vec<(usize, f64)>,
        radius: f64,
    ) -> impl Iterator<Item = Cell> + use<> {
        let axis = usize::from(cell.half[1] > cell.half[0]);
        let mut half = cell.half;
        half[axis] /= 2.0;
        let halves = [-half[axis], half[axis]].map(|by| {
            let mut at = cell.at;
            at[axis] += by;
            let mut part = Cell { at, half, promises: f64::INFINITY, sides: 0..0, is_inside: cell.is_inside };
            let mut nearest = f64::INFINITY;
            reached.clear();
            for index in cell.sides.clone() {
                let (low, high) = self.sides[counting[index]].squared_distances(&part);
                if low <= part.promises {
                    reached.push((counting[index], low));
                    part.promises = part.promises.min(high);
                    nearest = nearest.min(low);
                    if part.promises <= radius * radius {
                        return None;
                    }
                }
            }
            let start = counting.len();
            // Less what was taken before a nearer side was known.
            let kept = reached.iter().filter(|(_, low)| *low <= part.promises).map(|(side, _)| *side);
            counting.extend(kept);
            part.sides = start..counting.len();
            // Where no side passes, it is all inside or all outside.
            if nearest > 0.0 && !part.is_inside {
                part.is_inside = self.contains(at);
                return part.is_inside.then_some(part);
            }
            Some(part)
        });
        halves.into_iter().flatten()
    }
}

impl Cell {
    /// Whether a place lies in it, or next to it by no more than rounding.
    fn holds(&self, at: [f64; 2]) -> bool {
        let lies = |axis: usize| (at[axis] - self.at[axis]).abs() <= self.half[axis] + ROUNDING;
        lies(0) && lies(1)
    }
}
