use std::sync::Arc;

use plan_geometry::WayOut;
use plan_model::elements::Room;
use plan_model::{Exact, Length};

use super::listed::not_known;
use crate::book::Entry;
use crate::rule::{Case, Check, Figures, Subject, exact, within_slack};
use crate::{Place, Quantity, RestsOn, Rule, Verdict, What, show};

pub(super) static RULE: Rule = Rule {
    id: "exit-travel",
    name: "Way from bedrooms to an exterior door",
    measures: "The length of the shortest way from the middle of a bedroom's doorway to the middle of an exterior door, off \
               corners by as much as the book says.",
    read,
};

#[derive(Debug)]
struct ExitTravel {
    length: Exact,
    off_corners: Length,
}

fn read(entry: &Entry<'_>) -> Arc<dyn Check> {
    entry.rooms();
    Arc::new(ExitTravel { length: entry.length("length"), off_corners: entry.grid_length("off_corners") })
}

impl Check for ExitTravel {
    fn check(&self, case: &Case<'_>) -> Vec<Verdict> {
        let rooms = case.home.elements.rooms.iter().filter(|room| case.rule.rooms.contains(&room.usage));
        let closed = rooms.filter(|room| case.derived.room(&room.id).is_some());
        let way = |room: &Room| case.derived.ways_out().iter().find(|out| out.room == room.id);
        closed.map(|room| self.judge(case, room, way(room))).collect()
    }
}

impl ExitTravel {
    fn judge(&self, case: &Case<'_>, room: &Room, out: Option<&WayOut>) -> Verdict {
        // Where a room does not close, outdoors reaches into it.
        if !case.every_room_closes() {
            return not_known(
                case,
                Case::of_room(room),
                &format!("a way leads from {} to an exterior door", room.name),
            );
        }
        let units = case.units();
        let limit = show::length(self.length, units);
        let name = &room.name;
        let walk = out.map(|out| out.walk.off_corners(self.off_corners));
        let measured =
            walk.as_ref().map(|walk| -within_slack(-exact(walk.length.value), -self.length, exact(walk.length.slack)));
        let message = match measured {
            Some(measured) => format!(
                "The way from {name} to an exterior door is {} long; at most {limit} is allowed.",
                case.length(measured, self.length)
            ),
            None => format!("No way leads from {name} to an exterior door; one of at most {limit} is asked for."),
        };
        let at = walk.as_ref().and_then(|walk| walk.path.first().copied()).unwrap_or(room.at);
        let subject = Subject { id: Some(room.id.clone()), name: name.clone(), place: Place::point(at) };
        let figures = Figures { quantity: Quantity::LengthAtMost, measured, required: self.length };
        let outcome = if measured.is_none() { crate::Outcome::Correction } else { figures.outcome() };
        let path = out.map(|out| out.walk.path.clone()).unwrap_or_default();
        case.verdict(outcome, subject, figures, message, Vec::new())
            .held_by(RestsOn::Way(path))
            .of_the(What::BelowCeiling)
    }
}
