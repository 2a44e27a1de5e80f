use std::sync::Arc;

use plan_geometry::MeasureName;
use plan_model::elements::FixtureKind;

use super::listed::{self, About, Listed};
use crate::book::Entry;
use crate::rule::Check;
use crate::{Quantity, Rule};

pub(super) static RULE: Rule = Rule {
    id: "lavatory-side",
    name: "Space beside lavatories",
    measures: "From the centre of each lavatory bowl to the nearest wall or fixture other than a counter, on either side.",
    read,
};

static LISTED: Listed = Listed {
    measures: &[
        (MeasureName::LavatoryLeft, "space left of the bowl's centre"),
        (MeasureName::LavatoryRight, "space right of the bowl's centre"),
    ],
    limit: "side",
    quantity: Quantity::LengthAtLeast,
    covers: listed::all,
    instead: None,
    about: About::Fixtures(&[FixtureKind::Vanity], "lavatory"),
    unmeasured: None,
};

fn read(entry: &Entry<'_>) -> Arc<dyn Check> {
    listed::everywhere(entry, &LISTED)
}
