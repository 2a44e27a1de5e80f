//! Doors and cased openings, and what of them is clear.

use plan_model::{Catalogue, DoorOperation, DoorUnit, Id, Point};

use super::clear::{HEIGHT, WIDTH, clear, drawn};
use super::{Leaf, Side};
use crate::Figure;

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
    /// Clear width.
    pub clear_width: Figure,
    /// Clear height.
    pub clear_height: Figure,
}

pub(super) fn clear_width(catalogue: &Catalogue, unit: &DoorUnit, leaf: Option<&Leaf>) -> Figure {
    if let Some(stop) = leaf.and_then(|leaf| leaf.stopped_by.as_ref()) {
        return Figure::Unknown(format!("\"{stop}\" stops the leaf short of 90 degrees"));
    }
    if unit.operation == DoorOperation::CasedOpening {
        return drawn(unit.width);
    }
    let published = unit.clear.map(|clear| clear.width);
    clear(published, unit.operation.deduction().and_then(|of| catalogue.deduction(of)), unit.width, WIDTH, || {
        format!("unit \"{}\" has no published clear width, and the catalogue no deduction for it", unit.id)
    })
}

pub(super) fn clear_height(catalogue: &Catalogue, unit: &DoorUnit) -> Figure {
    if unit.operation == DoorOperation::CasedOpening {
        return drawn(unit.height);
    }
    let published = unit.clear.map(|clear| clear.height);
    clear(published, unit.operation.deduction().and_then(|of| catalogue.deduction(of)), unit.height, HEIGHT, || {
        format!("unit \"{}\" has no published clear height, and the catalogue no deduction for it", unit.id)
    })
}
