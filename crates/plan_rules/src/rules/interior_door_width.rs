use std::sync::Arc;

use plan_geometry::{Measure, MeasureName};
use plan_model::DoorOperation;
use plan_model::elements::RoomUse;

use super::listed::{self, About, Listed};
use crate::book::Entry;
use crate::rule::{Case, Check};
use crate::{Quantity, Rule};

pub(super) static RULE: Rule = Rule {
    id: "interior-door-width",
    name: "Clear width of doors indoors",
    measures: "The clear width of each hinged door between two rooms; doors of closets, pantries and equipment closets are left out.",
    read,
};

static LISTED: Listed = Listed {
    measures: &[(MeasureName::DoorClearWidth, "clear width")],
    limit: "width",
    quantity: Quantity::LengthAtLeast,
    covers: is_covered,
    instead: None,
    about: About::Other(listed::has_doors, "door"),
    unmeasured: Some("No hinged door stands between two rooms that count."),
};

fn read(entry: &Entry<'_>) -> Arc<dyn Check> {
    listed::everywhere(entry, &LISTED)
}

fn is_covered(case: &Case<'_>, measure: &Measure) -> bool {
    let Some(door) = case.derived.doors.iter().find(|door| measure.of.first() == Some(&door.id)) else { return false };
    let unit = case.home.elements.doors.get(door.index).and_then(|placed| case.home.plan.catalogue.door(&placed.unit));
    let rooms = door.sides.iter().filter_map(|side| case.room(side.room.as_ref()?));
    let is_store = |usage| {
        matches!(usage, RoomUse::Closet | RoomUse::Linen | RoomUse::Pantry | RoomUse::Mechanical | RoomUse::Storage)
    };
    !door.is_exterior
        && unit.is_some_and(|unit| unit.operation == DoorOperation::Hinged)
        && !rooms.map(|room| room.usage).any(is_store)
}
