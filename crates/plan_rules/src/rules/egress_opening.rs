//! Emergency escape openings: four limits that must hold on one and the same opening, and the choice of that opening.
//!
//! Each limit is a rule of its own, so that each has its section and its verdict; the opening is chosen by all four.

use std::borrow::Cow;
use std::cmp::Ordering;

use plan_geometry::{Basis, DoorFigures, Figure, RoomFigures, Side, WindowFigures};
use plan_model::elements::{Room, RoomUse};
use plan_model::{DoorOperation, Exact, Id, Length, Point, WindowOperation};

use super::egress_area::{self, AreaLimit};
use super::opening_figure::OpeningFigure;
use super::{egress_height, egress_sill, egress_width};
use crate::book::Entry;
use crate::rule::{Case, Figures};
use crate::{Outcome, Quantity, Verdict};

/// The limits of the book, each by the rule that owns it; a book may leave some out.
#[derive(Debug)]
pub(super) struct Limits {
    area: Option<AreaLimit>,
    width: Option<Exact>,
    height: Option<Exact>,
    sill: Option<Exact>,
}

impl Limits {
    /// From the entries that stand in the book beside one of them.
    pub(super) fn beside(entry: &Entry<'_>) -> Self {
        Self {
            area: entry.beside(egress_area::RULE.id).map(|entry| AreaLimit::read(&entry)),
            width: entry.beside(egress_width::RULE.id).map(|entry| egress_width::limit(&entry)),
            height: entry.beside(egress_height::RULE.id).map(|entry| egress_height::limit(&entry)),
            sill: entry.beside(egress_sill::RULE.id).map(|entry| egress_sill::limit(&entry)),
        }
    }
}

/// A window or door that leads from a room straight outdoors.
pub(super) struct Opening<'a> {
    id: &'a Id,
    /// The opening as people call it.
    name: &'static str,
    /// Jamb to jamb, on the face of the room.
    pub(super) line: [Point; 2],
    outline: &'a [Point; 4],
    pub(super) width: &'a Figure,
    pub(super) height: &'a Figure,
    pub(super) area: Cow<'a, Figure>,
    pub(super) sill: Cow<'a, Figure>,
}

/// The rooms that need an opening, each with the one that it is judged by, if it has any.
pub(super) fn chosen<'a>(
    case: &'a Case<'_>,
    rooms: &'a [RoomUse],
    limits: &'a Limits,
) -> impl Iterator<Item = (&'a Room, Option<Opening<'a>>)> {
    let covered = case.derived.rooms.iter().filter(|room| rooms.contains(&room.usage));
    covered.filter_map(move |room| Some((case.room(&room.id)?, best(case, room, limits))))
}

/// A room without any opening is a correction of the area rule alone.
pub(super) fn no_opening(case: &Case<'_>, room: &Room, what: &str) -> Verdict {
    let message = format!("{} has no escape opening of which there could be a {what}: its area tells that.", room.name);
    case.does_not_apply(Case::of_room(room), message, None)
}

/// The opening that meets all limits, or else comes nearest: fewest limits failed, then fewest unknown, then the largest
/// margin.
fn best<'a>(case: &'a Case<'_>, room: &'a RoomFigures, limits: &Limits) -> Option<Opening<'a>> {
    let windows = case.derived.windows.iter().filter_map(|window| of_window(case, window, room));
    let doors = case.derived.doors.iter().filter_map(|door| of_door(case, door, &room.id));
    let tried = windows.chain(doors).map(|opening| (opening.tests(case, limits), opening));
    tried.min_by(|(one, _), (other, _)| compare(one, other)).map(|(_, opening)| opening)
}

fn compare(one: &[Figures], other: &[Figures]) -> Ordering {
    let count = |tests: &[Figures], outcome| tests.iter().filter(|test| test.outcome() == outcome).count();
    let rank = |tests: &[Figures]| (count(tests, Outcome::Correction), count(tests, Outcome::Unknown));
    rank(one).cmp(&rank(other)).then_with(|| least_margin(other).cmp(&least_margin(one)))
}

/// The smallest margin, as a part of its limit, over the figures that are known.
fn least_margin(tests: &[Figures]) -> Option<Exact> {
    let margin = |test: &Figures| {
        let (measured, required) = (test.measured?, test.required);
        let over = measured.numer() * required.denom() - required.numer() * measured.denom();
        let above = if test.quantity.is_upper_limit() { -over } else { over };
        let below = required.numer() * measured.denom();
        // Left unreduced: it is compared and nothing else, and looking for common divisors would take most of the time.
        (below != 0).then(|| Exact::new_raw(above, below))
    };
    tests.iter().filter_map(margin).min()
}

/// A window that opens at all serves.
fn of_window<'a>(case: &Case<'_>, window: &'a WindowFigures, room: &RoomFigures) -> Option<Opening<'a>> {
    let line = line_outdoors(&window.sides, &room.id)?;
    let placed = case.home.elements.windows.get(window.index)?;
    let unit = case.home.plan.catalogue.window(&placed.unit)?;
    if unit.operation == WindowOperation::Fixed && unit.clear.is_none() {
        return None;
    }
    Some(Opening {
        id: &window.id,
        name: "window",
        line,
        outline: &window.outline,
        width: &window.clear_width,
        height: &window.clear_height,
        area: Cow::Borrowed(&window.clear_area),
        sill: sill(window, placed.head.or(unit.head), room),
    })
}

/// A door that swings or slides serves; its opening stands on the floor.
fn of_door<'a>(case: &Case<'_>, door: &'a DoorFigures, room: &Id) -> Option<Opening<'a>> {
    let line = line_outdoors(&door.sides, room)?;
    let unit = case.home.plan.catalogue.door(&case.home.elements.doors.get(door.index)?.unit)?;
    if !matches!(unit.operation, DoorOperation::Hinged | DoorOperation::Sliding) {
        return None;
    }
    Some(Opening {
        id: &door.id,
        name: "outside door",
        line,
        outline: &door.outline,
        width: &door.clear_width,
        height: &door.clear_height,
        area: Cow::Owned(door.clear_width.times(&door.clear_height)),
        sill: Cow::Owned(Figure::Known { value: Exact::from(0), basis: Basis::Stated }),
    })
}

/// The opening's line on the face of the room, if its other side is outdoors.
fn line_outdoors([left, right]: &[Side; 2], room: &Id) -> Option<[Point; 2]> {
    let leads_out = |inside: &Side, outside: &Side| inside.room.as_ref() == Some(room) && outside.is_outdoors;
    if leads_out(left, right) {
        Some(left.line)
    } else if leads_out(right, left) {
        Some(right.line)
    } else {
        None
    }
}

/// The sill, unless the plan contradicts itself about where the window stands.
fn sill<'a>(window: &'a WindowFigures, head: Option<Length>, room: &RoomFigures) -> Cow<'a, Figure> {
    if window.sill.value().is_some_and(|sill| sill < Exact::from(0)) {
        return Cow::Owned(Figure::Unknown("the plan puts its sill below the floor".to_owned()));
    }
    // Under a slope the lowest part says nothing about the ceiling at the window.
    let ceiling = room.ceiling.lowest.filter(|_| room.ceiling.is_flat);
    if head.zip(ceiling).is_some_and(|(head, ceiling)| head > ceiling) {
        return Cow::Owned(Figure::Unknown("the plan puts its head above the ceiling".to_owned()));
    }
    Cow::Borrowed(&window.sill)
}

impl Opening<'_> {
    fn tests(&self, case: &Case<'_>, limits: &Limits) -> Vec<Figures> {
        let test = |quantity, figure: &Figure, required: Option<Exact>| {
            Some(Figures { quantity, measured: figure.value(), required: required? })
        };
        let area = limits.area.as_ref().map(|limit| limit.required(case, self));
        [
            test(Quantity::AreaAtLeast, &self.area, area),
            test(Quantity::LengthAtLeast, self.width, limits.width),
            test(Quantity::LengthAtLeast, self.height, limits.height),
            test(Quantity::LengthAtMost, &self.sill, limits.sill),
        ]
        .into_iter()
        .flatten()
        .collect()
    }

    /// One of its figures, to be judged.
    pub(super) fn judged<'a>(
        &'a self,
        room: &Room,
        what: &'static str,
        figure: &'a Figure,
        quantity: Quantity,
        required: Exact,
    ) -> OpeningFigure<'a> {
        OpeningFigure {
            id: self.id,
            opening: format!("{} of {}", self.name, room.name),
            outline: self.outline,
            what,
            figure,
            quantity,
            required,
            dimension: None,
            notes: Vec::new(),
        }
    }
}
