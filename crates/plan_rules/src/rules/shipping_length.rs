use std::sync::Arc;

use plan_geometry::MeasureName;

use super::listed::{self, About, Listed};
use crate::book::Entry;
use crate::rule::Check;
use crate::{Quantity, Rule};

pub(super) static RULE: Rule = Rule {
    id: "shipping-length",
    name: "Length on the road",
    measures: "The length of each module on the road, with the same.",
    read,
};

static LISTED: Listed = Listed {
    measures: &[(MeasureName::ModuleShippingLength, "length on the road")],
    limit: "length",
    quantity: Quantity::LengthAtMost,
    covers: listed::all,
    instead: None,
    about: About::Other(|case| !case.home.plan.modules.is_empty(), "module"),
    unmeasured: None,
};

fn read(entry: &Entry<'_>) -> Arc<dyn Check> {
    listed::everywhere(entry, &LISTED)
}
