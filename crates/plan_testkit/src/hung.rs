//! Hinged doors and what may stand in their way, for plans built by hand.

use plan_model::elements::{Door, Fixture, FixtureKind, Hinge, Swing};
use plan_model::{Deduction, DoorOperation, DoorUnit, Exact, ExactLength, Facing, Length, Operation, Plan, Point};

use crate::{doorway, standing};

/// A leaf 80 in high without published figures; its id is `leaf`.
#[must_use]
pub fn leaf_unit(width: Length) -> DoorUnit {
    DoorUnit {
        id: "leaf".into(),
        operation: DoorOperation::Hinged,
        width,
        height: Length::inches(80),
        clear: None,
        glass: None,
    }
}

/// Takes 2-3/8 in off a leaf's width and 1 in off its height (common practice, no source).
#[must_use]
pub fn hinged_deduction() -> Deduction {
    let eighths = |eighths: i64| ExactLength::from_steps(Exact::from(i128::from(eighths * Length::INCH.steps() / 8)));
    Deduction {
        operation: Operation::Hinged,
        width_parts: 1,
        width_less: eighths(19),
        height_parts: 1,
        height_less: eighths(8),
        sill_above_frame: None,
        glass_width_less: None,
        glass_height_less: None,
    }
}

/// A door of the unit `leaf` in a wall, so far from the wall's start.
#[must_use]
pub fn hung_door(id: &str, wall: &str, at: Length, hinge: Hinge, swing: Swing) -> Door {
    Door { hinge: Some(hinge), swing: Some(swing), ..doorway(id, "leaf", wall, at) }
}

/// The plan with one door of a leaf of this width, called `door`.
#[must_use]
pub fn with_door(mut plan: Plan, width: Length, door: Door) -> Plan {
    plan.catalogue.doors.push(leaf_unit(width));
    plan.catalogue.deductions.push(hinged_deduction());
    plan.base.doors.push(door);
    plan
}

/// A cabinet that stands in the way, by the middle of its back.
#[must_use]
pub fn cabinet(id: &str, at: Point, faces: Facing, width: Length, depth: Length) -> Fixture {
    standing(FixtureKind::BaseCabinet, id, at, faces, [width, depth])
}
