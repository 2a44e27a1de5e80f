//! Openings without a leaf, for plans built by hand.

use plan_model::elements::Door;
use plan_model::{DoorOperation, DoorUnit, Length};

/// A cased opening of a width and height.
#[must_use]
pub fn cased_unit(id: &str, width: Length, height: Length) -> DoorUnit {
    DoorUnit { id: id.into(), operation: DoorOperation::CasedOpening, width, height, clear: None, glass: None }
}

/// A door of a unit in one wall, so far from the wall's start, of which nothing more is said.
#[must_use]
pub fn doorway(id: &str, unit: &str, wall: &str, at: Length) -> Door {
    Door {
        id: id.into(),
        unit: unit.into(),
        wall: wall.into(),
        through: None,
        at,
        hinge: None,
        swing: None,
        lock: None,
    }
}
