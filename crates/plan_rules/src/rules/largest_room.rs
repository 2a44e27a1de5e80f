use std::sync::Arc;

use plan_model::Exact;
use plan_model::elements::{Room, RoomUse};

use super::listed::not_known;
use crate::book::Entry;
use crate::rule::{Case, Check, Figures, Subject, exact, within_slack};
use crate::{Place, Quantity, RestsOn, Rule, Verdict, show};

pub(super) static RULE: Rule = Rule {
    id: "largest-room",
    name: "One room larger than the others",
    measures: "The floor of the largest of some rooms; rooms of these uses that are open to each other are one.",
    read,
};

#[derive(Debug)]
struct LargestRoom {
    rooms: Vec<RoomUse>,
    area: Exact,
}

fn read(entry: &Entry<'_>) -> Arc<dyn Check> {
    Arc::new(LargestRoom { rooms: entry.rooms(), area: entry.area("area") })
}

impl Check for LargestRoom {
    fn check(&self, case: &Case<'_>) -> Vec<Verdict> {
        let spaces = case.derived.spaces_of(|usage| self.rooms.contains(&usage));
        let Some(space) = spaces.iter().max_by_key(|space| space.floor_area.square_steps()) else { return Vec::new() };
        let Some(room) = space.rooms.first().and_then(|id| case.room(id)) else { return Vec::new() };
        let slack = space.sizes.slack();
        // A floor off the axes may be off by its outline times what each side may be off by.
        let outline: Exact = exact(space.sizes.rectangle().width + space.sizes.rectangle().length) * Exact::from(2);
        let measured = within_slack(space.floor_area.exact(), self.area, outline * exact(slack));
        let is_open = |room: &&Room| self.rooms.contains(&room.usage) && case.derived.room(&room.id).is_none();
        if measured < self.area && case.home.elements.rooms.iter().any(|room| is_open(&room)) {
            let whether = format!("a room has {}", show::area(self.area, case.units()));
            return vec![not_known(case, case.whole_home(), &whether)];
        }
        let message = format!(
            "The largest room, {}, has {}; {} is asked for.",
            room.name,
            case.area(measured, self.area),
            show::area(self.area, case.units())
        );
        let subject = Subject { id: Some(room.id.clone()), name: room.name.clone(), place: Place::point(room.at) };
        let figures = Figures { quantity: Quantity::AreaAtLeast, measured: Some(measured), required: self.area };
        let largest = RestsOn::OneOfMany(Some(space.rooms.clone()));
        vec![case.compare(subject, figures, message, Vec::new()).held_by(largest)]
    }
}
