use std::sync::Arc;

use plan_geometry::DoorFigures;
use plan_model::Exact;
use plan_model::elements::RoomUse;

use super::egress_door::{self, Limits};
use crate::book::Entry;
use crate::rule::{Case, Check};
use crate::{Rule, Verdict};

pub(super) static RULE: Rule = Rule {
    id: "egress-door-height",
    name: "Height of the egress door",
    measures: "Clear height of the door that the home's egress is judged by, from the top of the threshold to the stop.",
    read,
};

#[derive(Debug)]
struct EgressDoorHeight {
    required: Exact,
    not_from: Vec<RoomUse>,
    limits: Limits,
}

fn read(entry: &Entry<'_>) -> Arc<dyn Check> {
    let (required, not_from, limits) = (limit(entry), entry.uses("not_from"), Limits::beside(entry));
    Arc::new(EgressDoorHeight { required, not_from, limits })
}

pub(super) fn limit(entry: &Entry<'_>) -> Exact {
    entry.length("height")
}

impl Check for EgressDoorHeight {
    fn check(&self, case: &Case<'_>) -> Vec<Verdict> {
        // A home without such a door is a correction of the width rule alone.
        let door = egress_door::best(case, &self.not_from, &self.limits);
        let judge = |door: &DoorFigures| {
            let judged = egress_door::judged(case, door, "clear height", &door.clear_height, self.required);
            egress_door::of_home(judged.verdict(case), door)
        };
        let none = || {
            let message =
                "No outside door serves as egress door, of which there could be a clear height: its width tells that.";
            case.does_not_apply(case.whole_home(), message.to_owned(), None)
        };
        vec![door.map_or_else(none, judge)]
    }
}
