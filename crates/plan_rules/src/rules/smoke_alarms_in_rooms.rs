use std::sync::Arc;

use super::alarm_places::{SMOKE, hangs_in};
use super::listed::told;
use crate::book::Entry;
use crate::rule::{Case, Check, Subject};
use crate::{Place, RestsOn, Rule, Verdict, What};

pub(super) static RULE: Rule = Rule {
    id: "smoke-alarms-in-rooms",
    name: "Smoke alarms in rooms",
    measures: "Whether a smoke alarm hangs in each room that needs one, or in a room that is open to it if the book says so.",
    read,
};

#[derive(Debug)]
struct SmokeAlarmsInRooms {
    open_rooms_share: bool,
}

fn read(entry: &Entry<'_>) -> Arc<dyn Check> {
    entry.rooms();
    Arc::new(SmokeAlarmsInRooms { open_rooms_share: entry.is_said("open_rooms_share") })
}

impl Check for SmokeAlarmsInRooms {
    fn check(&self, case: &Case<'_>) -> Vec<Verdict> {
        let rooms = case.home.elements.rooms.iter();
        let covered =
            rooms.filter(|room| case.rule.rooms.contains(&room.usage) && case.derived.room(&room.id).is_some());
        let judge = |room: &plan_model::elements::Room| {
            let graph = case.derived.room_graph();
            let shares = |other: &&plan_geometry::RoomFigures| {
                other.id == room.id || (self.open_rooms_share && graph.are_undivided(&other.id, &room.id))
            };
            let is_so = case.derived.rooms.iter().filter(shares).any(|room| hangs_in(case, &room.id, &SMOKE));
            let message = if is_so {
                format!("A smoke alarm hangs in {}.", room.name)
            } else {
                format!("No smoke alarm hangs in {}; one is asked for.", room.name)
            };
            let subject = Subject { id: Some(room.id.clone()), name: room.name.clone(), place: Place::point(room.at) };
            let verdict = told(case, subject, is_so, message).of_the(What::BelowCeiling);
            if self.open_rooms_share { verdict.resting_on(RestsOn::Neighbours) } else { verdict }
        };
        covered.map(judge).collect()
    }
}
