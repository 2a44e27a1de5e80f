//! Maximal rectangles of a region whose sides are all square to the axes, and what follows from them.

use plan_model::{Length, Point};

use crate::kernel::{rectangle, union};
use crate::{Area, Region};

/// A rectangle square to the axes.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub(super) struct Box2 {
    pub(super) low: Point,
    pub(super) high: Point,
}

impl Box2 {
    pub(super) fn width(self) -> Length {
        self.high.x - self.low.x
    }

    pub(super) fn height(self) -> Length {
        self.high.y - self.low.y
    }

    pub(super) fn short_side(self) -> Length {
        self.width().min(self.height())
    }

    pub(super) fn area(self) -> Area {
        Area::of_rectangle(self.width(), self.height())
    }

    pub(super) fn corners(self) -> [Point; 4] {
        rectangle(self.low, self.high)
    }

    /// The line across its short side, through its middle.
    pub(super) fn short_line(self) -> [Point; 2] {
        let middle = crate::rooms::middle(self.low, self.high);
        if self.width() <= self.height() {
            [Point::new(self.low.x, middle.y), Point::new(self.high.x, middle.y)]
        } else {
            [Point::new(middle.x, self.low.y), Point::new(middle.x, self.high.y)]
        }
    }

    /// Whether a square of this side fits into the ground that both share.
    fn lets_slide(self, other: Self, side: Length) -> bool {
        self.high.x.min(other.high.x) - self.low.x.max(other.low.x) >= side
            && self.high.y.min(other.high.y) - self.low.y.max(other.low.y) >= side
    }
}

/// Whether every side is square to the axes.
pub(super) fn is_square(region: &Region) -> bool {
    region.sides().all(|(a, b)| a.x == b.x || a.y == b.y)
}

/// All rectangles in the region that no other rectangle in it contains.
pub(super) fn rectangles(region: &Region) -> Vec<Box2> {
    if region.holes.is_empty() && region.outer.len() == 4 {
        let low = region.outer.iter().copied().min().unwrap_or_default();
        let high = region.outer.iter().copied().max().unwrap_or_default();
        return vec![Box2 { low, high }];
    }
    let grid = Grid::of(region);
    let (columns, rows) = (grid.xs.len() - 1, grid.ys.len() - 1);
    let mut found = Vec::new();
    for bottom in 0..rows {
        let mut open = vec![true; columns];
        for top in bottom..rows {
            for (column, open) in open.iter_mut().enumerate() {
                *open &= grid.inside(column, top);
            }
            let mut start = 0;
            while start < columns {
                if !open[start] {
                    start += 1;
                    continue;
                }
                let end = (start..columns).find(|column| !open[*column]).unwrap_or(columns);
                let grows_down = bottom > 0 && (start..end).all(|column| grid.inside(column, bottom - 1));
                let grows_up = top + 1 < rows && (start..end).all(|column| grid.inside(column, top + 1));
                if !grows_down && !grows_up {
                    let low = Point::new(grid.xs[start], grid.ys[bottom]);
                    found.push(Box2 { low, high: Point::new(grid.xs[end], grid.ys[top + 1]) });
                }
                start = end;
            }
        }
    }
    found
}

/// See [`ClearSizes::standing_area`](super::ClearSizes::standing_area).
pub(super) fn standing_area(boxes: &[Box2], side: Length) -> Area {
    let places: Vec<[Point; 4]> = boxes
        .iter()
        .filter(|b| b.short_side() > side)
        .map(|b| Box2 { low: b.low, high: b.high - Point::new(side, side) }.corners())
        .collect();
    union(places.iter().map(<[Point; 4]>::as_slice)).iter().map(Region::area).sum()
}

/// The region on the grid of its own coordinates.
struct Grid {
    xs: Vec<Length>,
    ys: Vec<Length>,
    cells: Vec<bool>,
}

impl Grid {
    fn of(region: &Region) -> Self {
        let lines = |coordinate: fn(&Point) -> Length| {
            let mut lines: Vec<Length> = region.boundaries().flatten().map(coordinate).collect();
            lines.sort_unstable();
            lines.dedup();
            lines
        };
        let (xs, ys) = (lines(|p| p.x), lines(|p| p.y));
        let columns = xs.len() - 1;
        let mut cells = vec![false; columns * (ys.len() - 1)];
        // Even-odd from left to right: a vertical side switches every cell of its height to its right.
        for (a, b) in region.sides().filter(|(a, b)| a.x == b.x) {
            let (low, high) = (a.y.min(b.y), a.y.max(b.y));
            let from = xs.partition_point(|x| *x < a.x);
            let rows = ys.partition_point(|y| *y < low)..ys.partition_point(|y| *y < high);
            for row in rows {
                for cell in &mut cells[row * columns + from..(row + 1) * columns] {
                    *cell = !*cell;
                }
            }
        }
        Self { xs, ys, cells }
    }

    fn inside(&self, column: usize, row: usize) -> bool {
        self.cells[row * (self.xs.len() - 1) + column]
    }
}

/// See [`ClearSizes::qualifying_area`](super::ClearSizes::qualifying_area).
pub(super) fn qualifying_area(boxes: &[Box2], side: Length) -> Area {
    parts(boxes, side).into_iter().map(|part| covered(&part)).max().unwrap_or_default()
}

/// Rectangles that hold a square of this side, by parts in which it can slide about.
fn parts(boxes: &[Box2], side: Length) -> Vec<Vec<Box2>> {
    let mut waiting: Vec<Box2> = boxes.iter().copied().filter(|b| b.short_side() >= side).collect();
    let mut parts = Vec::new();
    while let Some(first) = waiting.pop() {
        let mut part = vec![first];
        let mut next = 0;
        while next < part.len() {
            let here = part[next];
            let (joined, rest) = waiting.into_iter().partition::<Vec<_>, _>(|b| here.lets_slide(*b, side));
            part.extend(joined);
            waiting = rest;
            next += 1;
        }
        parts.push(part);
    }
    parts
}

fn covered(part: &[Box2]) -> Area {
    if let [only] = part {
        return only.area();
    }
    let outlines: Vec<_> = part.iter().map(|b| b.corners()).collect();
    union(outlines.iter().map(<[Point; 4]>::as_slice)).iter().map(Region::area).sum()
}

/// See [`ClearSizes::least_dimension`](super::ClearSizes::least_dimension).
///
/// The qualifying area falls only where a rectangle or the ground that two of them share becomes too narrow, so that
/// the answer is one of those sides.
pub(super) fn least_dimension(boxes: &[Box2], required: Area) -> Option<Length> {
    if let [only] = boxes {
        return (only.area() >= required).then(|| only.short_side());
    }
    let mut sides: Vec<Length> = boxes.iter().map(|b| b.short_side()).collect();
    for (index, a) in boxes.iter().enumerate() {
        for b in &boxes[index + 1..] {
            let shared = Box2 {
                low: Point::new(a.low.x.max(b.low.x), a.low.y.max(b.low.y)),
                high: Point::new(a.high.x.min(b.high.x), a.high.y.min(b.high.y)),
            };
            if shared.short_side() > Length::ZERO {
                sides.push(shared.short_side());
            }
        }
    }
    sides.sort_unstable();
    sides.dedup();
    let enough = sides.partition_point(|side| qualifying_area(boxes, *side) >= required);
    enough.checked_sub(1).map(|index| sides[index])
}
