use std::sync::Arc;

use plan_geometry::MeasureName;
use plan_model::elements::RoomUse;

use super::listed::{self, About, Listed};
use crate::book::Entry;
use crate::rule::{Case, Check};
use crate::{Quantity, Rule};

pub(super) static RULE: Rule = Rule {
    id: "walkway",
    name: "Walkways of kitchens",
    measures: "The distance from a front of a kitchen to a wall that faces it over 12 in or more with nothing between.",
    read,
};

static LISTED: Listed = Listed {
    measures: &[(MeasureName::Walkway, "walkway")],
    limit: "width",
    quantity: Quantity::LengthAtLeast,
    covers: listed::all,
    instead: None,
    about: About::Other(has_kitchen, "kitchen"),
    unmeasured: Some("No front of a kitchen faces a wall."),
};

fn read(entry: &Entry<'_>) -> Arc<dyn Check> {
    listed::everywhere(entry, &LISTED)
}

fn has_kitchen(case: &Case<'_>) -> bool {
    case.home.elements.rooms.iter().any(|room| room.usage == RoomUse::Kitchen)
}
