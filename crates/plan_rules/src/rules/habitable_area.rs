use std::sync::Arc;

use plan_geometry::CountedHeights;
use plan_model::{Exact, Length};

use super::low_ceilings::{self, JudgedFloor};
use super::spaces::{Covered, CoveredSpace};
use crate::book::Entry;
use crate::rule::{Case, Check, Figures, exact, within_slack};
use crate::{Quantity, Rule, Verdict, show};

pub(super) static RULE: Rule = Rule {
    id: "habitable-area",
    name: "Area of habitable rooms",
    measures: "Floor area of each habitable space where it is at least the counted width in every direction, to finished \
               faces, without floor under a ceiling too low to count; rooms that are open to each other are judged as one.",
    read,
};

/// The limit from which a width counts.
pub(super) const COUNTED_AT: &str = "counted_at";

#[derive(Debug)]
struct HabitableArea {
    covered: Covered,
    required: Exact,
    counted_at: Length,
    heights: CountedHeights,
}

fn read(entry: &Entry<'_>) -> Arc<dyn Check> {
    Arc::new(HabitableArea {
        covered: Covered::read(entry),
        required: entry.area("area"),
        counted_at: entry.grid_length(COUNTED_AT),
        heights: low_ceilings::read(entry),
    })
}

impl Check for HabitableArea {
    fn check(&self, case: &Case<'_>) -> Vec<Verdict> {
        self.covered.named(case).iter().map(|space| self.judge(case, space)).collect()
    }
}

impl HabitableArea {
    fn judge(&self, case: &Case<'_>, covered: &CoveredSpace<'_>) -> Verdict {
        let judged = JudgedFloor::of(&covered.space, self.heights);
        // A width that is on the limit is counted.
        let counted = judged.floor.qualifying_area(self.counted_at - judged.floor.slack()).exact();
        let slack = judged.floor.area_slack().exact();
        let measured = within_slack(counted, self.required, slack);
        let subject =
            covered.subject(&judged.floor.rectangle().unwrap_or_else(|| covered.space.sizes.rectangle()), None);
        let whole = covered.space.floor_area.exact();
        let part = if counted >= whole {
            "all of it".to_owned()
        } else if counted == Exact::from(0) {
            "none of it".to_owned()
        } else {
            format!("{} of it", case.area(measured, self.required))
        };
        let high_enough =
            if judged.floor.area() < covered.space.floor_area { " under a ceiling that counts" } else { "" };
        let message = format!(
            "{} has {}, {part} at least {} wide{high_enough}; {} is required.",
            subject.name,
            case.area(within_slack(whole, self.required, slack), self.required),
            show::length(exact(self.counted_at), case.units()),
            show::area(self.required, case.units()),
        );
        let mut notes = Vec::new();
        let figures = Figures { quantity: Quantity::AreaAtLeast, measured: Some(measured), required: self.required };
        let figures = judged.judged(figures, &mut notes, &covered.space);
        if covered.is_shared() {
            notes.push("rooms without walls between them are judged as one".to_owned());
        }
        case.compare(subject, figures, message, notes).entering(|| case.enter_ceiling(&covered.space.rooms))
    }
}
