//! Doors and cased openings, and what of them is clear.

use plan_model::{Catalogue, DoorOperation, DoorUnit, Exact, Id, Length, Point};

use super::clear::{Dimension, Extent, HEIGHT, WIDTH, drawn, exact, glass, none};
use super::{Leaf, Side};
use crate::{Basis, Figure};

/// A door or cased opening as it stands.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct DoorFigures {
    /// The door.
    pub id: Id,
    /// Index in the home's list of doors.
    pub index: usize,
    /// The part of the wall (both walls of a doubled one) that it takes, counter-clockwise.
    pub outline: [Point; 4],
    /// The part of the one wall in which the leaf hangs.
    pub leaf_wall_outline: [Point; 4],
    /// To the left of the host wall, walking from its `from` to its `to`, then to the right.
    pub sides: [Side; 2],
    /// Whether one side is outdoors and the other a room.
    pub is_exterior: bool,
    /// The leaf of a hinged door.
    pub leaf: Option<Leaf>,
    /// Clear width, between the face of the open leaf and the stop of the other jamb, square to them: published or
    /// estimated for a leaf at 90 degrees. A leaf that is stopped leaves less by what it still covers of the opening, and
    /// that is always estimated: the thickness of the leaf counts as at 90 degrees. A cased opening is clear between its
    /// jambs.
    ///
    /// Source: measured from the face of the door to the stop at 90 degrees (IRC R311.2; HUD 3280.105 (b)); the part that
    /// a stopped leaf covers by arithmetic: leaf times the cosine of its angle.
    pub clear_width: Figure,
    /// Clear height: published or estimated, and never more than the ceiling beside the opening.
    pub clear_height: Figure,
    /// Area of the glass of its leaves: published; none where the unit has none.
    pub glazed_area: Figure,
}

impl DoorFigures {
    /// Area through which air comes when the door is open: that of its clear opening.
    #[must_use]
    pub fn openable_area(&self) -> Figure {
        self.clear_width.times(&self.clear_height)
    }

    /// The ceiling beside the opening is as low as this.
    pub(super) fn stands_under(&mut self, ceiling: Length) {
        if let Figure::Known { value, .. } = &mut self.clear_height {
            *value = (*value).min(exact(ceiling)).max(Exact::from(0));
        }
    }
}

pub(super) fn clear_width(catalogue: &Catalogue, unit: &DoorUnit, leaf: Option<&Leaf>) -> Figure {
    let at_right_angles = clear(&WIDTH, catalogue, unit, unit.width);
    match (leaf.and_then(|leaf| leaf.stopped_by.as_ref()), at_right_angles) {
        (Some(stop), Figure::Known { value, .. }) => {
            let left = value - exact(stop.covers);
            Figure::Known { value: left.max(Exact::from(0)), basis: Basis::Estimated }
        }
        (_, figure) => figure,
    }
}

pub(super) fn clear_height(catalogue: &Catalogue, unit: &DoorUnit) -> Figure {
    clear(&HEIGHT, catalogue, unit, unit.height)
}

fn clear(dimension: &Dimension, catalogue: &Catalogue, unit: &DoorUnit, size: Length) -> Figure {
    if unit.operation == DoorOperation::CasedOpening {
        return drawn(size);
    }
    let deduction = unit.operation.deduction().and_then(|operation| catalogue.deduction(operation));
    dimension.clear(unit.clear, deduction, &Extent { unit: &unit.id, size, sashes: 1 })
}

pub(super) fn glazed_area(unit: &DoorUnit) -> Figure {
    unit.glass.map_or_else(none, glass)
}
