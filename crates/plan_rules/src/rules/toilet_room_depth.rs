use std::sync::Arc;

use plan_geometry::MeasureName;

use super::listed::{self, About, Listed};
use crate::book::Entry;
use crate::rule::Check;
use crate::{Quantity, Rule};

pub(super) static RULE: Rule = Rule {
    id: "toilet-room-depth",
    name: "Depth of toilet rooms",
    measures: "The longer side of the largest rectangle in each toilet room.",
    read,
};

static LISTED: Listed = Listed {
    measures: &[(MeasureName::ClearRectangleLength, "clear length")],
    limit: "depth",
    quantity: Quantity::LengthAtLeast,
    covers: listed::all,
    instead: None,
    about: About::Rooms,
    unmeasured: None,
};

fn read(entry: &Entry<'_>) -> Arc<dyn Check> {
    listed::in_rooms(entry, &LISTED)
}
