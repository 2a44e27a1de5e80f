use std::sync::Arc;

use plan_geometry::{Area, CountedHeights};
use plan_model::Exact;

use super::low_ceilings::{self, JudgedFloor};
use super::spaces::{Covered, CoveredSpace, width_line};
use crate::book::Entry;
use crate::rule::{Case, Check, Figures, exact, within_slack};
use crate::{Quantity, Rule, Verdict, show};

pub(super) static RULE: Rule = Rule {
    id: "least-dimension",
    name: "Least horizontal dimension",
    measures: "The largest width at which a habitable space still has its required area, to finished faces, without \
               floor under a ceiling too low to count; rooms that are open to each other are judged as one.",
    read,
};

/// The limit of the area over which the dimension is taken.
pub(super) const REQUIRED_AREA: &str = "required_area";

#[derive(Debug)]
struct LeastDimension {
    covered: Covered,
    required: Exact,
    area: Exact,
    heights: CountedHeights,
}

fn read(entry: &Entry<'_>) -> Arc<dyn Check> {
    Arc::new(LeastDimension {
        covered: Covered::read(entry),
        required: entry.length("dimension"),
        area: entry.area(REQUIRED_AREA),
        heights: low_ceilings::read(entry),
    })
}

impl Check for LeastDimension {
    fn check(&self, case: &Case<'_>) -> Vec<Verdict> {
        self.covered.named(case).iter().map(|space| self.judge(case, space)).collect()
    }
}

impl LeastDimension {
    fn judge(&self, case: &Case<'_>, covered: &CoveredSpace<'_>) -> Verdict {
        let judged = JudgedFloor::of(&covered.space, self.heights);
        let floor = &judged.floor;
        let rectangle = floor.rectangle().unwrap_or_else(|| covered.space.sizes.rectangle());
        // A space whose area is on the limit has the required area.
        let area = Area::from_square_steps((self.area - floor.area_slack().exact()).ceil().to_integer());
        let (least, line) = floor.least_dimension_and_line(area).unzip();
        let line = line.flatten().unwrap_or_else(|| width_line(&rectangle));
        let subject = covered.subject(&rectangle, Some(line));
        let measured =
            within_slack(exact(least.unwrap_or_else(|| floor.largest_square())), self.required, exact(floor.slack()));
        let shown = case.length(measured, self.required);
        let required = show::length(self.required, case.units());
        let mut notes = Vec::new();
        let message = format!("{} is {shown} in its least dimension; {required} is required.", subject.name);
        if least.is_none() {
            // The area is a correction of its own; the width is still judged, by a figure that such a room has.
            let area = show::area(self.area, case.units());
            notes.push(format!(
                "the floor that counts is smaller than the {area} over which the dimension is taken: the side of its largest square \
                 is judged"
            ));
        }
        let figures = Figures { quantity: Quantity::LengthAtLeast, measured: Some(measured), required: self.required };
        let figures = judged.judged(figures, &mut notes, &covered.space);
        if covered.is_shared() {
            notes.push("rooms without walls between them are judged as one".to_owned());
        }
        case.compare(subject, figures, message, notes).entering(|| case.enter_ceiling(&covered.space.rooms))
    }
}
