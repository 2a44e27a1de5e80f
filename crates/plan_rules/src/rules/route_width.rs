use std::sync::Arc;

use plan_geometry::MeasureName;

use super::listed::{self, About, Listed};
use crate::book::Entry;
use crate::rule::Check;
use crate::{Quantity, Rule};

pub(super) static RULE: Rule = Rule {
    id: "route-width",
    name: "Ways in",
    measures: "The widest body that can be led from outdoors to each room: through the clear widths of doors and over free floors.",
    read,
};

static LISTED: Listed = Listed {
    measures: &[(MeasureName::WayInWidth, "way in")],
    limit: "width",
    quantity: Quantity::LengthAtLeast,
    covers: listed::all,
    instead: None,
    about: About::Rooms,
    unmeasured: None,
};

fn read(entry: &Entry<'_>) -> Arc<dyn Check> {
    listed::in_rooms(entry, &LISTED)
}
