//! Clear sizes of a region with sides that are not square to its direction.
//!
//! The places where the corner of a square may stand are the region less each side swept by the square: a Minkowski
//! operation with the square itself, exact but for crossings of slanted sides, which are rounded to the grid. All of it
//! is done on a grid twice as fine with squares half a step smaller, so that a square that fits just so has a place of
//! some area to stand in.

use plan_model::{Length, Point};

use super::maximal::Box2;
use crate::kernel::{difference, union};
use crate::{Area, Region};

/// See [`ClearSizes::qualifying_area`](super::ClearSizes::qualifying_area).
pub(super) fn qualifying_area(region: &Region, side: Length) -> Area {
    if side <= Length::ZERO {
        return region.area();
    }
    let (places, side) = places(region, side);
    let largest = places.iter().map(|place| swept(place, side)).max().unwrap_or_default();
    Area::from_square_steps(largest.square_steps() / 4)
}

/// See [`ClearSizes::standing_area`](super::ClearSizes::standing_area).
pub(super) fn standing_area(region: &Region, side: Length) -> Area {
    let places: Area = places(region, side).0.iter().map(Region::area).sum();
    Area::from_square_steps(places.square_steps() / 4)
}

/// See [`ClearSizes::largest_square`](super::ClearSizes::largest_square).
pub(super) fn largest_square(region: &Region) -> Length {
    greatest(region, |side| !places(region, side).0.is_empty())
}

/// See [`ClearSizes::least_dimension`](super::ClearSizes::least_dimension).
pub(super) fn least_dimension(region: &Region, required: Area) -> Option<Length> {
    if region.area() < required {
        return None;
    }
    Some(greatest(region, |side| qualifying_area(region, side) >= required))
}

/// The greatest side, in whole steps, at which something that holds for all smaller ones still holds.
fn greatest(region: &Region, holds: impl Fn(Length) -> bool) -> Length {
    let (mut yes, mut no) = (0, extent(region).steps() + 1);
    while no - yes > 1 {
        let middle = yes + (no - yes) / 2;
        if holds(Length::from_steps(middle)) {
            yes = middle;
        } else {
            no = middle;
        }
    }
    Length::from_steps(yes)
}

fn extent(region: &Region) -> Length {
    let (low, high) = bounds(region);
    (high.x - low.x).min(high.y - low.y)
}

fn bounds(region: &Region) -> (Point, Point) {
    let (xs, ys) = (region.outer.iter().map(|p| p.x), region.outer.iter().map(|p| p.y));
    let of = |length: Option<Length>| length.unwrap_or_default();
    (Point::new(of(xs.clone().min()), of(ys.clone().min())), Point::new(of(xs.max()), of(ys.max())))
}

/// Where the lower left corner of a square may stand, and the side of the square, both on the finer grid.
fn places(region: &Region, side: Length) -> (Vec<Region>, Length) {
    let finer = Region {
        outer: region.outer.iter().map(|p| twice(*p)).collect(),
        holes: region.holes.iter().map(|hole| hole.iter().map(|p| twice(*p)).collect()).collect(),
    };
    let side = side * 2 - Length::from_steps(1);
    let sweeps: Vec<Vec<Point>> = finer.sides().map(|(a, b)| sweep(a, b, -side)).collect();
    (difference(&finer, sweeps.iter().map(Vec::as_slice)), side)
}

fn twice(point: Point) -> Point {
    point + point
}

/// What a square covers whose lower left corner goes everywhere in `place`.
fn swept(place: &Region, side: Length) -> Area {
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
    area
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

/// How finely the ends of a rectangle are first sought along the region; then each is refined to the step.
const FIRST_TRIES: i64 = 24;

/// A rectangle of large area inside the region, square to its direction; every one of its sides touches the boundary.
///
/// The left and right ends are sought among the region's corners and even divisions of its extent, then moved by ever
/// smaller steps as long as the area grows.
pub(super) fn rectangle(region: &Region) -> Option<Box2> {
    let (low, high) = bounds(region);
    let mut ends: Vec<Length> = region.boundaries().flatten().map(|p| p.x).collect();
    let division = |i: i64| Length::from_steps(low.x.steps() + (high.x - low.x).steps() * i / FIRST_TRIES);
    ends.extend((0..=FIRST_TRIES).map(division));
    ends.sort_unstable();
    ends.dedup();
    let mut tries: Vec<Box2> = Vec::new();
    for (index, left) in ends.iter().enumerate() {
        tries.extend(ends[index + 1..].iter().filter_map(|right| tallest(region, *left, *right)));
    }
    tries.sort_by_key(|b| std::cmp::Reverse(b.area()));
    tries.truncate(8);
    let first_step = (high.x - low.x).steps() / FIRST_TRIES;
    tries.into_iter().map(|b| refined(region, b, first_step)).max_by_key(|b| (b.area(), b.short_side()))
}

fn refined(region: &Region, mut best: Box2, mut step: i64) -> Box2 {
    while step > 0 {
        let by = Length::from_steps(step);
        let moves =
            [(by, Length::ZERO), (-by, Length::ZERO), (Length::ZERO, by), (Length::ZERO, -by), (by, by), (-by, -by)];
        let better = moves
            .into_iter()
            .filter_map(|(l, r)| tallest(region, best.low.x + l, best.high.x + r))
            .max_by_key(|b| b.area())
            .filter(|b| b.area() > best.area());
        match better {
            Some(better) => best = better,
            None => step /= 2,
        }
    }
    best
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
