//! The egress door: two limits that must hold on one and the same door, and the choice of that door.

use plan_geometry::{DoorFigures, Figure};
use plan_model::elements::{Room, RoomUse};
use plan_model::{DoorOperation, Exact, Length, Point};

use super::opening_figure::OpeningFigure;
use super::{egress_door_height, egress_door_width};
use crate::book::Entry;
use crate::rule::{Case, Figures, Subject};
use crate::{Outcome, Place, Quantity, RestsOn, Verdict, show};

/// The limits of the book, each by the rule that owns it; a book may leave one out.
#[derive(Debug)]
pub(super) struct Limits {
    width: Option<Exact>,
    height: Option<Exact>,
}

impl Limits {
    /// From the entries that stand in the book beside one of them.
    pub(super) fn beside(entry: &Entry<'_>) -> Self {
        Self {
            width: entry.beside(egress_door_width::RULE.id).map(|entry| egress_door_width::limit(&entry)),
            height: entry.beside(egress_door_height::RULE.id).map(|entry| egress_door_height::limit(&entry)),
        }
    }
}

/// Why an outside door does not serve, as a clause; none for one that does.
fn does_not_count(case: &Case<'_>, door: &DoorFigures, not_from: &[RoomUse]) -> Option<&'static str> {
    let placed = case.home.elements.doors.get(door.index)?;
    let operation = case.home.plan.catalogue.door(&placed.unit)?.operation;
    if operation != DoorOperation::Hinged {
        return Some("it is not side-hinged");
    }
    let usage = inside(case, door)?.usage;
    not_from.contains(&usage).then_some("the book takes no way out through that room")
}

fn inside<'a>(case: &'a Case<'_>, door: &DoorFigures) -> Option<&'a Room> {
    door.sides.iter().find_map(|side| case.room(side.room.as_ref()?))
}

/// The side-hinged outside door that meets both limits, or else comes nearest: fewest limits failed, then fewest unknown,
/// then the widest. A way out through one of the rooms `not_from` does not count.
pub(super) fn best<'a>(case: &'a Case<'_>, not_from: &[RoomUse], limits: &Limits) -> Option<&'a DoorFigures> {
    let serves = |door: &&DoorFigures| door.is_exterior && does_not_count(case, door, not_from).is_none();
    case.derived.doors.iter().filter(serves).min_by_key(|door| {
        let tests = [(&door.clear_width, limits.width), (&door.clear_height, limits.height)];
        let outcomes = tests.map(|(figure, required)| Some(at_least(figure, required?).outcome()));
        let count = |outcome| outcomes.iter().filter(|found| **found == Some(outcome)).count();
        (count(Outcome::Correction), count(Outcome::Unknown), std::cmp::Reverse(door.clear_width.value()))
    })
}

/// One figure of the chosen door, to be judged.
pub(super) fn judged<'a>(
    case: &Case<'_>,
    door: &'a DoorFigures,
    what: &'static str,
    figure: &'a Figure,
    required: Exact,
) -> OpeningFigure<'a> {
    OpeningFigure {
        id: &door.id,
        opening: name(case, door),
        outline: &door.outline,
        what,
        figure,
        quantity: Quantity::LengthAtLeast,
        required,
        dimension: None,
        notes: Vec::new(),
    }
}

/// The verdict on one figure of the best door: as long as the door is as good, no other is asked for.
pub(super) fn of_home(verdict: Verdict, door: &DoorFigures) -> Verdict {
    verdict.held_by(RestsOn::OneOfMany(Some(vec![door.id.clone()])))
}

/// What keeps the leaf from standing open at 90 degrees.
pub(super) fn what_stops(door: &DoorFigures) -> Option<String> {
    let stop = door.leaf.as_ref()?.stopped_by.as_ref()?;
    let tenths = stop.tenths_of_degree;
    Some(format!("\"{}\" stops the leaf at {}.{} degrees.", stop.thing, tenths / 10, tenths % 10))
}

/// The correction of a home without any such door: at an outside door that does not count, else at the middle of the
/// front.
pub(super) fn none(case: &Case<'_>, not_from: &[RoomUse], required: Exact) -> Verdict {
    let width = show::length(required, case.units());
    let refused = case.derived.doors.iter().filter(|door| door.is_exterior);
    let mut refused = refused.filter_map(|door| Some((door, does_not_count(case, door, not_from)?)));
    let (place, message) = match refused.next() {
        Some((door, why)) => (
            Place::opening(&door.outline, None),
            format!(
                "The home has no egress door: the {} does not count, because {why}; a side-hinged outside door with a \
                 clear width of {width} is required.",
                name(case, door),
            ),
        ),
        None => (
            Place::point(front(case)),
            format!("The home has no side-hinged outside door; one with a clear width of {width} is required."),
        ),
    };
    let subject = Subject { id: None, name: "the home".to_owned(), place };
    let figures = Figures { quantity: Quantity::LengthAtLeast, measured: None, required };
    case.verdict(Outcome::Correction, subject, figures, message, Vec::new())
}

fn name(case: &Case<'_>, door: &DoorFigures) -> String {
    inside(case, door).map_or_else(|| "outside door".to_owned(), |room| format!("outside door of {}", room.name))
}

fn at_least(figure: &Figure, required: Exact) -> Figures {
    Figures { quantity: Quantity::LengthAtLeast, measured: figure.value(), required }
}

fn front(case: &Case<'_>) -> Point {
    let corners = || case.derived.footprint.iter().flat_map(|region| &region.outer);
    let (left, right) = (corners().map(|corner| corner.x).min(), corners().map(|corner| corner.x).max());
    let (Some(left), Some(right), Some(y)) = (left, right, corners().map(|corner| corner.y).min()) else {
        return Point::default();
    };
    Point::new(Length::from_steps((left + right).steps() / 2), y)
}
