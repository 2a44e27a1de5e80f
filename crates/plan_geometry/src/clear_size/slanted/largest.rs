//! The largest rectangle, or the largest square, in a region with slanted sides.
//!
//! Why nothing larger fits. The left end of a rectangle lies in some slab, its right end in the same or a later one, and
//! between them it goes through trapezoids that follow on each other: a *run*. Within a run the height at hand is the
//! least of three tops less the greatest of three bottoms: that of the corners and sides in between, which does not
//! change, that of the side over the left end, and that of the side over the right end; the last two are straight lines
//! over the places of the two ends. Where one top and one bottom decide, the area is the product of the width and of one
//! linear height. Such a product has no peak: wherever both its slopes vanish, the height depends on the width alone, so
//! that the rectangle can be moved at the same area until something else decides. So the greatest area of a run lies where
//! an end is on a corner's x or where two tops or two bottoms are equal: on at most ten straight lines over the places of
//! the ends. On such a line the area is made of pieces of parabolas, and its greatest is at an end of the line, where the
//! piece changes, or at the top of a parabola. All of these are tried. The same lines hold the largest square, whose side
//! is the lesser of width and height: it is where the piece changes or where width and height are equal.
//!
//! Every run is tried, or is left out because it could not be larger than what was found even if nothing narrowed it.

use super::slabs::{Side, Slab, Trapezoid, Window, slabs};
use crate::Region;

/// What is to be as large as possible.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Aim {
    /// The area of a rectangle.
    Area,
    /// The side of a square: the lesser of a rectangle's width and height.
    Square,
}

impl Aim {
    fn score(self, width: f64, height: f64) -> f64 {
        match self {
            Self::Area if width <= 0.0 || height <= 0.0 => 0.0,
            Self::Area => width * height,
            Self::Square => width.min(height),
        }
    }

    /// Where along a line the score may be greatest while one width and one height decide; not a number if nowhere.
    fn turning_point(self, width: Linear, height: Linear) -> f64 {
        match self {
            Self::Area => {
                let falls = -2.0 * width.slope * height.slope;
                width.slope.mul_add(height.start, width.start * height.slope) / falls
            }
            Self::Square => (height.start - width.start) / (width.slope - height.slope),
        }
    }
}

/// The place of a rectangle, not yet on the grid.
#[derive(Clone, Copy, Debug)]
pub(super) struct Found {
    /// The area, or the side of the square.
    pub(super) score: f64,
    pub(super) left: f64,
    pub(super) right: f64,
    pub(super) low: f64,
    pub(super) high: f64,
}

impl Found {
    fn short_side(&self) -> f64 {
        (self.right - self.left).min(self.high - self.low)
    }
}

/// How little two scores may differ and be told apart: all but one part in so many.
///
/// Whole steps are exact in `f64`, and what is computed from them is good to some 15 places.
const SAME_SCORE: f64 = 1e-11;

/// The largest; of equal ones the one with the longer short side. None where the region holds nothing.
pub(super) fn largest(region: &Region, aim: Aim) -> Option<Found> {
    let slabs = slabs(region);
    let mut search = Search { slabs: &slabs, aim, best: 0.0, found: Vec::new() };
    for (start, slab) in slabs.iter().enumerate() {
        for trapezoid in &slab.trapezoids {
            search.runs_from(start, *trapezoid);
        }
    }
    let enough = search.best * (1.0 - SAME_SCORE);
    let equal = search.found.into_iter().filter(|found| found.score >= enough);
    equal.max_by(|one, other| one.short_side().total_cmp(&other.short_side()))
}

struct Search<'a> {
    slabs: &'a [Slab],
    aim: Aim,
    best: f64,
    found: Vec<Found>,
}

impl Search<'_> {
    /// Tries every run whose left end lies in a trapezoid of a slab.
    fn runs_from(&mut self, start: usize, first: Trapezoid) {
        let [Some(slab), Some(last)] = [self.slabs.get(start), self.slabs.last()] else { return };
        let (left, extent) = (slab.left, last.right - slab.left);
        let across = slab.right - left;
        let at_ends = [first.at(left), first.at(slab.right)];
        let highest = at_ends[0].high.max(at_ends[1].high) - at_ends[0].low.min(at_ends[1].low);
        if self.may_be_larger(across, highest) {
            let open = Window { low: f64::NEG_INFINITY, high: f64::INFINITY };
            self.try_run(&Run { left: End::of(slab, first), right: End::of(slab, first), between: open });
        }
        let mut reached = vec![at_ends[1]];
        for next in &self.slabs[start + 1..] {
            let mut onward = Vec::new();
            for window in reached {
                for trapezoid in &next.trapezoids {
                    let between = window.shared(trapezoid.at(next.left));
                    if between.height() <= 0.0 || !self.may_be_larger(extent, between.height()) {
                        continue;
                    }
                    if self.may_be_larger(next.right - left, between.height()) {
                        self.try_run(&Run { left: End::of(slab, first), right: End::of(next, *trapezoid), between });
                    }
                    let through = between.shared(trapezoid.at(next.right));
                    if through.height() > 0.0 {
                        onward.push(through);
                    }
                }
            }
            if onward.is_empty() {
                return;
            }
            reached = onward;
        }
    }

    /// Whether a rectangle of at most this width and height may be at least as large as the largest found.
    fn may_be_larger(&self, width: f64, height: f64) -> bool {
        self.aim.score(width, height) >= self.best * (1.0 - SAME_SCORE)
    }

    fn try_run(&mut self, run: &Run) {
        let Some(found) = run.largest(self.aim) else { return };
        if found.score >= self.best * (1.0 - SAME_SCORE) {
            self.best = self.best.max(found.score);
            self.found.push(found);
        }
    }
}

/// Where one end of a rectangle may lie: in one trapezoid, anywhere in its slab. Places are taken from the slab's left, so
/// that a steep side does not make large numbers.
#[derive(Clone, Copy)]
struct End {
    from: f64,
    across: f64,
    upper: Linear,
    lower: Linear,
}

impl End {
    fn of(slab: &Slab, trapezoid: Trapezoid) -> Self {
        let over = |side: Side| Linear { start: side.at(slab.left), slope: side.slope };
        let (upper, lower) = (over(trapezoid.upper), over(trapezoid.lower));
        Self { from: slab.left, across: slab.right - slab.left, upper, lower }
    }
}

/// A figure that rises or falls evenly along a line.
#[derive(Clone, Copy)]
struct Linear {
    start: f64,
    slope: f64,
}

impl Linear {
    fn at(self, t: f64) -> f64 {
        // A bound that does not count is infinite and has no slope.
        if self.slope == 0.0 { self.start } else { self.slope.mul_add(t, self.start) }
    }

    /// Where it equals a figure; not a number, or infinite, if nowhere.
    fn reaches(self, figure: f64) -> f64 {
        (figure - self.start) / self.slope
    }

    /// Where two are equal; not a number, or infinite, if nowhere.
    fn meets(self, other: Self) -> f64 {
        (other.start - self.start) / (self.slope - other.slope)
    }

    /// The same figure along a line on which its own variable goes evenly.
    fn along(self, variable: Self) -> Self {
        Self { start: self.at(variable.start), slope: self.slope * variable.slope }
    }
}

/// All rectangles whose ends lie in two given trapezoids and that go through the same ones in between.
struct Run {
    left: End,
    right: End,
    /// The heights that everything between the two slabs leaves.
    between: Window,
}

/// A line over the places of the two ends.
struct Line {
    left: Linear,
    right: Linear,
}

impl Run {
    fn largest(&self, aim: Aim) -> Option<Found> {
        let mut best: Option<Found> = None;
        for line in self.lines() {
            self.try_line(&line, aim, &mut best);
        }
        best
    }

    /// The lines on which an end is on a corner's x or two tops or two bottoms are equal.
    fn lines(&self) -> impl Iterator<Item = Line> {
        let Self { left, right, between } = self;
        let moving = Linear { start: 0.0, slope: 1.0 };
        let still = |start| Linear { start, slope: 0.0 };
        let stops = |end: &End| {
            let stops = [0.0, end.across, end.upper.reaches(between.high), end.lower.reaches(between.low)];
            let across = end.across;
            stops.into_iter().filter(move |stop| *stop >= 0.0 && *stop <= across)
        };
        let left_stands = stops(left).map(move |at| Line { left: still(at), right: moving });
        let right_stands = stops(right).map(move |at| Line { left: moving, right: still(at) });
        let equal = [(left.upper, right.upper), (left.lower, right.lower)];
        let equal = equal.into_iter().filter(|(one, other)| one.slope != 0.0 && other.slope != 0.0);
        let both_move = equal.map(move |(one, other)| {
            // The end under the flatter side goes evenly, so that the other's place is told exactly enough.
            let follows =
                |led: Linear, leads: Linear| Linear { start: led.reaches(leads.start), slope: leads.slope / led.slope };
            if one.slope.abs() <= other.slope.abs() {
                Line { left: moving, right: follows(other, one) }
            } else {
                Line { left: follows(one, other), right: moving }
            }
        });
        left_stands.chain(right_stands).chain(both_move)
    }

    fn try_line(&self, line: &Line, aim: Aim, best: &mut Option<Found>) {
        let Self { left, right, between } = self;
        let still = |start| Linear { start, slope: 0.0 };
        let tops = [still(between.high), left.upper.along(line.left), right.upper.along(line.right)];
        let bottoms = [still(between.low), left.lower.along(line.left), right.lower.along(line.right)];
        let apart = right.from - left.from;
        let width =
            Linear { start: apart + line.right.start - line.left.start, slope: line.right.slope - line.left.slope };
        let [mut from, mut to] = [f64::NEG_INFINITY, f64::INFINITY];
        for (place, across) in [(line.left, left.across), (line.right, right.across)] {
            if place.slope != 0.0 {
                let ends = [place.reaches(0.0), place.reaches(across)];
                from = from.max(ends[0].min(ends[1]));
                to = to.min(ends[0].max(ends[1]));
            }
        }
        let mut try_at = |t: f64| {
            // False too where there is no such place.
            if !(t >= from && t <= to) {
                return;
            }
            let high = tops.iter().fold(f64::INFINITY, |high, top| high.min(top.at(t)));
            let low = bottoms.iter().fold(f64::NEG_INFINITY, |low, bottom| low.max(bottom.at(t)));
            let score = aim.score(width.at(t), high - low);
            if score > best.map_or(0.0, |best| best.score) {
                let (left, right) = (left.from + line.left.at(t), right.from + line.right.at(t));
                *best = Some(Found { score, left, right, low, high });
            }
        };
        try_at(from);
        try_at(to);
        for [one, other] in [[0, 1], [0, 2], [1, 2]] {
            try_at(tops[one].meets(tops[other]));
            try_at(bottoms[one].meets(bottoms[other]));
        }
        for top in tops {
            for bottom in bottoms {
                let height = Linear { start: top.start - bottom.start, slope: top.slope - bottom.slope };
                try_at(aim.turning_point(width, height));
            }
        }
    }
}
