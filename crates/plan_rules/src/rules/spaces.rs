//! Open spaces as the area and dimension rules judge them: once each, by the name of their parts.

use plan_geometry::{ClearRectangle, Derived, Space};
use plan_model::Point;
use plan_model::elements::{Room, RoomUse};

use crate::book::Entry;
use crate::rule::{Case, Subject, middle};
use crate::{BookRule, Place};

/// The room uses that such a rule covers, and those that enlarge a covered room that is open to them.
#[derive(Debug)]
pub(crate) struct Covered {
    rooms: Vec<RoomUse>,
    joined_with: Vec<RoomUse>,
}

impl Covered {
    pub(super) fn read(entry: &Entry<'_>) -> Self {
        Self { rooms: entry.rooms(), joined_with: entry.joined_with() }
    }

    pub(crate) fn of(rule: &BookRule) -> Self {
        Self { rooms: rule.rooms.clone(), joined_with: rule.joined_with.clone() }
    }

    /// The spaces that covered rooms make with each other and with rooms that may join them. A hall or bath that is open
    /// to a bedroom does not enlarge it, and a kitchen by itself is no such space where kitchens are not covered.
    pub(crate) fn spaces(&self, derived: &Derived) -> Vec<Space> {
        let covers = |space: &Space| {
            space.rooms.iter().filter_map(|id| derived.room(id)).any(|room| self.rooms.contains(&room.usage))
        };
        let mut spaces = derived.spaces_of(|usage| self.rooms.contains(&usage) || self.joined_with.contains(&usage));
        spaces.retain(covers);
        spaces
    }

    /// The same, each under its name.
    pub(super) fn named<'a>(&self, case: &'a Case<'_>) -> Vec<CoveredSpace<'a>> {
        let named = |space: Space| {
            let rooms: Vec<&Room> = space.rooms.iter().filter_map(|id| case.room(id)).collect();
            let room = *rooms.iter().find(|room| self.rooms.contains(&room.usage))?;
            Some(CoveredSpace { name: list(rooms.iter().map(|room| room.name.as_str())), space, room })
        };
        self.spaces(case.derived).into_iter().filter_map(named).collect()
    }
}

/// A space with at least one room that a rule covers.
pub(super) struct CoveredSpace<'a> {
    pub(super) space: Space,
    room: &'a Room,
    name: String,
}

impl CoveredSpace<'_> {
    /// The space as the subject of a verdict, with its clear rectangle as the shape that was measured.
    pub(super) fn subject(&self, rectangle: &ClearRectangle, dimension: Option<[Point; 2]>) -> Subject {
        let place = Place { at: self.room.at, dimension, outline: rectangle.corners.to_vec() };
        Subject { id: Some(self.room.id.clone()), name: self.name.clone(), place }
    }

    /// Whether the space is more than one room.
    pub(super) fn is_shared(&self) -> bool {
        self.space.rooms.len() > 1
    }
}

/// The line across the shorter side of a rectangle, half-way along it.
pub(super) fn width_line(rectangle: &ClearRectangle) -> [Point; 2] {
    let [a, b, c, d] = rectangle.corners;
    let square = |p: Point, q: Point| {
        let (x, y) = (i128::from((q.x - p.x).steps()), i128::from((q.y - p.y).steps()));
        x * x + y * y
    };
    if square(a, b) <= square(b, c) { [middle(b, c), middle(d, a)] } else { [middle(a, b), middle(c, d)] }
}

/// `Living`, `Living and dining`, `Living, kitchen and dining`.
pub(super) fn list<'a>(names: impl Iterator<Item = &'a str>) -> String {
    let mut parts: Vec<String> = names.enumerate().map(|(index, name)| part(index, name)).collect();
    let Some(last) = parts.pop() else { return String::new() };
    if parts.is_empty() { last } else { format!("{} and {last}", parts.join(", ")) }
}

/// Names after the first begin small within the sentence.
fn part(index: usize, name: &str) -> String {
    let mut letters = name.chars();
    match letters.next() {
        Some(first) if index > 0 => first.to_lowercase().chain(letters).collect(),
        _ => name.to_owned(),
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use plan_model::Length;

    #[test]
    fn names_read_as_a_sentence() {
        assert_eq!(list(["Living"].into_iter()), "Living");
        assert_eq!(list(["Living", "Dining"].into_iter()), "Living and dining");
        assert_eq!(list(["Living", "Kitchen", "Dining", "Hall"].into_iter()), "Living, kitchen, dining and hall");
    }

    #[test]
    fn the_width_line_spans_the_short_side() {
        let corners = [Point::inches(0, 0), Point::inches(10, 0), Point::inches(10, 4), Point::inches(0, 4)];
        let rectangle = ClearRectangle { width: Length::inches(4), length: Length::inches(10), corners };
        assert_eq!(width_line(&rectangle), [Point::inches(5, 0), Point::inches(5, 4)]);
        let corners = [corners[1], corners[2], corners[3], corners[0]];
        assert_eq!(width_line(&ClearRectangle { corners, ..rectangle }), [Point::inches(5, 4), Point::inches(5, 0)]);
    }
}
