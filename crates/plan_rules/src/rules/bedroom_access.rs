use std::sync::Arc;

use plan_geometry::Node;
use plan_model::Id;
use plan_model::elements::RoomUse;

use super::listed::{not_known, told};
use super::ways::way;
use crate::book::Entry;
use crate::rule::{Case, Check};
use crate::{RestsOn, Rule, Verdict, What};

pub(super) static RULE: Rule = Rule {
    id: "bedroom-access",
    name: "Way to bedrooms",
    measures: "Whether each bedroom is reached from outdoors or from a common room without passing another bedroom, a bath or \
               a toilet room.",
    read,
};

#[derive(Debug)]
struct BedroomAccess {
    not_through: Vec<RoomUse>,
}

fn read(entry: &Entry<'_>) -> Arc<dyn Check> {
    entry.rooms();
    Arc::new(BedroomAccess { not_through: entry.uses("not_through") })
}

impl Check for BedroomAccess {
    fn check(&self, case: &Case<'_>) -> Vec<Verdict> {
        let closed = |id| case.derived.room(id).is_some();
        let rooms = case.home.elements.rooms.iter();
        let bedrooms = rooms.filter(|room| case.rule.rooms.contains(&room.usage) && closed(&room.id));
        let judge = |room: &plan_model::elements::Room| {
            let may_be_passed = |id: &Id| case.room(id).is_some_and(|room| !self.not_through.contains(&room.usage));
            let way = way(case.derived, &room.id, may_be_passed, |node| *node == Node::Outdoors);
            let is_so = way.is_some();
            // Where a room does not close, outdoors reaches into it.
            if !case.every_room_closes() {
                let whether = format!("{} is reached without passing such rooms", room.name);
                return not_known(case, Case::of_room(room), &whether);
            }
            let how = if is_so { "is reached" } else { "is not reached" };
            let message = format!(
                "{} {how} from outdoors without passing a room of these uses: {}.",
                room.name,
                self.not_through.iter().map(|usage| usage.word()).collect::<Vec<_>>().join(", ")
            );
            told(case, Case::of_room(room), is_so, message)
                .held_by(RestsOn::Elements(way.unwrap_or_default()))
                .of_the(What::Shell)
        };
        bedrooms.map(judge).collect()
    }
}
