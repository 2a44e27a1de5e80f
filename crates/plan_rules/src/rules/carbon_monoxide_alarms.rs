use std::sync::Arc;

use plan_model::Exact;
use plan_model::elements::RoomUse;

use super::alarm_places::{CARBON_MONOXIDE, outside_sleeping_areas};
use crate::book::Entry;
use crate::rule::{Case, Check};
use crate::{Rule, Verdict};

pub(super) static RULE: Rule = Rule {
    id: "carbon-monoxide-alarms",
    name: "Carbon monoxide alarms outside sleeping areas",
    measures: "Whether a carbon monoxide alarm hangs outside each sleeping area, near the door of each of its bedrooms, in a \
               home with something that burns fuel or with a garage that opens into it.",
    read,
};

#[derive(Debug)]
struct CarbonMonoxideAlarms {
    within: Exact,
}

fn read(entry: &Entry<'_>) -> Arc<dyn Check> {
    Arc::new(CarbonMonoxideAlarms { within: entry.length("within") })
}

impl Check for CarbonMonoxideAlarms {
    fn check(&self, case: &Case<'_>) -> Vec<Verdict> {
        if calls_for_them(case) { outside_sleeping_areas(case, self.within, &CARBON_MONOXIDE) } else { Vec::new() }
    }

    fn nothing(&self, case: &Case<'_>) -> Option<String> {
        let calls_for_none = "Nothing in the home burns fuel, and no garage opens into it.";
        let has_garage = case.home.elements.rooms.iter().any(|room| room.usage == RoomUse::Garage);
        if calls_for_them(case) {
            case.without_rooms(&[RoomUse::Bedroom])
        } else {
            case.without(has_garage, calls_for_none, calls_for_none)
        }
    }
}

fn calls_for_them(case: &Case<'_>) -> bool {
    let alarms = case.derived.alarms();
    !alarms.fuel_appliances.is_empty() || !alarms.attached_garages.is_empty()
}
