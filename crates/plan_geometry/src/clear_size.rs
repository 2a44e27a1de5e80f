//! Clear rectangle, largest square, qualifying area and least horizontal dimension of a region.
//!
//! A region is turned so that its direction lies along the axes. If all its sides are then square to the axes, it is a
//! union of finitely many maximal rectangles, and every figure here follows from them exactly: a square of side `d`
//! fits where a rectangle is at least `d` both ways, and slides from one rectangle into another where they share at
//! least `d` by `d`. Regions with slanted sides go through [`slanted`].
//!
//! Sources: none of these figures is a section's own. The codes ask for an area and a least dimension without saying how a
//! room that is no rectangle is measured; what is measured here is stated at each figure.

mod direction;
mod maximal;
mod slanted;

use std::sync::Arc;

use plan_model::{Length, Point};

use crate::asked::{Asked, Question};
use crate::kernel::Frame;
use crate::{Area, OFF_AXIS_SLACK, Region};

use maximal::Box2;
use slanted::Slanted;

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

/// Where the centre of a square may stand in a region.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct Inset {
    /// The area of all such places.
    pub area: Area,
    /// In how many parts they lie: the square cannot be slid from one into another. A part may be a mere line, or a point,
    /// where the square fits just so.
    pub parts: usize,
}

/// The largest connected ground that squares cover.
#[derive(Debug, Default)]
pub(crate) struct Covered {
    pub(crate) area: Area,
    /// Its outer boundaries.
    pub(crate) ground: Vec<Vec<Point>>,
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
    /// Some sides are not.
    Slanted(Slanted),
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
        let shape =
            if is_square { Shape::Square(maximal::rectangles(&turned)) } else { Shape::Slanted(Slanted::new(turned)) };
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

    /// The sizes of a region in a direction that is not its own.
    fn in_frame(region: &Arc<Region>, frame: Frame) -> Self {
        Self(Asked::of(Turn { region: region.clone(), mate_line: None, frame: Some(frame) }))
    }

    /// The sizes of a part of this region, in the same direction.
    pub(crate) fn of_part(&self, part: &Arc<Region>) -> Self {
        Self::in_frame(part, self.frame())
    }

    /// The region that is measured.
    pub(crate) fn region(&self) -> &Arc<Region> {
        &self.0.question().region
    }

    pub(crate) fn frame(&self) -> Frame {
        self.0.get().frame
    }

    fn shape(&self) -> &Shape {
        &self.0.get().shape
    }

    /// The clear rectangle: the W x L of the room tag. Of equal areas, the one with the longer short side.
    ///
    /// Exact where all sides are square to the direction. Elsewhere its area lacks no more than a step on every side of the
    /// largest: see `slanted/largest.rs` for why no other is larger.
    #[must_use]
    pub fn rectangle(&self) -> ClearRectangle {
        let largest = match self.shape() {
            Shape::Square(boxes) => {
                boxes.iter().copied().max_by_key(|b| (b.area(), b.short_side())).unwrap_or_default()
            }
            Shape::Slanted(slanted) => slanted.rectangle(),
        };
        ClearRectangle {
            width: largest.short_side(),
            length: largest.width().max(largest.height()),
            corners: self.on_plan(largest),
        }
    }

    /// Side of the largest square in the region's direction. Not the least dimension.
    #[must_use]
    pub fn largest_square(&self) -> Length {
        self.square().short_side()
    }

    /// The corners of a largest square on the plan, counter-clockwise.
    #[must_use]
    pub fn largest_square_corners(&self) -> [Point; 4] {
        self.on_plan(self.square())
    }

    fn square(&self) -> Box2 {
        match self.shape() {
            Shape::Square(boxes) => boxes.iter().max_by_key(|b| b.short_side()).map(|b| b.square()).unwrap_or_default(),
            Shape::Slanted(slanted) => slanted.square(),
        }
    }

    fn on_plan(&self, shown: Box2) -> [Point; 4] {
        shown.corners().map(|corner| self.frame().leave(corner))
    }

    /// Area of the largest connected part of the region that squares of side `side` cover and in which such a square
    /// can slide from one place to any other.
    ///
    /// Method: an opening of the region by the square itself (a Minkowski operation), by connected parts.
    #[must_use]
    pub fn qualifying_area(&self, side: Length) -> Area {
        self.covered(side).area
    }

    /// The part of the region whose area is [`Self::qualifying_area`], in the region's frame.
    fn covered(&self, side: Length) -> Covered {
        match self.shape() {
            Shape::Square(boxes) => maximal::covered(boxes, side),
            Shape::Slanted(slanted) => slanted.covered(side),
        }
    }

    /// The same, on the plan.
    pub(crate) fn qualifying_part(&self, side: Length) -> Covered {
        let Covered { area, mut ground } = self.covered(side);
        ground.iter_mut().flatten().for_each(|corner| *corner = self.frame().leave(*corner));
        Covered { area, ground }
    }

    /// Where the centre of a square of side `side` can stand, and in how many parts: the region inset by half of that side,
    /// by a Minkowski operation with the square itself.
    #[must_use]
    pub fn inset(&self, side: Length) -> Inset {
        let side = side.max(Length::ZERO);
        match self.shape() {
            Shape::Square(boxes) => maximal::inset(boxes, side),
            Shape::Slanted(slanted) => slanted.inset(side),
        }
    }

    /// Least horizontal dimension of a room with a required area: the largest side at which the qualifying area is
    /// still at least `required`. None where the region is smaller than that.
    #[must_use]
    pub fn least_dimension(&self, required: Area) -> Option<Length> {
        match self.shape() {
            Shape::Square(boxes) => maximal::least_dimension(boxes, required),
            Shape::Slanted(slanted) => slanted.least_dimension(required),
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

    /// The two ends of a line across the region that shows its least dimension, `side`: the short side of the narrowest
    /// rectangle that is still counted, drawn through its middle.
    pub(crate) fn least_dimension_line(&self, side: Length) -> Option<[Point; 2]> {
        let shown = match self.shape() {
            Shape::Square(boxes) => boxes.iter().copied().filter(|b| b.short_side() == side).max_by_key(|b| b.area()),
            Shape::Slanted(slanted) => Some(slanted.rectangle()),
        }?;
        Some(shown.short_line().map(|end| self.frame().leave(end)))
    }
}
