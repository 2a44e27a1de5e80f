use std::sync::Arc;

use plan_geometry::MeasureName;
use plan_model::elements::FixtureKind;

use super::listed::{self, About, Listed};
use crate::book::Entry;
use crate::rule::Check;
use crate::{Quantity, Rule};

pub(super) static RULE: Rule = Rule {
    id: "lavatory-front",
    name: "Space before lavatories",
    measures: "The free depth before each lavatory bowl.",
    read,
};

static LISTED: Listed = Listed {
    measures: &[(MeasureName::LavatoryFront, "space before the bowl")],
    limit: "depth",
    quantity: Quantity::LengthAtLeast,
    covers: listed::all,
    instead: None,
    about: About::Fixtures(&[FixtureKind::Vanity], "lavatory"),
    unmeasured: None,
};

fn read(entry: &Entry<'_>) -> Arc<dyn Check> {
    listed::everywhere(entry, &LISTED)
}
