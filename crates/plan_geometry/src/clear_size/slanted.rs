//! Clear sizes of a region with sides that are not square to its direction.
//!
//! The largest rectangle and the largest square follow from what they touch ([`largest`]). What squares of a given side
//! cover follows from the places where the corner of such a square may stand: the region less each side swept by the
//! square, a Minkowski operation with the square itself, exact but for crossings of slanted sides, which are rounded to the
//! grid. It is done on a grid twice as fine with squares half a step smaller, so that a square that fits just so has a
//! place of some area to stand in.

mod largest;
mod slabs;

use std::sync::OnceLock;

use plan_model::{Length, Point};

use super::maximal::Box2;
use super::{Covered, Inset};
use crate::kernel::{difference, union};
use crate::{Area, Region};
use largest::Aim;

/// A region in its frame, and what was asked of it.
#[derive(Debug)]
pub(super) struct Slanted {
    region: Region,
    rectangle: OnceLock<Box2>,
    square: OnceLock<Box2>,
}

impl Slanted {
    pub(super) fn new(region: Region) -> Self {
        Self { region, rectangle: OnceLock::new(), square: OnceLock::new() }
    }

    /// The largest rectangle on the grid near the true largest: its area lacks no more than a step on every side. Moving an
    /// end inwards to the grid makes a rectangle no lower, and what is tried is checked on the grid.
    pub(super) fn rectangle(&self) -> Box2 {
        *self.rectangle.get_or_init(|| {
            let Some(found) = largest::largest(&self.region, Aim::Area) else { return Box2::default() };
            let ends = |place: f64| [on_grid(place.floor()), on_grid(place.ceil())];
            let tries = ends(found.left).into_iter().flat_map(|left| ends(found.right).map(|right| (left, right)));
            let on_grid = tries.filter_map(|(left, right)| tallest(&self.region, left, right));
            on_grid.max_by_key(|b| (b.area(), b.short_side())).unwrap_or_default()
        })
    }

    /// The largest square. Its side is the true one rounded down to the step; its place is rounded.
    pub(super) fn square(&self) -> Box2 {
        *self.square.get_or_init(|| {
            let Some(found) = largest::largest(&self.region, Aim::Square) else { return Box2::default() };
            let side = on_grid((found.score + ROUNDING).floor());
            let low = Point::new(on_grid(found.left.round()), on_grid(found.low.round()));
            Box2 { low, high: low + Point::new(side, side) }
        })
    }

    /// See [`ClearSizes::qualifying_area`](super::ClearSizes::qualifying_area).
    pub(super) fn covered(&self, side: Length) -> Covered {
        if side <= Length::ZERO {
            return Covered { area: self.region.area(), ground: vec![self.region.outer.clone()] };
        }
        let (places, side) = places(&self.region, side);
        let largest = places.iter().map(|place| swept(place, side)).max_by_key(|covered| covered.area);
        let Some(finer) = largest else { return Covered::default() };
        let halved = |corner: &Point| crate::rooms::middle(Point::default(), *corner);
        Covered {
            area: Area::from_square_steps(finer.area.square_steps() / 4),
            ground: finer.ground.iter().map(|outline| outline.iter().map(halved).collect()).collect(),
        }
    }

    /// See [`ClearSizes::least_dimension`](super::ClearSizes::least_dimension).
    ///
    /// The qualifying area falls as squares grow, evenly but for where a neck closes. The greatest side at which it is
    /// enough is bracketed to the step: by the chord between the two sides of the bracket, and by halves if that has not
    /// ended soon, which is so where a neck closes.
    pub(super) fn least_dimension(&self, required: Area) -> Option<Length> {
        let spare = |area: Area| area.square_steps() - required.square_steps();
        let whole = spare(self.region.area());
        if whole < 0 {
            return None;
        }
        let largest = self.square().short_side();
        let at_largest = spare(self.covered(largest).area);
        if at_largest >= 0 {
            return Some(largest);
        }
        let (mut enough, mut too_much) = ((0, whole), (largest.steps(), at_largest));
        let (mut chords, mut last_was_enough) = (MOST_CHORDS, None);
        while too_much.0 - enough.0 > 1 {
            let across = too_much.0 - enough.0;
            let part = if chords > 0 { chord(across, enough.1, too_much.1) } else { across / 2 };
            let side = enough.0 + part;
            let spare = spare(self.covered(Length::from_steps(side)).area);
            // An end that stays twice counts for half, so that the next chord comes nearer to it.
            let stays = last_was_enough == Some(spare >= 0);
            if spare >= 0 {
                enough = (side, spare);
                too_much.1 /= if stays { 2 } else { 1 };
            } else {
                too_much = (side, spare);
                enough.1 /= if stays { 2 } else { 1 };
            }
            last_was_enough = Some(spare >= 0);
            chords -= chords.min(1);
        }
        Some(Length::from_steps(enough.0))
    }

    /// See [`ClearSizes::inset`](super::ClearSizes::inset).
    pub(super) fn inset(&self, side: Length) -> Inset {
        if side <= Length::ZERO {
            return Inset { area: self.region.area(), parts: 1 };
        }
        let parts = places(&self.region, side).0.len();
        let exactly = standing(&self.region, side);
        Inset { area: exactly.iter().map(Region::area).sum(), parts }
    }
}

/// Where the area falls evenly, fewer chords end the search.
const MOST_CHORDS: u32 = 10;

/// What is computed of places in `f64` is good to some billionths of a step: a side that lacks no more is whole.
const ROUNDING: f64 = 1e-6;

#[expect(clippy::cast_possible_truncation, reason = "places lie among the region's corners")]
const fn on_grid(steps: f64) -> Length {
    Length::from_steps(steps as i64)
}

/// How far from the first end of a bracket a line from `above` zero to `below` zero crosses it, within the bracket.
fn chord(across: i64, above: i128, below: i128) -> i64 {
    let crossing = i128::from(across) * above / (above - below).max(1);
    i64::try_from(crossing).unwrap_or(across / 2).clamp(1, across - 1)
}

/// Where the lower left corner of a square may stand in a region, the places in which it only just fits left out.
fn standing(region: &Region, side: Length) -> Vec<Region> {
    let sweeps: Vec<Vec<Point>> = region.sides().map(|(a, b)| sweep(a, b, -side)).collect();
    difference(region, sweeps.iter().map(Vec::as_slice))
}

/// Where the lower left corner of a square may stand, and the side of the square, both on the finer grid.
fn places(region: &Region, side: Length) -> (Vec<Region>, Length) {
    let finer = Region {
        outer: region.outer.iter().map(|p| twice(*p)).collect(),
        holes: region.holes.iter().map(|hole| hole.iter().map(|p| twice(*p)).collect()).collect(),
    };
    let side = side * 2 - Length::from_steps(1);
    (standing(&finer, side), side)
}

fn twice(point: Point) -> Point {
    point + point
}

/// What a square covers whose lower left corner goes everywhere in `place`.
fn swept(place: &Region, side: Length) -> Covered {
    let sweeps: Vec<Vec<Point>> = place.sides().map(|(a, b)| sweep(a, b, side)).collect();
    let whole = std::iter::once(place.outer.as_slice()).chain(sweeps.iter().map(Vec::as_slice));
    let covered = union(whole);
    // A hole of the place that the square is wider than is covered by the sweep of its sides, others stay.
    let mut area: Area = covered.iter().map(Region::area).sum();
    for hole in &place.holes {
        let hole = Region { outer: hole.iter().rev().copied().collect(), holes: Vec::new() };
        let open = difference(&hole, sweeps.iter().map(Vec::as_slice));
        area = area - open.iter().map(Region::area).sum();
    }
    Covered { area, ground: covered.into_iter().map(|region| region.outer).collect() }
}

/// The hull of a square of a side (negative: reaching down and left) standing on both ends of a segment.
fn sweep(a: Point, b: Point, side: Length) -> Vec<Point> {
    let (low, high) = (side.min(Length::ZERO), side.max(Length::ZERO));
    let (left, right) = if (a.x, a.y) <= (b.x, b.y) { (a, b) } else { (b, a) };
    let corner = |p: Point, x: Length, y: Length| p + Point::new(x, y);
    if right.y >= left.y {
        vec![
            corner(left, low, low),
            corner(left, high, low),
            corner(right, high, low),
            corner(right, high, high),
            corner(right, low, high),
            corner(left, low, high),
        ]
    } else {
        vec![
            corner(left, low, low),
            corner(right, low, low),
            corner(right, high, low),
            corner(right, high, high),
            corner(left, high, high),
            corner(left, low, high),
        ]
    }
}

/// The tallest rectangle in the region from `left` to `right`.
fn tallest(region: &Region, left: Length, right: Length) -> Option<Box2> {
    if left >= right {
        return None;
    }
    // The heights at which a side passes between left and right cannot lie inside.
    let mut blocked: Vec<(Length, Length)> = region
        .sides()
        .filter_map(|(a, b)| {
            let (a, b) = if a.x <= b.x { (a, b) } else { (b, a) };
            if b.x <= left || a.x >= right {
                return None;
            }
            let (at_left, at_right) = (height_at(a, b, left.max(a.x)), height_at(a, b, right.min(b.x)));
            let low = at_left.0.min(at_right.0);
            let high = at_left.1.max(at_right.1);
            Some((low, high))
        })
        .collect();
    blocked.sort_unstable();
    let mut best: Option<Box2> = None;
    let mut reached = blocked.first()?.1;
    for (low, high) in blocked {
        if low > reached {
            let middle = Point::new(
                Length::from_steps((left.steps() + right.steps()) / 2),
                Length::from_steps((reached.steps() + low.steps()) / 2),
            );
            let candidate = Box2 { low: Point::new(left, reached), high: Point::new(right, low) };
            if best.is_none_or(|b| candidate.area() > b.area()) && region.contains(middle) {
                best = Some(candidate);
            }
        }
        reached = reached.max(high);
    }
    best
}

/// The height of a segment at an x, rounded down and up.
fn height_at(a: Point, b: Point, x: Length) -> (Length, Length) {
    if a.x == b.x {
        return (a.y.min(b.y), a.y.max(b.y));
    }
    let rise = i128::from((b.y - a.y).steps()) * i128::from((x - a.x).steps());
    let run = i128::from((b.x - a.x).steps());
    let down = rise.div_euclid(run);
    let up = down + i128::from(rise.rem_euclid(run) != 0);
    let at = |steps: i128| a.y + Length::from_steps(i64::try_from(steps).unwrap_or_default());
    (at(down), at(up))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::OFF_AXIS_SLACK;

    /// Numbers that look random and are the same every time.
    struct Numbers(u64);

    impl Numbers {
        fn below(&mut self, bound: i64) -> i64 {
            self.0 = self.0.wrapping_mul(6_364_136_223_846_793_005).wrapping_add(1_442_695_040_888_963_407);
            i64::try_from(self.0 >> 33).unwrap_or_default() % bound
        }

        /// A room around a post, with a corner in each of some directions, the nearest two metres away.
        fn room(&mut self, corners: i32) -> Region {
            let corner = |index: i32| {
                let angle = std::f64::consts::TAU * f64::from(index) / f64::from(corners);
                #[expect(clippy::cast_precision_loss, reason = "a length in steps")]
                let away = (1_280_000 + self.below(2_560_000)) as f64;
                Point::new(on_grid((away * angle.cos()).round()), on_grid((away * angle.sin()).round()))
            };
            let outer = (0..corners).map(corner).collect();
            let post = crate::kernel::rectangle(Point::inches(-6, -4), Point::inches(5, 7));
            Region { outer, holes: vec![post.into_iter().rev().collect()] }
        }
    }

    /// Every place of the two ends among sixty by sixty: none has a rectangle, or a square, that is larger by more than what
    /// one step on every side takes off.
    #[test]
    fn no_rectangle_tried_at_any_ends_is_larger() {
        let mut numbers = Numbers(5);
        for corners in [3, 4, 5, 6, 8, 12, 20] {
            for _ in 0..6 {
                let slanted = Slanted::new(numbers.room(corners));
                let (rectangle, square) = (slanted.rectangle(), slanted.square());
                let outer = || slanted.region.outer.iter().map(|corner| corner.x);
                let (low, high) = (outer().min().unwrap_or_default(), outer().max().unwrap_or_default());
                let place = |part: i64| Length::from_steps(low.steps() + (high - low).steps() * part / 60);
                for (left, right) in (0..60).flat_map(|left| (left + 1..=60).map(move |right| (left, right))) {
                    let Some(tried) = tallest(&slanted.region, place(left), place(right)) else { continue };
                    let step = Area::of_rectangle(Length::from_steps(2), rectangle.width() + rectangle.height());
                    assert!(tried.area() <= rectangle.area() + step, "{tried:?} and not {rectangle:?}");
                    assert!(tried.short_side() <= square.short_side(), "{tried:?} and not {square:?}");
                }
                let ends = (rectangle.low.x, rectangle.high.x);
                let drawn = tallest(&slanted.region, ends.0, ends.1).map(Box2::area);
                assert_eq!(drawn, Some(rectangle.area()), "it lies in the region");
            }
        }
    }

    /// The two ways agree: squares of the largest side have somewhere to stand, and larger ones have not.
    #[test]
    fn the_largest_square_is_the_largest_that_stands_anywhere() {
        let mut numbers = Numbers(11);
        for corners in [3, 4, 5, 6, 8, 12, 20] {
            let slanted = Slanted::new(numbers.room(corners));
            let side = slanted.square().short_side();
            assert!(slanted.covered(side - OFF_AXIS_SLACK).area > Area::ZERO, "{side:?}");
            assert_eq!(slanted.covered(side + OFF_AXIS_SLACK).area, Area::ZERO, "{side:?}");
        }
    }

    /// The least dimension found by chords and halves is that of trying: what is larger by the slack is not enough, but for
    /// what crossings that are rounded to the grid leave of an area, no more than a step along all sides.
    #[test]
    fn the_least_dimension_is_the_last_that_is_enough() {
        let mut numbers = Numbers(23);
        for corners in [3, 4, 5, 6, 8, 12, 20] {
            let slanted = Slanted::new(numbers.room(corners));
            let length = |(a, b): (Point, Point)| (b.x - a.x).abs() + (b.y - a.y).abs();
            let rounded = Area::of_rectangle(slanted.region.sides().map(length).sum(), Length::from_steps(1));
            for part in [20, 50, 70, 80, 90, 99] {
                let required = Area::from_square_steps(slanted.region.area().square_steps() * part / 100);
                let side = slanted.least_dimension(required).unwrap_or_default();
                assert!(slanted.covered(side).area >= required, "{corners} corners, {part} %");
                let more = slanted.covered(side + OFF_AXIS_SLACK).area;
                assert!(more < required + rounded, "{corners} corners, {part} %");
            }
        }
    }
}
