use std::sync::Arc;

use plan_geometry::MeasureName;

use super::listed::{self, About, Listed};
use crate::book::Entry;
use crate::rule::Check;
use crate::{Quantity, Rule};

pub(super) static RULE: Rule = Rule {
    id: "shipping-width",
    name: "Width on the road",
    measures: "The width of each module on the road: its body, with eaves in place in transit and porches built in the factory.",
    read,
};

static LISTED: Listed = Listed {
    measures: &[(MeasureName::ModuleShippingWidth, "width on the road")],
    limit: "width",
    quantity: Quantity::LengthAtMost,
    covers: listed::all,
    instead: None,
    about: About::Other(|case| !case.home.plan.modules.is_empty(), "module"),
    unmeasured: None,
};

fn read(entry: &Entry<'_>) -> Arc<dyn Check> {
    listed::everywhere(entry, &LISTED)
}
