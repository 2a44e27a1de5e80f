use std::sync::Arc;

use plan_geometry::ProblemKind;
use plan_model::Exact;

use crate::book::Entry;
use crate::rule::{Case, Check, Figures, Subject};
use crate::{Place, Quantity, RestsOn, Rule, Verdict};

pub(super) static RULE: Rule = Rule {
    id: "room-closes",
    name: "Every room closes",
    measures: "The walls around each room's point close, so that its figures can be derived.",
    read,
};

#[derive(Debug)]
struct RoomCloses;

fn read(_: &Entry<'_>) -> Arc<dyn Check> {
    Arc::new(RoomCloses)
}

impl Check for RoomCloses {
    fn check(&self, case: &Case<'_>) -> Vec<Verdict> {
        let open: Vec<Verdict> = case
            .derived
            .problems
            .iter()
            .filter_map(|problem| match &problem.kind {
                ProblemKind::RoomNotClosed { room } => Some((room, problem.at)),
                _ => None,
            })
            .map(|(id, at)| {
                let name = case.room(id).map_or_else(|| id.to_string(), |room| room.name.clone());
                let message = format!("The walls around {name} do not close; nothing else of it can be judged.");
                let subject = Subject { id: Some(id.clone()), name, place: Place::point(at) };
                case.compare(subject, count(0, 1), message, Vec::new())
            })
            .collect();
        let Some(first) = case.home.elements.rooms.first().filter(|_| open.is_empty()) else { return open };
        let rooms = case.derived.rooms.len();
        let at = first.at;
        let subject = Subject { id: None, name: "the home".to_owned(), place: Place::point(at) };
        let rooms = rooms.try_into().unwrap_or(i128::MAX);
        let message = format!("Rooms that close: all {rooms}.");
        vec![case.compare(subject, count(rooms, rooms), message, Vec::new()).resting_on(RestsOn::Others)]
    }
}

pub(super) fn count(measured: i128, required: i128) -> Figures {
    Figures { quantity: Quantity::CountAtLeast, measured: Some(Exact::from(measured)), required: Exact::from(required) }
}
