use std::sync::Arc;

use plan_geometry::Area;
use plan_model::Exact;

use super::spaces::{Covered, CoveredSpace, width_line};
use crate::book::Entry;
use crate::rule::{Case, Check, Figures, exact, within_slack};
use crate::{Quantity, Rule, Verdict, show};

pub(super) static RULE: Rule = Rule {
    id: "least-dimension",
    name: "Least horizontal dimension",
    measures: "The largest width at which a habitable space still has its required area, to finished faces; rooms \
               that are open to each other are judged as one.",
    read,
};

/// The limit of the area over which the dimension is taken.
pub(super) const REQUIRED_AREA: &str = "required_area";

#[derive(Debug)]
struct LeastDimension {
    covered: Covered,
    required: Exact,
    area: Exact,
}

fn read(entry: &Entry<'_>) -> Arc<dyn Check> {
    Arc::new(LeastDimension {
        covered: Covered::read(entry),
        required: entry.length("dimension"),
        area: entry.area(REQUIRED_AREA),
    })
}

impl Check for LeastDimension {
    fn check(&self, case: &Case<'_>) -> Vec<Verdict> {
        self.covered.named(case).iter().map(|space| self.judge(case, space)).collect()
    }
}

impl LeastDimension {
    fn judge(&self, case: &Case<'_>, covered: &CoveredSpace<'_>) -> Verdict {
        let sizes = &covered.space.sizes;
        let rectangle = sizes.rectangle();
        // A space whose area is on the limit has the required area.
        let area = Area::from_square_steps((self.area - covered.area_slack()).ceil().to_integer());
        let least = sizes.least_dimension(area);
        let line = least.and_then(|_| sizes.least_dimension_line(area)).unwrap_or_else(|| width_line(&rectangle));
        let subject = covered.subject(&rectangle, Some(line));
        let measured =
            within_slack(exact(least.unwrap_or_else(|| sizes.largest_square())), self.required, exact(sizes.slack()));
        let shown = case.length(measured, self.required);
        let required = show::length(self.required, case.units());
        let mut notes = Vec::new();
        let message = format!("{} is {shown} in its least dimension; {required} is required.", subject.name);
        if least.is_none() {
            // The area is a correction of its own; the width is still judged, by a figure that such a room has.
            let area = show::area(self.area, case.units());
            notes.push(format!(
                "its floor is smaller than the {area} over which the dimension is taken: the side of its largest square \
                 is judged"
            ));
        }
        if covered.is_shared() {
            notes.push("rooms without walls between them are judged as one".to_owned());
        }
        let figures = Figures { quantity: Quantity::LengthAtLeast, measured: Some(measured), required: self.required };
        case.compare(subject, figures, message, notes)
    }
}
