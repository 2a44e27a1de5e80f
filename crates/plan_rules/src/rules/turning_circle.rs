use std::sync::Arc;

use plan_geometry::MeasureName;

use super::listed::{self, About, Listed};
use crate::book::Entry;
use crate::rule::Check;
use crate::{Quantity, Rule};

pub(super) static RULE: Rule = Rule {
    id: "turning-circle",
    name: "Turning circles",
    measures: "Whether a circle of 60 in has a place on the free floor of each room.",
    read,
};

static LISTED: Listed = Listed {
    measures: &[(MeasureName::TurningCircle, "a turning circle of 60 in")],
    limit: "",
    quantity: Quantity::Possible,
    covers: listed::all,
    instead: None,
    about: About::Rooms,
    unmeasured: None,
};

fn read(entry: &Entry<'_>) -> Arc<dyn Check> {
    listed::in_rooms(entry, &LISTED)
}
