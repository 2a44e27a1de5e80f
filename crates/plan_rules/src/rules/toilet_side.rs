use std::sync::Arc;

use plan_geometry::{Measure, MeasureName};
use plan_model::elements::FixtureKind;

use super::listed::{self, About, Instead, Listed};
use crate::book::Entry;
use crate::rule::{Case, Check};
use crate::{Quantity, Rule};

pub(super) static RULE: Rule = Rule {
    id: "toilet-side",
    name: "Space beside toilets",
    measures: "From the centre line of each toilet to the nearest wall or fixture on either side.",
    read,
};

static LISTED: Listed = Listed {
    measures: &[
        (MeasureName::ToiletLeft, "space left of the centre line"),
        (MeasureName::ToiletRight, "space right of the centre line"),
    ],
    limit: "side",
    quantity: Quantity::LengthAtLeast,
    covers: listed::all,
    instead: Some(Instead {
        limit: "beside_tub",
        holds: is_beside_a_tub,
        note: "beside a tub, where the book asks for less",
    }),
    about: About::Fixtures(&[FixtureKind::Toilet], "toilet"),
    unmeasured: None,
};

fn read(entry: &Entry<'_>) -> Arc<dyn Check> {
    listed::everywhere(entry, &LISTED)
}

/// The second thing of the measure is what it was measured to.
fn is_beside_a_tub(case: &Case<'_>, measure: &Measure) -> bool {
    let met = measure.of.get(1);
    case.home.elements.fixtures.iter().any(|fixture| fixture.kind == FixtureKind::Tub && Some(&fixture.id) == met)
}
