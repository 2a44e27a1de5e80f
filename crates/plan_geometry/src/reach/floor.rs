//! What can be placed on one floor: that of a room or of a whole space, less what stands on it.

use plan_model::{Length, Point};

use super::disc::{self, Sought};
use super::rectangle;
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
        self.mate_line == other.mate_line && self.free == other.free
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
            return (frame, self.free.get().clone(), slack(self.free.get()));
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
        find_disc(self.0.free.get(), Sought::Largest, |_| true)
    }
}

/// A place for a disc of some diameter.
#[derive(Debug, PartialEq)]
pub(super) struct PlaceForDisc {
    pub(super) floor: Floor,
    pub(super) diameter: Length,
}

impl Question for PlaceForDisc {
    type Answer = Option<Point>;

    fn answer(&self) -> Option<Point> {
        let floors = self.floor.free.get();
        // Where a square has a place, so has its circle: most rooms are told by this, which takes less to find.
        let square = floors.iter().all(is_square).then(|| rectangle::place(floors, [self.diameter; 2])).flatten();
        let in_square = square.map(|[low, _, high, _]| crate::rooms::middle(low, high));
        in_square.or_else(|| Some(place_disc(floors, self.diameter, |_| true)?.centre))
    }
}

/// A disc of at least some diameter whose centre counts.
pub(super) fn place_disc(floors: &[Region], diameter: Length, counts: impl Fn(Point) -> bool) -> Option<LargestDisc> {
    let least = diameter - slack(floors);
    find_disc(floors, Sought::AtLeast(least), counts).filter(|disc| disc.holds(diameter))
}

fn find_disc(floors: &[Region], sought: Sought, counts: impl Fn(Point) -> bool) -> Option<LargestDisc> {
    let (centre, value) = disc::find(floors, sought, counts)?;
    Some(LargestDisc { centre, diameter: Measured { value, slack: slack(floors) } })
}

/// What lengths between the sides of some floors may be off by.
pub(super) fn slack(floors: &[Region]) -> Length {
    if floors.iter().all(is_square) { Length::ZERO } else { OFF_AXIS_SLACK }
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
