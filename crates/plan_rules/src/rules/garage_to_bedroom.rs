use std::sync::Arc;

use plan_geometry::Node;
use plan_model::elements::RoomUse;

use super::listed::{not_known, told};
use crate::book::Entry;
use crate::rule::{Case, Check};
use crate::{RestsOn, Rule, Verdict, What};

pub(super) static RULE: Rule = Rule {
    id: "garage-to-bedroom",
    name: "Openings between garage and bedrooms",
    measures: "Whether any door or opening leads from a garage straight into a bedroom, or into a closet that belongs to one.",
    read,
};

#[derive(Debug)]
struct GarageToBedroom;

fn read(_: &Entry<'_>) -> Arc<dyn Check> {
    Arc::new(GarageToBedroom)
}

impl Check for GarageToBedroom {
    fn check(&self, case: &Case<'_>) -> Vec<Verdict> {
        let garages = case.home.elements.rooms.iter().filter(|room| room.usage == RoomUse::Garage);
        let judge = |garage: &plan_model::elements::Room| {
            let graph = case.derived.room_graph();
            // Whoever leaves the garage through closets only is in the bedroom to which they belong.
            let is_bedroom = |node: &Node| {
                let Node::Room(id) = node else { return false };
                case.room(id).is_some_and(|room| match room.usage {
                    RoomUse::Bedroom => true,
                    RoomUse::Closet => graph.entered_from(id).any(|(_, beyond)| {
                        matches!(beyond, Node::Room(id) if case.room(id).is_some_and(|room| room.usage == RoomUse::Bedroom))
                    }),
                    _ => false,
                })
            };
            let into = graph.entered_from(&garage.id).find(|(_, beyond)| is_bedroom(beyond));
            if into.is_none() && !case.every_room_closes() {
                let whether = format!("an opening leads from {} straight into a sleeping room", garage.name);
                return not_known(case, Case::of_room(garage), &whether);
            }
            let message = match into {
                Some((connection, _)) => {
                    format!(
                        "\"{}\" leads from {} straight into a sleeping room; no opening may.",
                        connection.id, garage.name
                    )
                }
                None => format!("No opening leads from {} straight into a sleeping room.", garage.name),
            };
            told(case, Case::of_room(garage), into.is_none(), message)
                .resting_on(RestsOn::Neighbours)
                .of_the(What::BelowCeiling)
        };
        garages.filter(|garage| case.derived.room(&garage.id).is_some()).map(judge).collect()
    }

    fn nothing(&self, case: &Case<'_>) -> Option<String> {
        case.without_rooms(&[RoomUse::Garage])
    }
}
