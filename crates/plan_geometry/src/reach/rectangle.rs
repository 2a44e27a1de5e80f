//! Places for a rectangle that is square to the axes, and ways to slide it about without turning.

use plan_model::{Length, Point};

use crate::Region;
use crate::kernel::{difference, rectangle};

/// The corners of a rectangle of this size that lies on one of the floors; exact where all sides are square to the axes.
pub(super) fn place(floors: &[Region], size: [Length; 2]) -> Option<[Point; 4]> {
    if size.into_iter().any(|side| side <= Length::ZERO) {
        return None;
    }
    let low = floors.iter().find_map(|floor| {
        let is_square = floor.sides().all(|(a, b)| a.x == b.x || a.y == b.y);
        if is_square { place_between_square_sides(floor, size) } else { place_between_any_sides(floor, size) }
    })?;
    Some(rectangle(low, low + Point::new(size[0], size[1])))
}

/// A rectangle that has a place has one against a side to its left: how far up, is what the sides that pass between its
/// left and its right leave.
fn place_between_square_sides(floor: &Region, [width, height]: [Length; 2]) -> Option<Point> {
    let furthest = floor.outer.iter().map(|p| p.x).max()?;
    let mut lefts: Vec<Length> =
        floor.sides().filter(|(a, b)| a.x == b.x && b.y < a.y && a.x + width <= furthest).map(|(a, _)| a.x).collect();
    lefts.sort_unstable();
    lefts.dedup();
    // Heights that no inside of a rectangle can hold, and whether the floor lies above them.
    let mut passing: Vec<(Length, Length, bool)> = Vec::new();
    for left in lefts {
        passing.clear();
        passing.extend(floor.sides().filter_map(|(a, b)| {
            let passes = a.x.min(b.x) < left + width && a.x.max(b.x) > left;
            passes.then(|| (a.y.min(b.y), a.y.max(b.y), a.y == b.y && a.x < b.x))
        }));
        passing.sort_unstable();
        let (mut reached, mut is_floor) = (None, false);
        for (low, high, is_floor_above) in passing.iter().copied() {
            if let Some(bottom) = reached.filter(|bottom| is_floor && low - *bottom >= height) {
                return Some(Point::new(left, bottom));
            }
            if reached.is_none_or(|bottom| high > bottom) {
                (reached, is_floor) = (Some(high), is_floor_above);
            } else if reached == Some(high) {
                is_floor |= is_floor_above;
            }
        }
    }
    None
}

fn place_between_any_sides(floor: &Region, size: [Length; 2]) -> Option<Point> {
    let places = places(floor, size);
    let corner = places.iter().flat_map(|place| &place.outer).min()?;
    Some(Point::new(half(corner.x), half(corner.y)))
}

/// Whether a rectangle of this size can be slid, without a turn, from having its middle at one place to the other.
pub(super) fn slides(floors: &[Region], size: [Length; 2], from: Point, to: Point) -> bool {
    if size.into_iter().any(|side| side <= Length::ZERO) {
        return false;
    }
    // The lower left corner on the finer grid, of the rectangle that is half a step smaller.
    let corner = |middle: Point| middle + middle - Point::new(size[0], size[1]);
    floors
        .iter()
        .any(|floor| places(floor, size).iter().any(|place| place.contains(corner(from)) && place.contains(corner(to))))
}

/// Where the lower left corner of a rectangle may stand: the floor less what its sides sweep when the rectangle is led
/// along them. On a grid twice as fine with the rectangle half a step smaller, so that one that fits just so has a place of
/// some area to stand in.
fn places(floor: &Region, size: [Length; 2]) -> Vec<Region> {
    let twice = |boundary: &Vec<Point>| boundary.iter().map(|p| *p + *p).collect();
    let finer = Region { outer: twice(&floor.outer), holes: floor.holes.iter().map(twice).collect() };
    let [width, height] = size.map(|side| side * 2 - Length::from_steps(1));
    let sweeps: Vec<Vec<Point>> = finer.sides().map(|(a, b)| sweep(a, b, Point::new(width, height))).collect();
    difference(&finer, sweeps.iter().map(Vec::as_slice))
}

/// The lower left corners of all rectangles that hold some place of a side.
fn sweep(a: Point, b: Point, size: Point) -> Vec<Point> {
    let (left, right) = if a.x <= b.x { (a, b) } else { (b, a) };
    let [wide, high] = [Point::new(size.x, Length::ZERO), Point::new(Length::ZERO, size.y)];
    if right.y >= left.y {
        vec![left - size, left - high, right - high, right, right - wide, left - wide]
    } else {
        vec![left - size, right - size, right - high, right, left, left - wide]
    }
}

fn half(length: Length) -> Length {
    Length::from_steps(length.steps().div_euclid(2))
}
