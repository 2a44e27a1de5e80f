use std::sync::Arc;

use plan_model::Exact;
use plan_model::elements::RoomUse;

use super::egress_door::{self, Limits};
use super::opening_figure::OpeningFigure;
use crate::book::Entry;
use crate::rule::{Case, Check};
use crate::{RestsOn, Rule, Verdict};

pub(super) static RULE: Rule = Rule {
    id: "egress-door-width",
    name: "Width of the egress door",
    measures: "Clear width of the best side-hinged outside door, from the face of the leaf at 90 degrees to the stop.",
    read,
};

#[derive(Debug)]
struct EgressDoorWidth {
    required: Exact,
    not_from: Vec<RoomUse>,
    limits: Limits,
}

fn read(entry: &Entry<'_>) -> Arc<dyn Check> {
    let (required, not_from, limits) = (limit(entry), entry.uses("not_from"), Limits::beside(entry));
    Arc::new(EgressDoorWidth { required, not_from, limits })
}

pub(super) fn limit(entry: &Entry<'_>) -> Exact {
    entry.length("width")
}

impl Check for EgressDoorWidth {
    fn check(&self, case: &Case<'_>) -> Vec<Verdict> {
        let Some(door) = egress_door::best(case, &self.not_from, &self.limits) else {
            return vec![egress_door::none(case, &self.not_from, self.required).resting_on(RestsOn::OneOfMany(None))];
        };
        let judged = egress_door::judged(case, door, "clear width", &door.clear_width, self.required);
        let notes = egress_door::what_stops(door).into_iter().collect();
        let verdict = OpeningFigure { dimension: Some(door.sides[0].line), notes, ..judged }.verdict(case);
        vec![egress_door::of_home(verdict, door)]
    }
}
