use std::sync::Arc;

use plan_geometry::MeasureName;

use super::listed::{self, About, Listed};
use crate::book::Entry;
use crate::rule::Check;
use crate::{Quantity, Rule};

pub(super) static RULE: Rule = Rule {
    id: "closet-depth",
    name: "Depth of closets",
    measures: "From the face of the wall at each doorway of a closet to its back wall.",
    read,
};

static LISTED: Listed = Listed {
    measures: &[(MeasureName::ClosetDepth, "depth")],
    limit: "depth",
    quantity: Quantity::LengthAtLeast,
    covers: listed::all,
    instead: None,
    about: About::Rooms,
    unmeasured: Some("No closet has a doorway from which its depth could be measured."),
};

fn read(entry: &Entry<'_>) -> Arc<dyn Check> {
    listed::in_rooms(entry, &LISTED)
}
