//! What can be placed on one floor: that of a room or of a whole space, less what stands on it.

use plan_model::{Length, Point};

use super::{disc, rectangle};
use crate::asked::{Asked, Question};
use crate::free_floor::FreeFloor;
use crate::kernel::Frame;
use crate::{ClearSizes, Measured, OFF_AXIS_SLACK, Region};

/// A circle of free floor.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct LargestDisc {
    /// Its centre, to the nearest step.
    pub centre: Point,
    /// Across.
    pub diameter: Measured,
}

impl LargestDisc {
    /// Whether a disc of this diameter fits: it does so about the same centre.
    #[must_use]
    pub fn holds(&self, diameter: Length) -> bool {
        self.diameter.value + self.diameter.slack >= diameter
    }
}

/// The smaller and the longer side of the clear floor space: 30 x 48 in.
///
/// Source: ADA Standards 305.3.
pub(super) const CLEAR_FLOOR: [Length; 2] = [Length::inches(30), Length::inches(48)];

/// A floor with its direction.
#[derive(Clone, Debug)]
pub(crate) struct Floor {
    pub(crate) free: Asked<FreeFloor>,
    /// Of the same floor with nothing on it, from which its direction follows.
    pub(crate) sizes: ClearSizes,
    pub(crate) mate_line: Option<Point>,
}

impl PartialEq for Floor {
    fn eq(&self, other: &Self) -> bool {
        // The sizes follow from the floor and the mate line.
        self.mate_line == other.mate_line && self.free.question() == other.free.question()
    }
}

impl Floor {
    /// The corners of a rectangle of this size, either way round, that lies in the floor's direction on nothing but floor.
    pub(super) fn place_rectangle(&self, [width, length]: [Length; 2]) -> Option<[Point; 4]> {
        let (frame, floors, slack) = self.in_direction();
        let sizes = [[width, length], [length, width]];
        let place = sizes.into_iter().find_map(|size| rectangle::place(&floors, size.map(|side| side - slack)))?;
        Some(place.map(|corner| frame.leave(corner)))
    }

    /// Whether a rectangle, `along` the floor's direction and `across` it, can be slid from one place to another.
    pub(super) fn rectangle_leads(&self, [along, across]: [Length; 2], from: Point, to: Point) -> bool {
        let (frame, floors, slack) = self.in_direction();
        let [from, to] = [from, to].map(|place| frame.enter_point(place));
        rectangle::slides(&floors, [along - slack, across - slack], from, to)
    }

    /// What is free of the floor, with its direction along the x axis, and what lengths in it may be off by.
    fn in_direction(&self) -> (Frame, Vec<Region>, Length) {
        let region = &self.free.question().region;
        if is_square(region) {
            let frame = Frame::of_direction(Point::default(), Point::inches(1, 0));
            let slack = if self.free.get().iter().all(is_square) { Length::ZERO } else { OFF_AXIS_SLACK };
            return (frame, self.free.get().clone(), slack);
        }
        let frame = self.sizes.frame();
        (frame, self.free.get().iter().map(|floor| frame.enter(floor)).collect(), OFF_AXIS_SLACK)
    }
}

/// The largest disc of a floor.
#[derive(Debug, PartialEq)]
pub(super) struct LargestDiscOn(pub(super) Floor);

impl Question for LargestDiscOn {
    type Answer = Option<LargestDisc>;

    fn answer(&self) -> Option<LargestDisc> {
        largest_disc(self.0.free.get(), |_| true)
    }
}

/// The largest disc of some floors whose centre counts.
pub(super) fn largest_disc(floors: &[Region], counts: impl Fn(Point) -> bool) -> Option<LargestDisc> {
    let slack = if floors.iter().all(is_square) { Length::ZERO } else { OFF_AXIS_SLACK };
    let (centre, value) = disc::largest(floors, counts)?;
    Some(LargestDisc { centre, diameter: Measured { value, slack } })
}

/// A place for a clear floor space.
#[derive(Debug, PartialEq)]
pub(super) struct ClearFloorOn(pub(super) Floor);

impl Question for ClearFloorOn {
    type Answer = Option<[Point; 4]>;

    fn answer(&self) -> Option<[Point; 4]> {
        self.0.place_rectangle(CLEAR_FLOOR)
    }
}

fn is_square(region: &Region) -> bool {
    region.sides().all(|(a, b)| a.x == b.x || a.y == b.y)
}
