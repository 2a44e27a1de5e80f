use std::sync::Arc;

use plan_geometry::{Area, RoomFigures};
use plan_model::elements::{Room, RoomUse};
use plan_model::{Exact, Id, Length};

use crate::book::Entry;
use crate::rule::{Case, Check, Figures, Subject, exact, within_slack};
use crate::{Place, Quantity, Rule, Verdict, show};

pub(super) static RULE: Rule = Rule {
    id: "ceiling-height",
    name: "Ceiling height",
    measures: "Finished floor to the lowest part of the ceiling; under a sloped or lowered ceiling, how much of the \
               required area is high enough.",
    read,
};

#[derive(Debug)]
struct CeilingHeight {
    heights: Vec<(RoomUse, Exact)>,
    sloped: Option<Sloped>,
}

/// What is asked under a ceiling that is not flat.
#[derive(Debug)]
struct Sloped {
    rooms: Vec<RoomUse>,
    required_area: Exact,
    share_at_full_height: Exact,
    counted_height: Length,
}

fn read(entry: &Entry<'_>) -> Arc<dyn Check> {
    let heights = entry.lengths_by_use("heights");
    let sloped = entry.group("sloped").map(|group| {
        let sloped = Sloped {
            rooms: group.uses("rooms"),
            required_area: group.area("required_area"),
            share_at_full_height: group.share("share_at_full_height"),
            counted_height: group.grid_length("counted_height"),
        };
        group.finish();
        sloped
    });
    Arc::new(CeilingHeight { heights, sloped })
}

impl Check for CeilingHeight {
    fn check(&self, case: &Case<'_>) -> Vec<Verdict> {
        let judge = |room: &RoomFigures| {
            let (_, required) = self.heights.iter().find(|(usage, _)| *usage == room.usage)?;
            Some(self.judge(case, case.room(&room.id)?, room, *required))
        };
        case.derived.rooms.iter().filter_map(judge).collect()
    }
}

impl CeilingHeight {
    fn judge(&self, case: &Case<'_>, drawn: &Room, room: &RoomFigures, required: Exact) -> Verdict {
        let lowest =
            room.ceiling.lowest.map(|lowest| within_slack(exact(lowest), required, exact(room.ceiling.lowest_slack())));
        let sloped = self.sloped.as_ref().filter(|sloped| sloped.rooms.contains(&room.usage));
        if let (Some(sloped), Some(lowest)) = (sloped, lowest)
            && lowest < required
            && !room.ceiling.is_flat
        {
            return sloped.judge(case, drawn, room, required);
        }
        let subject = Subject { id: Some(drawn.id.clone()), name: drawn.name.clone(), place: Place::point(drawn.at) };
        let figures = Figures { quantity: Quantity::LengthAtLeast, measured: lowest, required };
        let required_text = show::length(required, case.units());
        let message = match lowest {
            Some(lowest) => {
                let shown = case.length(lowest, required);
                format!("The ceiling of {} is {shown} high at its lowest; {required_text} is required.", drawn.name)
            }
            None => format!("The plan has no ceiling over {}; {required_text} is required.", drawn.name),
        };
        let enter = || case.enter_ceiling(std::slice::from_ref(&drawn.id));
        case.compare(subject, figures, message, Vec::new()).entering(enter)
    }
}

impl Sloped {
    /// Two areas of the room, with the covered rooms that are open to it: high enough to count, and of full height.
    fn judge(&self, case: &Case<'_>, drawn: &Room, room: &RoomFigures, full_height: Exact) -> Verdict {
        let spaces = case.derived.spaces_of(|usage| self.rooms.contains(&usage));
        let space = spaces.iter().find(|space| space.rooms.contains(&drawn.id));
        let parts = space.map_or(std::slice::from_ref(&drawn.id), |space| &space.rooms);
        // A space without a required area of its own, such as a small kitchen, is asked for no more than all it has.
        let area = space.map_or(room.floor_area, |space| space.floor_area).exact();
        let counted_required = self.required_area.min(area);
        let full_required = counted_required * self.share_at_full_height;
        let full = area_at(case, parts, full_height, full_required);
        let counted = area_at(case, parts, exact(self.counted_height), counted_required);
        let counted_falls_short = counted.is_some_and(|counted| counted < counted_required);
        let full_falls_short = full.is_some_and(|full| full < full_required);
        let (measured, required, height) = if counted_falls_short && !full_falls_short {
            (counted, counted_required, exact(self.counted_height))
        } else {
            (full, full_required, full_height)
        };
        let height = show::length(height, case.units());
        let required_text = show::area(required, case.units());
        let message = match measured {
            Some(measured) => {
                let shown = case.area(measured, required);
                format!("{} has {shown} under a ceiling of {height} or more; {required_text} is required.", drawn.name)
            }
            None => format!(
                "How much of {} is under a ceiling of {height} or more is not known; {required_text} is required.",
                drawn.name
            ),
        };
        let notes =
            vec!["its ceiling is sloped or lowered: judged by how much of the required area is high enough".to_owned()];
        let subject = Subject { id: Some(drawn.id.clone()), name: drawn.name.clone(), place: Place::point(drawn.at) };
        let figures = Figures { quantity: Quantity::AreaAtLeast, measured, required };
        case.compare(subject, figures, message, notes).entering(|| case.enter_ceiling(parts))
    }
}

/// Floor of some rooms under a ceiling at or above a height, on the limit where it is within its slack of it.
fn area_at(case: &Case<'_>, rooms: &[Id], height: Exact, required: Exact) -> Option<Exact> {
    let height = Length::from_steps(i64::try_from(height.ceil().to_integer()).ok()?);
    let ceilings = || rooms.iter().filter_map(|id| case.derived.room(id)).map(|room| &room.ceiling);
    let areas: Option<Vec<Area>> = ceilings().map(|ceiling| ceiling.area_at_or_above(height)).collect();
    let slack: Area = ceilings().map(|ceiling| ceiling.area_slack()).sum();
    Some(within_slack(areas?.into_iter().sum::<Area>().exact(), required, slack.exact()))
}
