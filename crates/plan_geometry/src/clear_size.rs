//! Clear rectangle, largest square, qualifying area and least horizontal dimension of a region.
//!
//! A region is turned so that its direction lies along the axes. If all its sides are then square to the axes, it is a
//! union of finitely many maximal rectangles, and every figure here follows from them exactly: a square of side `d`
//! fits where a rectangle is at least `d` both ways, and slides from one rectangle into another where they share at
//! least `d` by `d`. Regions with slanted sides go through [`slanted`].

mod direction;
mod maximal;
mod slanted;

use std::sync::Arc;

use plan_model::{Length, Point};

use crate::asked::{Asked, Question};
use crate::kernel::Frame;
use crate::{Area, OFF_AXIS_SLACK, Region};

use maximal::Box2;

/// The largest-area rectangle inside a region, in the region's direction.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct ClearRectangle {
    /// The shorter side.
    pub width: Length,
    /// The longer side.
    pub length: Length,
    /// Its corners on the plan, counter-clockwise.
    pub corners: [Point; 4],
}

impl ClearRectangle {
    /// Its sides as they lie on the drawing: the one that runs more across than up, then the other.
    #[must_use]
    pub fn across_and_up(&self) -> [Length; 2] {
        let [first, second, third, _] = self.corners;
        let (side, next) = (second - first, third - second);
        let squared = |d: Point| i128::from(d.x.steps()).pow(2) + i128::from(d.y.steps()).pow(2);
        let (across, up) = if side.x.abs() >= side.y.abs() { (side, next) } else { (next, side) };
        if squared(across) >= squared(up) { [self.length, self.width] } else { [self.width, self.length] }
    }
}

/// Clear sizes of one region; answers questions about it without storing what nobody asks.
#[derive(Clone, Debug)]
pub struct ClearSizes(Asked<Turn>);

/// A region to be turned to its direction.
#[derive(Debug, PartialEq)]
struct Turn {
    region: Arc<Region>,
    /// The direction that decides between equal ones.
    mate_line: Option<Point>,
    /// The direction to take, where it is not sought.
    frame: Option<Frame>,
}

/// A region in its own direction.
#[derive(Debug)]
struct Turned {
    frame: Frame,
    shape: Shape,
}

#[derive(Debug)]
enum Shape {
    /// All sides are square to the direction: its maximal rectangles.
    Square(Vec<Box2>),
    /// Some sides are not: the region in its frame.
    Slanted(Region),
}

impl Question for Turn {
    type Answer = Turned;

    fn answer(&self) -> Turned {
        let frame = self.frame.unwrap_or_else(|| direction::frame(&self.region, self.mate_line));
        if frame.is_square() && maximal::is_square(&self.region) {
            return Turned { frame, shape: Shape::Square(maximal::rectangles(&self.region)) };
        }
        let turned = frame.enter(&self.region);
        let is_square = maximal::is_square(&turned);
        let shape = if is_square { Shape::Square(maximal::rectangles(&turned)) } else { Shape::Slanted(turned) };
        Turned { frame, shape }
    }
}

impl ClearSizes {
    /// Prepares the sizes of a region. `mate_line` is the direction that decides between equal ones.
    pub(crate) fn of(region: Arc<Region>, mate_line: Option<Point>) -> Self {
        Self(Asked::of(Turn { region, mate_line, frame: None }))
    }

    /// The same, with what was worked out `earlier` if it still holds.
    pub(crate) fn after(earlier: Option<&Self>, region: Arc<Region>, mate_line: Option<Point>) -> Self {
        Self(Asked::after(earlier.map(|earlier| &earlier.0), Turn { region, mate_line, frame: None }))
    }

    fn in_frame(region: &Arc<Region>, frame: Frame) -> Self {
        Self(Asked::of(Turn { region: region.clone(), mate_line: None, frame: Some(frame) }))
    }

    fn frame(&self) -> Frame {
        self.0.get().frame
    }

    fn shape(&self) -> &Shape {
        &self.0.get().shape
    }

    /// The clear rectangle: the W x L of the room tag. Of equal areas, the one with the longer short side.
    #[must_use]
    pub fn rectangle(&self) -> ClearRectangle {
        let largest = match self.shape() {
            Shape::Square(boxes) => boxes.iter().copied().max_by_key(|b| (b.area(), b.short_side())),
            Shape::Slanted(region) => slanted::rectangle(region),
        };
        let largest = largest.unwrap_or_default();
        ClearRectangle {
            width: largest.short_side(),
            length: largest.width().max(largest.height()),
            corners: largest.corners().map(|corner| self.frame().leave(corner)),
        }
    }

    /// Side of the largest square in the region's direction. Not the least dimension.
    #[must_use]
    pub fn largest_square(&self) -> Length {
        match self.shape() {
            Shape::Square(boxes) => boxes.iter().map(|b| b.short_side()).max().unwrap_or_default(),
            Shape::Slanted(region) => slanted::largest_square(region),
        }
    }

    /// Area of the largest connected part of the region that squares of side `side` cover and in which such a square
    /// can slide from one place to any other.
    ///
    /// Method: an opening of the region by the square itself (a Minkowski operation), by connected parts.
    #[must_use]
    pub fn qualifying_area(&self, side: Length) -> Area {
        match self.shape() {
            Shape::Square(boxes) => maximal::qualifying_area(boxes, side),
            Shape::Slanted(region) => slanted::qualifying_area(region, side),
        }
    }

    /// Area of the places where the centre of a square of side `side` may stand, in all parts together.
    ///
    /// Method: an erosion of the region by the square itself (a Minkowski operation).
    #[must_use]
    pub fn standing_area(&self, side: Length) -> Area {
        match self.shape() {
            Shape::Square(boxes) => maximal::standing_area(boxes, side),
            Shape::Slanted(region) => slanted::standing_area(region, side),
        }
    }

    /// Least horizontal dimension of a room with a required area: the largest side at which the qualifying area is
    /// still at least `required`. None where the region is smaller than that.
    #[must_use]
    pub fn least_dimension(&self, required: Area) -> Option<Length> {
        match self.shape() {
            Shape::Square(boxes) => maximal::least_dimension(boxes, required),
            Shape::Slanted(region) => slanted::least_dimension(region, required),
        }
    }

    /// What lengths measured here may be off by.
    #[must_use]
    pub fn slack(&self) -> Length {
        match self.shape() {
            Shape::Square(_) if self.frame().is_square() => Length::ZERO,
            _ => OFF_AXIS_SLACK,
        }
    }

    /// The two ends of a line across the region that shows its least dimension: the short side of the narrowest
    /// rectangle that is still counted, drawn through its middle.
    #[must_use]
    pub fn least_dimension_line(&self, required: Area) -> Option<[Point; 2]> {
        let side = self.least_dimension(required)?;
        let shown = match self.shape() {
            Shape::Square(boxes) => boxes.iter().copied().filter(|b| b.short_side() == side).max_by_key(|b| b.area()),
            Shape::Slanted(region) => slanted::rectangle(region),
        }?;
        Some(shown.short_line().map(|end| self.frame().leave(end)))
    }
}
