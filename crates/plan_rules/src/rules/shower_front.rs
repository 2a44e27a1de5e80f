use std::sync::Arc;

use plan_geometry::MeasureName;
use plan_model::elements::FixtureKind;

use super::listed::{self, About, Listed};
use crate::book::Entry;
use crate::rule::Check;
use crate::{Quantity, Rule};

pub(super) static RULE: Rule = Rule {
    id: "shower-front",
    name: "Space before showers",
    measures: "The free depth before the entry of each shower.",
    read,
};

static LISTED: Listed = Listed {
    measures: &[(MeasureName::ShowerFront, "space before the entry")],
    limit: "depth",
    quantity: Quantity::LengthAtLeast,
    covers: listed::all,
    instead: None,
    about: About::Fixtures(&[FixtureKind::Shower], "shower"),
    unmeasured: None,
};

fn read(entry: &Entry<'_>) -> Arc<dyn Check> {
    listed::everywhere(entry, &LISTED)
}
