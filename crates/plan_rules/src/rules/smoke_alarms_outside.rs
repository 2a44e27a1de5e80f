use std::sync::Arc;

use plan_model::Exact;
use plan_model::elements::RoomUse;

use super::alarm_places::{SMOKE, outside_sleeping_areas};
use crate::book::Entry;
use crate::rule::{Case, Check};
use crate::{Rule, Verdict};

pub(super) static RULE: Rule = Rule {
    id: "smoke-alarms-outside",
    name: "Smoke alarms outside sleeping areas",
    measures: "Whether a smoke alarm hangs outside each sleeping area, near the door of each of its bedrooms.",
    read,
};

#[derive(Debug)]
struct SmokeAlarmsOutside {
    within: Exact,
}

fn read(entry: &Entry<'_>) -> Arc<dyn Check> {
    Arc::new(SmokeAlarmsOutside { within: entry.length("within") })
}

impl Check for SmokeAlarmsOutside {
    fn check(&self, case: &Case<'_>) -> Vec<Verdict> {
        outside_sleeping_areas(case, self.within, &SMOKE)
    }

    fn nothing(&self, case: &Case<'_>) -> Option<String> {
        case.without_rooms(&[RoomUse::Bedroom])
    }
}
