use std::sync::Arc;

use plan_geometry::MeasureName;
use plan_model::elements::FixtureKind;

use super::listed::{self, About, Listed};
use crate::book::Entry;
use crate::rule::Check;
use crate::{Quantity, Rule};

pub(super) static RULE: Rule = Rule {
    id: "tub-front",
    name: "Space before tubs",
    measures: "The depth of the deepest free rectangle at least 24 in wide that stands against the open side of each tub.",
    read,
};

static LISTED: Listed = Listed {
    measures: &[(MeasureName::TubFront, "space before the open side")],
    limit: "depth",
    quantity: Quantity::LengthAtLeast,
    covers: listed::all,
    instead: None,
    about: About::Fixtures(&[FixtureKind::Tub], "tub"),
    unmeasured: None,
};

fn read(entry: &Entry<'_>) -> Arc<dyn Check> {
    listed::everywhere(entry, &LISTED)
}
