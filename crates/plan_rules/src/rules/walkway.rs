use std::sync::Arc;

use plan_geometry::MeasureName;

use super::listed::{self, Listed};
use crate::book::Entry;
use crate::rule::Check;
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
};

fn read(entry: &Entry<'_>) -> Arc<dyn Check> {
    listed::everywhere(entry, &LISTED)
}
