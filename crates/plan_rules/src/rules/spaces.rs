//! Open spaces as the area and dimension rules judge them: once each, by the name of their covered parts.

use plan_geometry::{ClearRectangle, Space};
use plan_model::elements::{Room, RoomUse};
use plan_model::{Exact, Length, Point};

use crate::Place;
use crate::rule::{Case, Subject, exact};

/// A space with at least one room that a rule covers.
pub(super) struct CoveredSpace<'a> {
    pub(super) space: &'a Space,
    room: &'a Room,
    name: String,
}

/// The spaces in which at least one room has a covered use. A kitchen by itself is none where kitchens are not covered.
pub(super) fn covered<'a>(case: &'a Case<'_>, uses: &'a [RoomUse]) -> impl Iterator<Item = CoveredSpace<'a>> {
    case.derived.spaces.iter().filter_map(move |space| {
        let rooms = || space.rooms.iter().filter_map(|id| case.room(id));
        let room = rooms().find(|room| uses.contains(&room.usage))?;
        Some(CoveredSpace { space, room, name: list(rooms().map(|room| room.name.as_str())) })
    })
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

    /// What an area of the space may be off by: half of its slack on every side, at the most.
    pub(super) fn area_slack(&self) -> Exact {
        let slack = self.space.sizes.slack();
        if slack == Length::ZERO {
            return Exact::from(0);
        }
        let side = |(a, b): (Point, Point)| (b.x - a.x).abs() + (b.y - a.y).abs();
        exact(self.space.region.sides().map(side).sum()) * exact(slack) / Exact::from(2)
    }
}

/// The line across the shorter side of a rectangle, half-way along it.
pub(super) fn width_line(rectangle: &ClearRectangle) -> [Point; 2] {
    let [a, b, c, d] = rectangle.corners;
    let between = |p: Point, q: Point| Point::new(half(p.x + q.x), half(p.y + q.y));
    let square = |p: Point, q: Point| {
        let (x, y) = (i128::from((q.x - p.x).steps()), i128::from((q.y - p.y).steps()));
        x * x + y * y
    };
    if square(a, b) <= square(b, c) { [between(b, c), between(d, a)] } else { [between(a, b), between(c, d)] }
}

const fn half(length: Length) -> Length {
    Length::from_steps(length.steps() / 2)
}

/// `Living`, `Living and dining`, `Living, kitchen and dining`.
fn list<'a>(names: impl Iterator<Item = &'a str>) -> String {
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
