//! Shapes whose sides are all square to the axes, laid over each other: exact, and several times as fast as what has to find
//! out where slanted sides cross.
//!
//! An upright line is swept over the plan from left to right. Along it lie levels, and between each two of them ground that
//! each kind of shape winds around so many times. Where the line crosses upright sides, ground that becomes wanted, or no
//! longer is, makes the upright sides of the result; the level sides between these follow, since at every level they run
//! from one corner to the next.

mod boundaries;

use std::ops::AddAssign;

use plan_model::{Length, Point};

use crate::Region;
use crate::region::sides_of;

/// Which ground is wanted.
#[derive(Clone, Copy, Debug)]
pub(super) enum Wanted {
    /// What lies in any of the subjects.
    Subjects,
    /// What lies in the subjects and in no clip.
    SubjectsLessClips,
    /// What lies in the subjects and in a clip as well.
    SubjectsInClips,
}

impl Wanted {
    const fn has(self, ground: Winding) -> bool {
        let Winding { subjects, clips } = ground;
        subjects != 0
            && match self {
                Self::Subjects => true,
                Self::SubjectsLessClips => clips == 0,
                Self::SubjectsInClips => clips != 0,
            }
    }
}

/// How often shapes wind around some ground.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
struct Winding {
    subjects: i32,
    clips: i32,
}

impl AddAssign for Winding {
    fn add_assign(&mut self, other: Self) {
        self.subjects += other.subjects;
        self.clips += other.clips;
    }
}

/// An upright side of one of the shapes.
#[derive(Debug)]
struct Side {
    x: Length,
    low: Length,
    high: Length,
    /// What the winding of the ground to its right has more than that to its left.
    turns: Winding,
}

/// An upright side of the result, with the ground that it bounds on the left of whoever walks it.
#[derive(Debug)]
struct Upright {
    x: Length,
    low: Length,
    high: Length,
    /// Whether it is walked upwards: it bounds ground to the left on the plan.
    rises: bool,
    /// The upright sides at the far ends of the level ones before and after it.
    before: usize,
    next: usize,
    /// Where ground touches ground at a corner only: the side in line with this one from whose start this one starts, and
    /// that at whose end it ends.
    starts_at: usize,
    ends_at: usize,
    /// Of a side that rises: one of the boundary of the ground right under its lower end.
    under: usize,
}

/// No upright side, or one that is not known yet.
const NONE: usize = usize::MAX;

impl Upright {
    /// From its lower end on; how far, and what it is tied to, shows later.
    const fn from(lower_end: Point, rises: bool, under: usize) -> Self {
        let [before, next, starts_at, ends_at] = [NONE; 4];
        Self { x: lower_end.x, low: lower_end.y, high: lower_end.y, rises, before, next, starts_at, ends_at, under }
    }
}

/// A level at which the winding of the ground along the line changes.
#[derive(Clone, Copy, Debug)]
struct Level {
    y: Length,
    /// The winding of the ground above, up to the next level, just left of the line.
    before: Winding,
    /// The same, just right of the line.
    after: Winding,
    /// Where a level side of the result runs towards the line: the upright side from whose end it comes.
    from: usize,
}

/// The upright sides of shapes that are square to the axes.
#[derive(Debug, Default)]
pub(super) struct Sides(Vec<Side>);

impl Sides {
    /// Of some subjects; none if a side is slanted.
    pub(super) fn of<'a>(subjects: impl IntoIterator<Item = &'a [Point]>) -> Option<Self> {
        let mut sides = Self::default();
        sides.add(subjects, |subjects| Winding { subjects, clips: 0 })?;
        Some(sides)
    }

    /// Of some subjects and clips; none if a side is slanted.
    pub(super) fn with_clips<'a, 'b>(
        subjects: impl IntoIterator<Item = &'a [Point]>,
        clips: impl IntoIterator<Item = &'b [Point]>,
    ) -> Option<Self> {
        let mut sides = Self::of(subjects)?;
        sides.add(clips, |clips| Winding { subjects: 0, clips })?;
        Some(sides)
    }

    fn add<'a>(
        &mut self,
        boundaries: impl IntoIterator<Item = &'a [Point]>,
        winding: impl Fn(i32) -> Winding,
    ) -> Option<()> {
        for (a, b) in boundaries.into_iter().flat_map(sides_of) {
            if a.x == b.x {
                let turns = winding(if a.y > b.y { 1 } else { -1 });
                if a.y != b.y {
                    self.0.push(Side { x: a.x, low: a.y.min(b.y), high: a.y.max(b.y), turns });
                }
            } else if a.y != b.y {
                return None;
            }
        }
        Some(())
    }
}

/// The ground that is wanted of shapes with these upright sides.
///
/// Where ground touches ground at a corner only, it is not joined there, nor are two holes.
pub(super) fn overlay(Sides(mut sides): Sides, wanted: Wanted) -> Vec<Region> {
    sides.sort_unstable_by_key(|side| (side.x, side.low));
    let mut sweep = Sweep { wanted, levels: Vec::new(), uprights: Vec::with_capacity(sides.len()) };
    for at_once in sides.chunk_by(|one, next| one.x == next.x) {
        sweep.cross(at_once);
    }
    boundaries::regions(sweep.uprights)
}

struct Sweep {
    wanted: Wanted,
    /// From the lowest to the highest.
    levels: Vec<Level>,
    /// In the order of their lower ends, from left to right, and upwards.
    uprights: Vec<Upright>,
}

impl Sweep {
    /// Moves the line over sides that lie on it.
    fn cross(&mut self, sides: &[Side]) {
        for side in sides {
            let (low, high) = (self.level(side.low), self.level(side.high));
            for level in &mut self.levels[low..high] {
                level.after += side.turns;
            }
        }
        let mut sides = sides.iter().peekable();
        while let Some(side) = sides.next() {
            let mut high = side.high;
            while let Some(side) = sides.next_if(|next| next.low <= high) {
                high = high.max(side.high);
            }
            self.pass(side.x, side.low, high);
        }
    }

    /// The level at a height; laid there if there is none.
    fn level(&mut self, y: Length) -> usize {
        let at = self.levels.partition_point(|level| level.y < y);
        if self.levels.get(at).is_none_or(|level| level.y > y) {
            let (before, after) = self.winding_under(at);
            self.levels.insert(at, Level { y, before, after, from: NONE });
        }
        at
    }

    /// The winding of the ground under a level, on both sides of the line.
    fn winding_under(&self, level: usize) -> (Winding, Winding) {
        level
            .checked_sub(1)
            .map_or_else(Default::default, |under| (self.levels[under].before, self.levels[under].after))
    }

    /// Moves the line over a stretch between two levels, and drops those at which nothing changes any more.
    fn pass(&mut self, x: Length, low: Length, high: Length) {
        let mut at = self.levels.partition_point(|level| level.y < low);
        let mut kept = at;
        let mut below = self.winding_under(at);
        let mut upright = None;
        while let Some(level) = self.levels.get(at).filter(|level| level.y <= high).copied() {
            at += 1;
            let above = (level.before, level.after);
            let from = self.corner(x, &level, kept, below, &mut upright);
            if level.after != below.1 {
                self.levels[kept] = Level { before: level.after, from, ..level };
                kept += 1;
            }
            below = above;
        }
        self.levels.drain(kept..at);
    }

    /// Makes what corner of the result there is at a level: ends the upright side below it, begins the one above it, and ties
    /// them to level sides. Gives the upright side from which the level side runs on.
    fn corner(
        &mut self,
        x: Length,
        level: &Level,
        index: usize,
        below: (Winding, Winding),
        upright: &mut Option<usize>,
    ) -> usize {
        let covered = |(before, after)| (self.wanted.has(before), self.wanted.has(after));
        let (below, above) = (covered(below), covered((level.before, level.after)));
        if below == above {
            // No corner, and no level side: what upright side there is runs on.
            return NONE;
        }
        let ended = upright.take();
        if let Some(ended) = ended {
            self.uprights[ended].high = level.y;
        }
        if above.0 != above.1 {
            let rises = above.0;
            let under = if rises { self.boundary_under(index) } else { NONE };
            *upright = Some(self.uprights.len());
            self.uprights.push(Upright::from(Point::new(x, level.y), rises, under));
        }
        let (left, right) = match (ended, *upright) {
            (None, None) => return level.from,
            (Some(only), None) | (None, Some(only)) => (only, only),
            (Some(ended), Some(begun)) => {
                if self.uprights[ended].rises {
                    (self.uprights[ended].ends_at, self.uprights[begun].ends_at) = (begun, ended);
                    (ended, begun)
                } else {
                    (self.uprights[ended].starts_at, self.uprights[begun].starts_at) = (begun, ended);
                    (begun, ended)
                }
            }
        };
        if below.0 != above.0 {
            // Ground below a level side is on the left of whoever walks it leftwards.
            let [one, next] = if below.0 { [left, level.from] } else { [level.from, left] };
            self.uprights[one].next = next;
            self.uprights[next].before = one;
        }
        if below.1 == above.1 { NONE } else { right }
    }

    /// An upright side of the boundary under the ground that lies under a level, right of the line.
    fn boundary_under(&self, level: usize) -> usize {
        let covered = self.levels[..level].iter().rev().take_while(|level| self.wanted.has(level.after));
        covered.last().map_or(NONE, |lowest| lowest.from)
    }
}
