use std::sync::Arc;

use plan_geometry::MeasureName;

use super::listed::{self, Listed};
use crate::book::Entry;
use crate::rule::Check;
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
};

fn read(entry: &Entry<'_>) -> Arc<dyn Check> {
    listed::everywhere(entry, &LISTED)
}
