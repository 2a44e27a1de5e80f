//! What lies ahead of a line: how far the floor on its left is free, square to it.
//!
//! Everything is looked at in the frame of the line: `along` it from its start, and `ahead` of it. Whatever faces the
//! line and stands ahead of it casts a *shade*: nothing behind a shade is free.

use plan_model::{Length, Point};

use super::clearance::{Clearance, Met};
use crate::kernel::{along, offset, project};
use crate::region::sides_of;
use crate::{Measured, OFF_AXIS_SLACK, Obstruction, Region};

/// Off the axes, what lies no further into a strip than this only touches its edge.
const TOUCH: i64 = OFF_AXIS_SLACK.steps();

/// A line of some length from which free floor is measured, to its left.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) struct Base {
    from: Point,
    to: Point,
}

impl Base {
    /// None for a line without a length.
    pub(super) fn new(from: Point, to: Point) -> Option<Self> {
        (from != to).then_some(Self { from, to })
    }

    /// The line of a front, whose outside lies ahead: a side of a counter-clockwise outline.
    pub(super) fn outside(side: [Point; 2]) -> Option<Self> {
        Self::new(side[1], side[0])
    }

    pub(super) const fn ends(self) -> [Point; 2] {
        [self.from, self.to]
    }

    pub(super) fn width(self) -> i64 {
        project(self.from, self.to, self.to).0.steps()
    }

    pub(super) fn is_square(self) -> bool {
        self.from.x == self.to.x || self.from.y == self.to.y
    }

    /// A point in the frame of the line.
    pub(super) fn place(self, point: Point) -> Place {
        let (along, ahead) = project(self.from, self.to, point);
        Place { along: along.steps(), ahead: ahead.steps() }
    }

    /// A place of the frame on the plan.
    pub(super) fn point(self, place: Place) -> Point {
        let on_line = along(self.from, self.to, Length::from_steps(place.along));
        offset(on_line, self.from, self.to, Length::from_steps(place.ahead))
    }

    /// Within how much of an edge something only touches it.
    pub(super) fn touch(self) -> i64 {
        if self.is_square() { 0 } else { TOUCH }
    }
}

/// A place in the frame of a line, in grid steps.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) struct Place {
    pub(super) along: i64,
    pub(super) ahead: i64,
}

/// What stands ahead of a stretch of the line and faces it; from left to right as seen along the line.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(super) struct Shade {
    ends: [Place; 2],
    pub(super) met: Met,
    is_square: bool,
}

impl Shade {
    fn nearest(&self) -> i64 {
        self.ends[0].ahead.min(self.ends[1].ahead)
    }

    /// Where it is nearest: in the middle if it is as near all along.
    fn nearest_place(&self) -> Place {
        let [a, b] = self.ends;
        match a.ahead.cmp(&b.ahead) {
            std::cmp::Ordering::Less => a,
            std::cmp::Ordering::Equal => Place { along: a.along + (b.along - a.along) / 2, ahead: a.ahead },
            std::cmp::Ordering::Greater => b,
        }
    }

    /// The stretch over which it is nearer than a depth, rounded outwards.
    fn nearer_than(&self, depth: i64) -> Option<[i64; 2]> {
        let [a, b] = self.ends;
        if self.nearest() >= depth {
            return None;
        }
        let crossing = || wide_ratio(depth - a.ahead, b.along - a.along, b.ahead - a.ahead);
        Some(if b.ahead >= depth {
            [a.along, (a.along + crossing() + 1).min(b.along)]
        } else if a.ahead >= depth {
            [(a.along + crossing()).max(a.along), b.along]
        } else {
            [a.along, b.along]
        })
    }
}

/// `part` times `of` over `whole`, rounded down; `whole` is not zero.
fn wide_ratio(part: i64, of: i64, whole: i64) -> i64 {
    let (product, whole) = (i128::from(part) * i128::from(of), i128::from(whole));
    let down = if whole < 0 { (-product).div_euclid(-whole) } else { product.div_euclid(whole) };
    i64::try_from(down).unwrap_or_default()
}

/// How far ahead the line through two places is at a distance along, rounded down.
fn ahead_at([a, b]: [Place; 2], along: i64) -> i64 {
    if a.ahead == b.ahead || along == a.along {
        return a.ahead;
    }
    if along == b.along {
        return b.ahead;
    }
    a.ahead + wide_ratio(along - a.along, b.ahead - a.ahead, b.along - a.along)
}

/// Everything ahead of a line.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(super) struct Ahead {
    base: Base,
    width: i64,
    shades: Vec<Shade>,
}

impl Ahead {
    /// What of a floor and of the things on it lies ahead of a line.
    pub(super) fn of<'a>(base: Base, region: &Region, standing: impl IntoIterator<Item = &'a Obstruction>) -> Self {
        let mut ahead = Self { base, width: base.width(), shades: Vec::new() };
        ahead.floor(region);
        for obstruction in standing {
            ahead.obstruction(obstruction);
        }
        ahead
    }

    /// The free depth of the strip as wide as the line; none for a line too short for anything to stand ahead of it.
    pub(super) fn clearance(&self) -> Option<Clearance> {
        let nearest = self.shades.iter().min_by_key(|shade| shade.nearest())?;
        let place = nearest.nearest_place();
        Some(self.clearance_to(self.base.ends(), place, nearest.met.clone()))
    }

    /// The deepest free rectangle of at least this width, or of the whole width of a shorter line, that stands against
    /// the line: the stretch of the line that it takes is the base of what is returned.
    pub(super) fn rectangle(&self, least_width: Length) -> Option<Clearance> {
        let least = least_width.steps().min(self.width).max(1) - self.base.touch();
        let widest = |depth: i64| self.free_to(depth).max_by_key(|[a, b]| b - a).filter(|[a, b]| b - a >= least);
        let furthest = self.shades.iter().flat_map(|shade| shade.ends.map(|end| end.ahead)).max()?;
        let (mut fits, mut too_deep) = (0, furthest + 1);
        while too_deep - fits > 1 {
            let middle = fits + (too_deep - fits) / 2;
            if widest(middle).is_some() {
                fits = middle;
            } else {
                too_deep = middle;
            }
        }
        let [from, to] = widest(fits)?;
        let standing = self.shades.iter().filter_map(|shade| {
            let [a, b] = shade.nearer_than(fits + 1)?;
            let [a, b] = [a.max(from), b.min(to)];
            (a < b).then_some((shade, Place { along: a + (b - a) / 2, ahead: fits }))
        });
        let (met, place) = standing.min_by_key(|(shade, _)| shade.nearest())?;
        let ends = [from, to].map(|along| self.base.point(Place { along, ahead: 0 }));
        Some(self.clearance_to(ends, place, met.met.clone()))
    }

    /// What is seen from the line, square to it, from its start to its end.
    ///
    /// Shades cross only where things overlap, which is a conflict; then the nearer one in the middle is taken.
    pub(super) fn seen(&self) -> Vec<Seen<'_>> {
        let mut cuts: Vec<i64> = self.shades.iter().flat_map(|shade| shade.ends.map(|end| end.along)).collect();
        cuts.sort_unstable();
        cuts.dedup();
        let mut seen: Vec<Seen<'_>> = Vec::new();
        for (from, to) in cuts.iter().copied().zip(cuts.iter().copied().skip(1)) {
            let middle = from + (to - from) / 2;
            let over = self.shades.iter().filter(|shade| shade.ends[0].along <= from && shade.ends[1].along >= to);
            let Some(shade) = over.min_by_key(|shade| ahead_at(shade.ends, middle)) else { continue };
            match seen.last_mut() {
                Some(last) if std::ptr::eq(last.shade, shade) && last.along[1] == from => last.along[1] = to,
                _ => seen.push(Seen { along: [from, to], shade }),
            }
        }
        seen
    }

    fn clearance_to(&self, base: [Point; 2], place: Place, met: Met) -> Clearance {
        let depth = Length::from_steps(place.ahead);
        Clearance {
            clear: Measured { value: depth, slack: self.slack(place.ahead) },
            base,
            span: [self.base.point(Place { ahead: 0, ..place }), self.base.point(place)],
            met,
        }
    }

    /// What a depth may be off by: a slanted face that seems to be a little further may be the nearest in truth.
    pub(super) fn slack(&self, depth: i64) -> Length {
        let may_be_nearest = |shade: &Shade| !shade.is_square && shade.nearest() <= depth + TOUCH;
        if !self.base.is_square() || self.shades.iter().any(may_be_nearest) { OFF_AXIS_SLACK } else { Length::ZERO }
    }

    /// The stretches of the line ahead of which nothing is nearer than a depth.
    fn free_to(&self, depth: i64) -> impl Iterator<Item = [i64; 2]> {
        let mut blocked: Vec<[i64; 2]> = self.shades.iter().filter_map(|shade| shade.nearer_than(depth)).collect();
        blocked.sort_unstable();
        blocked.push([self.width, self.width]);
        let mut free_from = 0;
        blocked.into_iter().filter_map(move |[from, to]| {
            let free = [free_from, from];
            free_from = free_from.max(to);
            (free[0] < free[1]).then_some(free)
        })
    }

    fn is_square(&self, [a, b]: [Place; 2]) -> bool {
        self.base.is_square() && a.ahead == b.ahead
    }

    /// The part of a segment, given from left to right, that lies in the open strip and not behind the line.
    fn in_strip(&self, [left, right]: [Place; 2]) -> Option<[Place; 2]> {
        if right.along <= 0 || left.along >= self.width || (left.ahead < 0 && right.ahead < 0) {
            return None;
        }
        let touch = if self.is_square([left, right]) { 0 } else { TOUCH };
        let [from, to] = [left.along.max(0), right.along.min(self.width)];
        if to - from <= touch {
            return None;
        }
        let clipped = [from, to].map(|along| Place { along, ahead: ahead_at([left, right], along) });
        let [a, b] = clipped;
        if a.ahead >= 0 && b.ahead >= 0 {
            return Some(clipped);
        }
        if a.ahead < 0 && b.ahead < 0 {
            return None;
        }
        let along = a.along + wide_ratio(-a.ahead, b.along - a.along, b.ahead - a.ahead);
        let on_line = Place { along: along.clamp(a.along, b.along), ahead: 0 };
        let ahead = if a.ahead < 0 { [on_line, b] } else { [a, on_line] };
        (ahead[0].along < ahead[1].along).then_some(ahead)
    }

    /// The faces of walls and columns, at which a floor ends going ahead.
    fn floor(&mut self, region: &Region) {
        // Sides at which a floor begins again, going ahead.
        let mut begins: Vec<[Place; 2]> = Vec::new();
        for (p, q) in region.sides() {
            let [p, q] = [self.base.place(p), self.base.place(q)];
            if q.along < p.along {
                if let Some(ends) = self.in_strip([q, p]) {
                    let is_square = self.is_square([q, p]);
                    self.shades.push(Shade { ends, met: Met::Wall, is_square });
                }
            } else if q.along > p.along
                && let Some(ends) = self.in_strip([p, q])
            {
                let touch = if self.is_square([p, q]) { 0 } else { TOUCH };
                if ends[0].ahead > touch || ends[1].ahead > touch {
                    begins.push(ends);
                }
            }
        }
        if begins.is_empty()
            && let [single] = self.shades.as_slice()
            && single.ends.map(|end| end.along) == [0, self.width]
        {
            return;
        }
        self.without_floor(&begins);
    }

    /// Where the line does not stand on the floor, the free depth is nothing. That is where the floor begins ahead of
    /// the line as often as it ends.
    fn without_floor(&mut self, begins: &[[Place; 2]]) {
        let ends: Vec<[Place; 2]> = self.shades.iter().map(|shade| shade.ends).collect();
        let is_square = self.base.is_square() && ends.iter().chain(begins).all(|[a, b]| a.ahead == b.ahead);
        let touch = if is_square { 0 } else { TOUCH };
        let mut cuts = vec![0, self.width];
        cuts.extend(ends.iter().chain(begins).flatten().map(|end| end.along));
        cuts.sort_unstable();
        cuts.dedup();
        for (from, to) in cuts.iter().copied().zip(cuts.iter().copied().skip(1)) {
            if to - from <= touch {
                continue;
            }
            let over = |[a, b]: &&[Place; 2]| a.along <= from && b.along >= to;
            if ends.iter().filter(over).count() <= begins.iter().filter(over).count() {
                let ends = [from, to].map(|along| Place { along, ahead: 0 });
                self.shades.push(Shade { ends, met: Met::Wall, is_square: touch == 0 });
            }
        }
    }

    /// The near sides of something that stands on the floor.
    fn obstruction(&mut self, obstruction: &Obstruction) {
        let corners = obstruction.outline.map(|corner| self.base.place(corner));
        let is_square = self.base.is_square() && sides_of(&obstruction.outline).all(|(p, q)| p.x == q.x || p.y == q.y);
        let touch = if is_square { 0 } else { TOUCH };
        let [first, ..] = corners;
        let [mut low, mut high] = [first, first];
        for corner in corners {
            low = Place { along: low.along.min(corner.along), ahead: low.ahead.min(corner.ahead) };
            high = Place { along: high.along.max(corner.along), ahead: high.ahead.max(corner.ahead) };
        }
        if high.ahead <= touch || high.along.min(self.width) - low.along.max(0) <= touch {
            return;
        }
        let met = || Met::Fixture(obstruction.id.clone());
        if is_square {
            let ends =
                [low.along.max(0), high.along.min(self.width)].map(|along| Place { along, ahead: low.ahead.max(0) });
            self.shades.push(Shade { ends, met: met(), is_square });
            return;
        }
        // What is left of it ahead of the line is convex still, and its near sides run from left to right.
        let ahead_of_line = ahead_of_line(&corners);
        let following = ahead_of_line.iter().cycle().skip(1);
        for (p, q) in ahead_of_line.iter().zip(following).filter(|(p, q)| q.along > p.along) {
            if let Some(ends) = self.in_strip([*p, *q]) {
                let is_square = self.is_square([*p, *q]);
                self.shades.push(Shade { ends, met: met(), is_square });
            }
        }
    }
}

/// The part of a convex shape that does not lie behind the line.
fn ahead_of_line(corners: &[Place; 4]) -> Vec<Place> {
    let mut part = Vec::with_capacity(6);
    for (p, q) in corners.iter().zip(corners.iter().cycle().skip(1)) {
        if p.ahead >= 0 {
            part.push(*p);
        }
        if (p.ahead < 0) != (q.ahead < 0) {
            let along = p.along + wide_ratio(-p.ahead, q.along - p.along, q.ahead - p.ahead);
            part.push(Place { along, ahead: 0 });
        }
    }
    part
}

/// A stretch of a line with what is nearest ahead of it.
#[derive(Clone, Copy, Debug)]
pub(super) struct Seen<'a> {
    pub(super) along: [i64; 2],
    pub(super) shade: &'a Shade,
}

impl Seen<'_> {
    /// Where what is seen is nearest over the stretch: in the middle if it is as near all along.
    pub(super) fn nearest(&self) -> Place {
        let ends = self.along.map(|along| Place { along, ahead: ahead_at(self.shade.ends, along) });
        Shade { ends, met: Met::Wall, is_square: true }.nearest_place()
    }
}
