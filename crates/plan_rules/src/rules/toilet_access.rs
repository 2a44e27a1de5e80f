use std::sync::Arc;

use plan_geometry::Node;
use plan_model::Id;
use plan_model::elements::{Fixture, FixtureKind, Room, RoomUse};

use super::listed::{not_known, told};
use super::ways::way;
use crate::book::Entry;
use crate::rule::{Case, Check};
use crate::{RestsOn, Rule, Verdict, What};

pub(super) static RULE: Rule = Rule {
    id: "toilet-access",
    name: "Way to a toilet",
    measures: "Whether a room with a toilet is reached from each bedroom without passing another bedroom or outdoors.",
    read,
};

#[derive(Debug)]
struct ToiletAccess;

fn read(entry: &Entry<'_>) -> Arc<dyn Check> {
    entry.rooms();
    Arc::new(ToiletAccess)
}

impl Check for ToiletAccess {
    fn check(&self, case: &Case<'_>) -> Vec<Verdict> {
        let toilets = || case.home.elements.fixtures.iter().filter(|fixture| fixture.kind == FixtureKind::Toilet);
        let is_in =
            |toilet: &Fixture, room: &Id| case.named(&toilet.id).is_some_and(|it| it.room.as_ref() == Some(room));
        let with_toilet: Vec<Id> = toilets().filter_map(|toilet| case.named(&toilet.id)?.room).collect();
        let rooms = case.home.elements.rooms.iter().filter(|room| case.rule.rooms.contains(&room.usage));
        let judge = |room: &Room| {
            let is_bedroom = |id: &Id| case.room(id).is_some_and(|room| room.usage == RoomUse::Bedroom);
            let has_toilet = |node: &Node| matches!(node, Node::Room(room) if with_toilet.contains(room));
            let way = way(case.derived, &room.id, |id| !is_bedroom(id), has_toilet);
            let is_so = way.is_some();
            if !is_so && !case.every_room_closes() {
                let whether = format!("a toilet is reached from {} without passing another bedroom", room.name);
                return not_known(case, Case::of_room(room), &whether);
            }
            let how = if is_so { "A toilet is reached" } else { "No toilet is reached" };
            let message = format!("{how} from {} without passing another bedroom.", room.name);
            // The way ends in a room, which has a toilet as long as this one is there.
            let mut passed = way.unwrap_or_default();
            let toilet = passed.iter().find_map(|id| toilets().find(|toilet| is_in(toilet, id)));
            passed.extend(toilet.map(|toilet| toilet.id.clone()));
            told(case, Case::of_room(room), is_so, message).held_by(RestsOn::Elements(passed)).of_the(What::Shell)
        };
        rooms.filter(|room| case.derived.room(&room.id).is_some()).map(judge).collect()
    }
}
