use std::sync::Arc;

use plan_geometry::{Amount, Measure, MeasureName};

use super::listed::{self, About, Instead, Listed};
use crate::book::Entry;
use crate::rule::{Case, Check};
use crate::{Quantity, Rule};

pub(super) static RULE: Rule = Rule {
    id: "exit-separation",
    name: "Exterior doors apart",
    measures: "The straight distance between the middles of every two exterior doors, whatever stands between them; the farthest two are judged.",
    read,
};

static LISTED: Listed = Listed {
    measures: &[(MeasureName::ExitSeparation, "distance to the other exterior door")],
    limit: "apart",
    quantity: Quantity::LengthAtLeast,
    covers: is_farthest,
    instead: Some(Instead {
        limit: "in_several_modules",
        holds: has_several_modules,
        note: "the home is made of several modules",
    }),
    about: About::Other(listed::has_doors, "door"),
    unmeasured: Some("The home has fewer than two exterior doors."),
};

fn read(entry: &Entry<'_>) -> Arc<dyn Check> {
    listed::everywhere(entry, &LISTED)
}

/// Two doors far enough apart are enough.
fn is_farthest(case: &Case<'_>, measure: &Measure) -> bool {
    let separations = case.measures().iter().filter(|other| other.name == MeasureName::ExitSeparation);
    let farthest = separations.max_by_key(|other| match &other.amount {
        Amount::Length(length) => Some(length.value),
        _ => None,
    });
    farthest.is_some_and(|farthest| farthest.of == measure.of)
}

fn has_several_modules(case: &Case<'_>, _: &Measure) -> bool {
    case.derived.modules().len() > 1
}
