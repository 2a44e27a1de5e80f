use std::sync::Arc;

use plan_geometry::{DoorFigures, RoomFigures};
use plan_model::elements::{Room, RoomUse};
use plan_model::{DoorOperation, Exact, Id};

use crate::book::Entry;
use crate::rule::{Case, Check, Figures, Subject, exact, middle, within_slack};
use crate::{Outcome, Place, Quantity, Rule, RuleBook, Verdict, show};

pub(super) static RULE: Rule = Rule {
    id: "hallway-width",
    name: "Width of hallways",
    measures: "The clear width of each hallway between every two of its doorways, to finished faces; the narrowest is \
               judged. A cased opening in a hallway is reported, never failed.",
    read,
};

#[derive(Debug)]
struct HallwayWidth {
    rooms: Vec<RoomUse>,
    required: Exact,
}

fn read(entry: &Entry<'_>) -> Arc<dyn Check> {
    Arc::new(HallwayWidth { rooms: entry.rooms(), required: entry.length("width") })
}

/// Whether reports show the passages of a room: of a hall, and of whatever else the book judges as one.
pub(crate) fn shows_passages(room: &RoomFigures, book: Option<&RuleBook>) -> bool {
    let rule = book.and_then(|book| book.rule(RULE.id));
    room.usage == RoomUse::Hall || rule.is_some_and(|rule| rule.rooms.contains(&room.usage))
}

impl Check for HallwayWidth {
    fn check(&self, case: &Case<'_>) -> Vec<Verdict> {
        let halls = case.derived.rooms.iter().filter(|room| self.rooms.contains(&room.usage));
        let judge = |hall: &RoomFigures| {
            let Some(drawn) = case.room(&hall.id) else { return Vec::new() };
            let narrowest = self.narrowest(case, drawn, hall);
            let dead_end = || {
                let message = format!("{} has fewer than two doorways: it is no way between any.", drawn.name);
                case.does_not_apply(Case::of_room(drawn), message, None)
            };
            let narrowest = narrowest.unwrap_or_else(dead_end);
            std::iter::once(narrowest).chain(self.cased_openings(case, drawn)).collect::<Vec<_>>()
        };
        halls.flat_map(judge).collect()
    }

    /// A hall with fewer than two doorways is no way between any.
    fn nothing(&self, case: &Case<'_>) -> Option<String> {
        let mut halls = case.home.elements.rooms.iter().filter(|room| self.rooms.contains(&room.usage));
        let is_passage = halls.any(|room| case.derived.room(&room.id).is_none_or(|hall| hall.doorways().len() > 1));
        let dead_ends = "No hallway has two doorways.";
        case.without_rooms(&self.rooms).or_else(|| (!is_passage).then(|| dead_ends.to_owned()))
    }
}

impl HallwayWidth {
    /// The narrowest passage; none where fewer than two doorways make the hall a passage.
    fn narrowest(&self, case: &Case<'_>, drawn: &Room, hall: &RoomFigures) -> Option<Verdict> {
        let passage = hall.passages().iter().min_by_key(|passage| passage.clear_width.value)?;
        let width = passage.clear_width;
        let measured = within_slack(exact(width.value), self.required, exact(width.slack));
        // An open boundary has no name of its own.
        let named = |id: &Id| case.named(id).map_or_else(|| format!("\"{id}\""), |named| named.name);
        let [one, other] = passage.between.each_ref().map(named);
        let message = format!(
            "{} is {} wide at its narrowest, between {one} and {other}; {} is required.",
            drawn.name,
            case.length(measured, self.required),
            show::length(self.required, case.units()),
        );
        let [from, to] = passage.pinch;
        let place = Place { at: middle(from, to), dimension: Some(passage.pinch), outline: Vec::new() };
        let subject = Subject { id: Some(drawn.id.clone()), name: drawn.name.clone(), place };
        Some(case.compare(subject, self.figures(measured), message, Vec::new()))
    }

    /// Whether an opening without a door must keep the hallway's width is disputed: the official decides.
    fn cased_openings<'a>(&'a self, case: &'a Case<'_>, drawn: &'a Room) -> impl Iterator<Item = Verdict> + 'a {
        // One between two halls is told once, of the first.
        let is_hall = |id: &Id| case.derived.room(id).is_some_and(|room| self.rooms.contains(&room.usage));
        let first_hall = move |door: &DoorFigures| {
            door.sides.iter().filter_map(|side| side.room.clone()).find(is_hall).is_some_and(|hall| hall == drawn.id)
        };
        case.derived.doors.iter().filter(move |door| first_hall(door)).filter_map(|door| {
            let placed = case.home.elements.doors.get(door.index)?;
            let unit = case.home.plan.catalogue.door(&placed.unit)?;
            let measured = door.clear_width.value()?;
            if unit.operation != DoorOperation::CasedOpening || measured >= self.required {
                return None;
            }
            let name = format!("cased opening of {}", drawn.name);
            let message = format!(
                "The {name} is {} wide; some officials ask for {}, the width of the hallway.",
                case.length(measured, self.required),
                show::length(self.required, case.units()),
            );
            let place = Place::opening(&door.outline, Some(door.sides[0].line));
            let subject = Subject { id: Some(door.id.clone()), name, place };
            Some(case.verdict(Outcome::Advisory, subject, self.figures(measured), message, Vec::new()))
        })
    }

    fn figures(&self, measured: Exact) -> Figures {
        Figures { quantity: Quantity::LengthAtLeast, measured: Some(measured), required: self.required }
    }
}
