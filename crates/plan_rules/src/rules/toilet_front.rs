use std::sync::Arc;

use plan_geometry::MeasureName;
use plan_model::elements::FixtureKind;

use super::listed::{self, About, Listed};
use crate::book::Entry;
use crate::rule::Check;
use crate::{Quantity, Rule};

pub(super) static RULE: Rule = Rule {
    id: "toilet-front",
    name: "Space before toilets",
    measures: "The free depth before each toilet, over a strip as wide as the toilet; doors count as closed.",
    read,
};

static LISTED: Listed = Listed {
    measures: &[(MeasureName::ToiletFront, "space before the front")],
    limit: "depth",
    quantity: Quantity::LengthAtLeast,
    covers: listed::all,
    instead: None,
    about: About::Fixtures(&[FixtureKind::Toilet], "toilet"),
    unmeasured: None,
};

fn read(entry: &Entry<'_>) -> Arc<dyn Check> {
    listed::everywhere(entry, &LISTED)
}
