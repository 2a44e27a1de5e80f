use std::sync::Arc;

use plan_model::elements::RoomUse;
use plan_model::{Exact, Length};

use super::spaces::{CoveredSpace, covered};
use crate::book::Entry;
use crate::rule::{Case, Check, Figures, exact, within_slack};
use crate::{Quantity, Rule, Verdict, show};

pub(super) static RULE: Rule = Rule {
    id: "habitable-area",
    name: "Area of habitable rooms",
    measures: "Floor area of each habitable space where it is at least the counted width in every direction, to finished \
               faces; a space that is open to others is judged once.",
    read,
};

/// The limit from which a width counts.
pub(super) const COUNTED_AT: &str = "counted_at";

#[derive(Debug)]
struct HabitableArea {
    rooms: Vec<RoomUse>,
    required: Exact,
    counted_at: Length,
}

fn read(entry: &Entry<'_>) -> Arc<dyn Check> {
    Arc::new(HabitableArea {
        rooms: entry.rooms(),
        required: entry.area("area"),
        counted_at: entry.grid_length(COUNTED_AT),
    })
}

impl Check for HabitableArea {
    fn check(&self, case: &Case<'_>) -> Vec<Verdict> {
        covered(case, &self.rooms).map(|space| self.judge(case, &space)).collect()
    }
}

impl HabitableArea {
    fn judge(&self, case: &Case<'_>, covered: &CoveredSpace<'_>) -> Verdict {
        let sizes = &covered.space.sizes;
        // A width that is on the limit is counted.
        let counted = sizes.qualifying_area(self.counted_at - sizes.slack()).exact();
        let measured = within_slack(counted, self.required, covered.area_slack());
        let subject = covered.subject(&sizes.rectangle(), None);
        let message = format!(
            "{} has {} of floor that is at least {} wide; {} is required.",
            subject.name,
            case.area(measured, self.required),
            show::length(exact(self.counted_at), case.units()),
            show::area(self.required, case.units()),
        );
        let mut notes = Vec::new();
        if covered.is_shared() {
            notes.push("rooms without walls between them are judged as one".to_owned());
        }
        if measured < self.required && covered.space.floor_area.exact() >= self.required {
            let whole = show::area(covered.space.floor_area.exact(), case.units());
            notes.push(format!("the whole floor is {whole}; narrower parts are not counted"));
        }
        let figures = Figures { quantity: Quantity::AreaAtLeast, measured: Some(measured), required: self.required };
        case.compare(subject, figures, message, notes)
    }
}
