use std::sync::Arc;

use plan_geometry::DoorFigures;
use plan_model::Exact;
use plan_model::elements::RoomUse;

use crate::book::Entry;
use crate::rule::{Case, Check, Figures, Subject};
use crate::{Place, Quantity, Rule, Verdict};

pub(super) static RULE: Rule = Rule {
    id: "exterior-doors",
    name: "Number of exterior doors",
    measures: "How many doors lead outdoors from rooms that count.",
    read,
};

#[derive(Debug)]
struct ExteriorDoors {
    count: Exact,
    not_from: Vec<RoomUse>,
}

fn read(entry: &Entry<'_>) -> Arc<dyn Check> {
    Arc::new(ExteriorDoors { count: entry.count("count"), not_from: entry.uses("not_from") })
}

impl Check for ExteriorDoors {
    fn check(&self, case: &Case<'_>) -> Vec<Verdict> {
        let counts = |door: &&DoorFigures| {
            let rooms = door.sides.iter().filter_map(|side| case.room(side.room.as_ref()?));
            door.is_exterior && rooms.map(|room| room.usage).all(|usage| !self.not_from.contains(&usage))
        };
        let count = case.derived.doors.iter().filter(counts).count();
        let measured = Exact::from(count as i128);
        let doors = if count == 1 { "1 exterior door".to_owned() } else { format!("{count} exterior doors") };
        let message = format!("The home has {doors} that count; {} are asked for.", self.count);
        let subject = Subject { id: None, name: "the home".to_owned(), place: Place::point(case.first_room()) };
        let figures = Figures { quantity: Quantity::CountAtLeast, measured: Some(measured), required: self.count };
        vec![case.compare(subject, figures, message, Vec::new())]
    }

    fn nothing(&self, _: &Case<'_>) -> Option<String> {
        None
    }
}
