use std::sync::Arc;

use plan_geometry::{Derived, Node, RoomFigures, Side};
use plan_model::elements::{Room, RoomUse};

use super::room_closes::count;
use super::ways::way;
use crate::book::Entry;
use crate::rule::{Case, Check, Figures, Subject};
use crate::{Outcome, Place, RestsOn, Rule, Verdict, What};

pub(super) static RULE: Rule = Rule {
    id: "room-entered",
    name: "Every room can be entered",
    measures: "Whether doorways and open boundaries lead to each room from a room with an outside door; in a home without \
               an outside door, whether any lead to it at all.",
    read,
};

#[derive(Debug)]
struct RoomEntered {
    rooms: Vec<RoomUse>,
}

fn read(entry: &Entry<'_>) -> Arc<dyn Check> {
    Arc::new(RoomEntered { rooms: entry.rooms() })
}

impl Check for RoomEntered {
    fn check(&self, case: &Case<'_>) -> Vec<Verdict> {
        let ways = Ways::of(case.derived);
        let covered = case.derived.rooms.iter().filter(|room| self.rooms.contains(&room.usage));
        let covered = covered.filter_map(|room| Some((room, case.room(&room.id)?)));
        covered.map(|(room, drawn)| ways.judge(case, room, drawn)).collect()
    }
}

/// How one gets about. Within an open space one may go anywhere, so that spaces are what doors join.
struct Ways {
    /// For each space, whether any way leads to it.
    entered: Vec<bool>,
    /// For each space, whether one gets there from an outside door; where there is none, the same as `entered`.
    reached: Vec<bool>,
}

impl Ways {
    fn of(derived: &Derived) -> Self {
        let space = |side: &Side| derived.room(side.room.as_ref()?).map(|room| room.space);
        let mut entered: Vec<bool> = derived.spaces.iter().map(|space| space.rooms.len() > 1).collect();
        let mut reached = vec![false; entered.len()];
        let mut joined = Vec::new();
        for door in &derived.doors {
            match (space(&door.sides[0]), space(&door.sides[1])) {
                (Some(one), Some(other)) => {
                    joined.push([one, other]);
                    (entered[one], entered[other]) = (true, true);
                }
                (Some(inside), None) | (None, Some(inside)) if door.is_exterior => {
                    (entered[inside], reached[inside]) = (true, true);
                }
                // Whatever it opens into, it is no way.
                _ => {}
            }
        }
        if !reached.contains(&true) {
            return Self { reached: entered.clone(), entered };
        }
        while let Some([one, other]) = joined.iter().find(|[one, other]| reached[*one] != reached[*other]) {
            (reached[*one], reached[*other]) = (true, true);
        }
        Self { entered, reached }
    }

    /// Whether one gets into a room.
    fn judge(&self, case: &Case<'_>, room: &RoomFigures, drawn: &Room) -> Verdict {
        if !self.reached[room.space] {
            return self.shut(case, room, drawn).resting_on(RestsOn::Home);
        }
        let subject = Subject { id: Some(drawn.id.clone()), name: drawn.name.clone(), place: Place::point(drawn.at) };
        let verdict = case.compare(subject, count(1, 1), format!("{} can be entered.", drawn.name), Vec::new());
        match way(case.derived, &room.id, |_| true, |node| *node == Node::Outdoors) {
            Some(way) => verdict.resting_on(RestsOn::Elements(way)).of_the(What::Shell),
            // By a doorway of a home without an outside door.
            None => verdict.resting_on(RestsOn::Home),
        }
    }

    /// A room to which no way leads.
    fn shut(&self, case: &Case<'_>, room: &RoomFigures, drawn: &Room) -> Verdict {
        let why = if self.entered[room.space] {
            "no way leads to it from an outside door"
        } else {
            "no doorway or opening leads to it"
        };
        let subject = Subject { id: Some(drawn.id.clone()), name: drawn.name.clone(), place: Place::point(drawn.at) };
        // A way may lead through a room whose walls do not close.
        if case.derived.rooms.len() < case.home.elements.rooms.len() {
            let message =
                format!("Whether {} can be entered is not known: not every room closes, and {why}.", drawn.name);
            let figures = Figures { measured: None, ..count(0, 1) };
            let enter = || case.enter_walls().unwrap_or_default();
            return case.verdict(Outcome::Unknown, subject, figures, message, Vec::new()).entering(enter);
        }
        let message = format!("{} cannot be entered: {why}.", drawn.name);
        case.compare(subject, count(0, 1), message, Vec::new())
    }
}
