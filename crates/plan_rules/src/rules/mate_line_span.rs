use std::sync::Arc;

use plan_geometry::MeasureName;

use super::listed::{self, About, Listed};
use crate::book::Entry;
use crate::rule::Check;
use crate::{Quantity, Rule};

pub(super) static RULE: Rule = Rule {
    id: "mate-line-span",
    name: "Clear spans at the mate line",
    measures: "The stretch of each opening through the mate line between two supports.",
    read,
};

static LISTED: Listed = Listed {
    measures: &[(MeasureName::MateLineClearSpan, "clear span at the mate line")],
    limit: "span",
    quantity: Quantity::LengthAtMost,
    covers: listed::all,
    instead: None,
    about: About::Other(|case| case.home.plan.mate_line.is_some(), "mate line"),
    unmeasured: Some("No opening leads through the mate line."),
};

fn read(entry: &Entry<'_>) -> Arc<dyn Check> {
    listed::everywhere(entry, &LISTED)
}
