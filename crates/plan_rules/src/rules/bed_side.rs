use std::sync::Arc;

use plan_geometry::{Amount, Measure, MeasureName};

use super::listed::{self, About, Listed};
use crate::book::Entry;
use crate::rule::{Case, Check};
use crate::{Quantity, Rule};

pub(super) static RULE: Rule = Rule {
    id: "bed-side",
    name: "Space beside beds",
    measures: "The free depth on the wider side of each bed, over its length.",
    read,
};

static LISTED: Listed = Listed {
    measures: &[(MeasureName::BedLeft, "space on the left"), (MeasureName::BedRight, "space on the right")],
    limit: "depth",
    quantity: Quantity::LengthAtLeast,
    covers: is_wider,
    instead: None,
    about: About::Other(|case| !case.home.elements.furniture.is_empty(), "bed"),
    unmeasured: None,
};

fn read(entry: &Entry<'_>) -> Arc<dyn Check> {
    listed::everywhere(entry, &LISTED)
}

/// Of the two sides of a bed the one with more space; of two with as much, the left.
fn is_wider(case: &Case<'_>, measure: &Measure) -> bool {
    let depth = |name| {
        let mut sides =
            case.measures().iter().filter(|other| other.name == name && other.of.first() == measure.of.first());
        match sides.next().map(|side| &side.amount) {
            Some(Amount::Length(length)) => Some(length.value),
            _ => None,
        }
    };
    let (left, right) = (depth(MeasureName::BedLeft), depth(MeasureName::BedRight));
    (measure.name == MeasureName::BedLeft) == (left >= right)
}
