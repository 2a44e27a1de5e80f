//! Places for the figures of one string, clear of each other and of every line that passes.

use super::string::Row;
use crate::lettering::width_per_height;

/// Between a string and the foot of its figures, in heights of lettering.
pub(super) const GAP: f64 = 0.5;
/// Between two figures one above the other.
pub(super) const BETWEEN: f64 = 0.35;
/// Least space between two figures side by side.
const APART: f64 = 0.5;
/// Least space between a figure and a line beside it.
const BESIDE_LINE: f64 = 0.2;

/// Where a figure stands across its string.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Level {
    /// Towards the house.
    Inward,
    /// Away from the house.
    Outward,
    /// Beyond the figures that stand outward.
    Second,
}

impl Level {
    /// How far figures reach from their string on its near level.
    pub(super) const OUTREACH: f64 = GAP + 1.0;

    /// From where to where outwards, in heights of lettering.
    pub(super) const fn span(self) -> (f64, f64) {
        match self {
            Self::Inward => (-GAP - 1.0, -GAP),
            Self::Outward => (GAP, GAP + 1.0),
            Self::Second => (GAP + 1.0 + BETWEEN, GAP + 2.0 + BETWEEN),
        }
    }
}

/// A figure in its place.
#[derive(Clone, Copy, Debug)]
pub(super) struct Figure<'row> {
    pub(super) text: &'row str,
    /// Along the string, in inches.
    pub(super) middle: f64,
    width: f64,
    pub(super) level: Level,
    /// From its part of the string to itself: inches along, heights of lettering out.
    pub(super) leader: Option<[(f64, f64); 2]>,
}

impl Figure<'_> {
    fn ends(&self) -> (f64, f64) {
        (self.middle - self.width / 2.0, self.middle + self.width / 2.0)
    }

    /// Whether one would touch the other on the same level.
    pub(super) fn is_beside(&self, other: &Self, lettering: f64) -> bool {
        (self.middle - other.middle).abs() < (self.width + other.width) / 2.0 + APART * lettering
    }

    /// Whether its leader passes where the other figure stands.
    fn leads_through(&self, other: &Self, lettering: f64) -> bool {
        let Some([from, to]) = self.leader else { return false };
        let (low, high) = other.ends();
        let pad = BESIDE_LINE * lettering;
        other.level == Level::Outward && from.0.min(to.0) < high + pad && low - pad < from.0.max(to.0)
    }

    fn is_clear_of(&self, other: &Self, lettering: f64) -> bool {
        let apart = self.level != other.level || !self.is_beside(other, lettering);
        apart && !self.leads_through(other, lettering) && !other.leads_through(self, lettering)
    }

    fn is_crossed(&self, crossed_at: &[f64], lettering: f64) -> bool {
        let ((low, high), pad) = (self.ends(), BESIDE_LINE * lettering);
        crossed_at.iter().any(|cut| low - pad < *cut && *cut < high + pad)
    }
}

/// A part of a string with what it has to say.
#[derive(Clone, Copy)]
struct Part<'row> {
    from: f64,
    to: f64,
    text: &'row str,
    width: f64,
    fits: bool,
}

/// Places the figures of a string; one that finds no place is left out.
///
/// A figure that fits between its ticks stands there, on the side that reads as above. The others stand over their
/// ticks on the side away from the house, where few extension lines run, or a level farther out with a leader.
pub(super) fn place<'row>(row: &'row Row, above: Level, crossed_at: &[f64], lettering: f64) -> Vec<Figure<'row>> {
    let parts = row.named_parts().map(|(from, to, text)| {
        let width = width_per_height(text) * lettering;
        let fits = width + 2.0 * BESIDE_LINE * lettering <= to - from;
        Part { from, to, text, width, fits }
    });
    let along: Vec<Part<'row>> = parts.collect();
    // Those that fit, then those with the least room, which have the fewest places to choose from; where that leaves
    // one out, other turns may not.
    let mut by_room = along.clone();
    by_room.sort_by(|a, b| b.fits.cmp(&a.fits).then((a.to - a.from).total_cmp(&(b.to - b.from))));
    let mut narrowest = along.clone();
    narrowest.sort_by(|a, b| (a.to - a.from).total_cmp(&(b.to - b.from)));
    let mut back = along.clone();
    back.reverse();
    let mut best = Vec::new();
    for turn in [by_room, narrowest, along, back] {
        let placed = place_in_turn(&turn, above, crossed_at, lettering);
        if placed.len() == turn.len() {
            return placed;
        }
        if placed.len() > best.len() {
            best = placed;
        }
    }
    best
}

fn place_in_turn<'row>(parts: &[Part<'row>], above: Level, crossed_at: &[f64], lettering: f64) -> Vec<Figure<'row>> {
    let mut placed: Vec<Figure<'row>> = Vec::new();
    for part in parts {
        let is_free = |figure: &Figure<'_>| {
            !figure.is_crossed(crossed_at, lettering) && placed.iter().all(|other| figure.is_clear_of(other, lettering))
        };
        let between = part.between_ticks(above, lettering);
        let found = between.chain(part.over_ticks()).chain(part.with_leader(lettering)).find(is_free);
        placed.extend(found);
    }
    placed
}

/// How much farther a figure is shifted at a time, in widths of the figure.
const SHIFT: f64 = 0.08;

/// Steps to both sides, the least first.
fn shifts(least: f64, most: f64, step: f64) -> impl Iterator<Item = f64> {
    let from_least = move |count: u32| least + f64::from(count) * step;
    (0..).map(from_least).take_while(move |shift| *shift <= most).flat_map(|shift| [shift, -shift])
}

impl<'row> Part<'row> {
    fn middle(&self) -> f64 {
        (self.from + self.to) / 2.0
    }

    fn figure(&self, shift: f64, level: Level) -> Figure<'row> {
        let middle = self.middle() + shift * self.width;
        Figure { text: self.text, middle, width: self.width, level, leader: None }
    }

    /// Between its ticks, if it fits there.
    fn between_ticks(self, above: Level, lettering: f64) -> impl Iterator<Item = Figure<'row>> {
        let most = ((self.to - self.from - self.width) / 2.0 - BESIDE_LINE * lettering) / self.width;
        shifts(0.0, most, SHIFT).map(move |shift| self.figure(shift, above))
    }

    /// Outward of the ticks, still over some of its own part.
    fn over_ticks(self) -> impl Iterator<Item = Figure<'row>> {
        let most = 0.4 + (self.to - self.from) / (2.0 * self.width);
        shifts(0.0, most, SHIFT).map(move |shift| self.figure(shift, Level::Outward))
    }

    /// Beside its part or a level farther out, with a leader from its part.
    fn with_leader(self, lettering: f64) -> impl Iterator<Item = Figure<'row>> {
        /// Farther away a figure is taken for a neighbour's, in widths of the figure.
        const FARTHEST: f64 = 2.5;
        let led = move |shift: f64, level: Level| self.led(self.figure(shift, level), lettering);
        let beside = 0.6 + (self.to - self.from) / (2.0 * self.width);
        let near = shifts(0.0, 1.0, SHIFT).flat_map(move |shift| led(shift, Level::Second));
        let beside = shifts(beside, FARTHEST, SHIFT).flat_map(move |shift| led(shift, Level::Outward));
        let far = shifts(1.0, FARTHEST, SHIFT).flat_map(move |shift| led(shift, Level::Second));
        near.chain(beside).chain(far)
    }

    /// A figure with leaders from its part, the one from the middle first.
    fn led(self, figure: Figure<'row>, lettering: f64) -> impl Iterator<Item = Figure<'row>> {
        /// How far from the middle of its part a leader may start, and how finely that is tried, in lengths of the part.
        const STARTS: (f64, f64) = (0.42, 0.06);
        let (within, out) = match figure.level {
            Level::Second => ((self.width / 2.0 - 0.3 * lettering).max(0.0), figure.level.span().0 - 0.15),
            Level::Outward | Level::Inward => (self.width / 2.0 + BESIDE_LINE * lettering, GAP + 0.5),
        };
        shifts(0.0, STARTS.0, STARTS.1).map(move |start| {
            let start = self.middle() + start * (self.to - self.from);
            let end = start.clamp(figure.middle - within, figure.middle + within);
            Figure { leader: Some([(start, 0.1), (end, out)]), ..figure }
        })
    }
}
