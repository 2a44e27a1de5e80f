use std::sync::Arc;

use plan_geometry::MeasureName;
use plan_model::elements::FixtureKind;

use super::listed::{self, About, Listed};
use crate::book::Entry;
use crate::rule::Check;
use crate::{Quantity, Rule};

pub(super) static RULE: Rule = Rule {
    id: "shower-entry",
    name: "Entry of showers",
    measures: "The clear finished width of the entry of each shower, as the plan states it.",
    read,
};

static LISTED: Listed = Listed {
    measures: &[(MeasureName::ShowerEntry, "clear width of the entry")],
    limit: "width",
    quantity: Quantity::LengthAtLeast,
    covers: listed::all,
    instead: None,
    about: About::Fixtures(&[FixtureKind::Shower], "shower"),
    unmeasured: None,
};

fn read(entry: &Entry<'_>) -> Arc<dyn Check> {
    listed::everywhere(entry, &LISTED)
}
