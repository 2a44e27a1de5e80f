use std::sync::Arc;

use plan_geometry::MeasureName;
use plan_model::elements::FixtureKind;

use super::listed::{self, About, Listed};
use crate::book::Entry;
use crate::rule::Check;
use crate::{Quantity, Rule};

pub(super) static RULE: Rule = Rule {
    id: "bowls-apart",
    name: "Bowls beside each other",
    measures: "From centre to centre of two bowls, of toilets or lavatories, that face the same way beside each other.",
    read,
};

static LISTED: Listed = Listed {
    measures: &[(MeasureName::BowlsApart, "distance to the next bowl")],
    limit: "apart",
    quantity: Quantity::LengthAtLeast,
    covers: listed::all,
    instead: None,
    about: About::Fixtures(&[FixtureKind::Toilet, FixtureKind::Vanity], "toilet or lavatory"),
    unmeasured: Some("No two bowls stand beside each other."),
};

fn read(entry: &Entry<'_>) -> Arc<dyn Check> {
    listed::everywhere(entry, &LISTED)
}
