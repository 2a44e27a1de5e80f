use std::sync::Arc;

use plan_geometry::MeasureName;
use plan_model::elements::RoomUse;

use super::listed::{self, About, Listed};
use crate::book::Entry;
use crate::rule::{Case, Check};
use crate::{Quantity, Rule};

pub(super) static RULE: Rule = Rule {
    id: "work-aisle",
    name: "Work aisles of kitchens",
    measures: "The distance between two fronts of a kitchen that face each other over 12 in or more with nothing between.",
    read,
};

static LISTED: Listed = Listed {
    measures: &[(MeasureName::WorkAisle, "work aisle")],
    limit: "width",
    quantity: Quantity::LengthAtLeast,
    covers: listed::all,
    instead: None,
    about: About::Other(has_kitchen, "kitchen"),
    unmeasured: Some("No two fronts of a kitchen face each other."),
};

fn read(entry: &Entry<'_>) -> Arc<dyn Check> {
    listed::everywhere(entry, &LISTED)
}

fn has_kitchen(case: &Case<'_>) -> bool {
    case.home.elements.rooms.iter().any(|room| room.usage == RoomUse::Kitchen)
}
