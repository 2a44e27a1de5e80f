use std::sync::Arc;

use plan_geometry::{Measure, MeasureName};
use plan_model::elements::FixtureKind;

use super::listed::{self, About, Listed};
use crate::book::Entry;
use crate::rule::{Case, Check};
use crate::{Quantity, Rule};

pub(super) static RULE: Rule = Rule {
    id: "laundry-front",
    name: "Space before laundry appliances",
    measures: "The free depth before each washer and dryer, over a strip as wide as its front.",
    read,
};

const KINDS: &[FixtureKind] = &[FixtureKind::Washer, FixtureKind::Dryer, FixtureKind::StackedLaundry];

static LISTED: Listed = Listed {
    measures: &[(MeasureName::ApplianceFront, "space before the front")],
    limit: "depth",
    quantity: Quantity::LengthAtLeast,
    covers: is_covered,
    instead: None,
    about: About::Fixtures(KINDS, "washer or dryer"),
    unmeasured: None,
};

fn read(entry: &Entry<'_>) -> Arc<dyn Check> {
    listed::everywhere(entry, &LISTED)
}

fn is_covered(case: &Case<'_>, measure: &Measure) -> bool {
    listed::is_of_fixture(case, measure, KINDS)
}
