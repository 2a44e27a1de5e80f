//! Elements of a home as people speak of them.

use plan_geometry::{Derived, Side, outline};
use plan_model::elements::{ColumnKind, Wall, WallKind};
use plan_model::{Home, Id, Length, Point};

/// An element by its kind and its rooms: "the shower of Owner's bath", "the wall between Hall and Study"; by its id
/// where no room is near it.
pub(crate) fn element(home: &Home<'_>, derived: &Derived, id: &Id) -> String {
    let Words { kind, rooms } = Words::of(home, derived, id);
    match rooms.as_slice() {
        [] => format!("the {kind} \"{id}\""),
        [room] => format!("the {kind} of {room}"),
        [one, other, ..] => format!("the {kind} between {one} and {other}"),
    }
}

/// A room's name on the drawing.
pub(crate) fn room<'a>(home: &'a Home<'_>, id: &'a Id) -> &'a str {
    let found = home.elements.rooms.iter().find(|room| room.id == *id);
    found.map_or_else(|| id.as_str(), |room| room.name.as_str())
}

/// What an element is, and the rooms that it belongs to.
struct Words<'a> {
    kind: &'static str,
    rooms: Vec<&'a str>,
}

impl<'a> Words<'a> {
    fn of(home: &'a Home<'_>, derived: &'a Derived, id: &Id) -> Self {
        let elements = &home.elements;
        let around = |places: &[Point]| rooms_at(home, derived, places);
        if let Some(wall) = elements.walls.iter().find(|wall| wall.id == *id) {
            let kind = if wall.kind == WallKind::Exterior { "outside wall" } else { "wall" };
            return Self { kind, rooms: beside(home, derived, wall, &[0.5, 0.25, 0.75]) };
        }
        if let Some(fixture) = elements.fixtures.iter().find(|fixture| fixture.id == *id) {
            let corners = outline(fixture.at, fixture.faces, fixture.width, fixture.depth);
            let places = [middle(corners[0], corners[2])].into_iter().chain(corners);
            let mut rooms = around(&places.collect::<Vec<_>>());
            rooms.truncate(1);
            return Self { kind: fixture.kind.word(), rooms };
        }
        if let Some(column) = elements.columns.iter().find(|column| column.id == *id) {
            let kind = match column.kind {
                ColumnKind::Column => "post",
                ColumnKind::Chase => "chase",
            };
            let mut rooms = around(&[middle(column.from, column.to), column.from, column.to]);
            rooms.truncate(1);
            return Self { kind, rooms };
        }
        let doors = derived.doors.iter().map(|door| (&door.id, &door.sides, "door"));
        let windows = derived.windows.iter().map(|window| (&window.id, &window.sides, "window"));
        if let Some((_, sides, kind)) = doors.chain(windows).find(|(opening, ..)| *opening == id) {
            return Self { kind, rooms: of_sides(home, sides) };
        }
        // An opening that could not be placed in its wall is found by the place that it was to have there.
        let doors = elements.doors.iter().map(|door| (&door.id, &door.wall, door.at, "door"));
        let windows = elements.windows.iter().map(|window| (&window.id, &window.wall, window.at, "window"));
        if let Some((_, host, at, kind)) = doors.chain(windows).find(|(opening, ..)| *opening == id) {
            let host = elements.walls.iter().find(|wall| wall.id == *host);
            let near = |wall: &Wall| beside(home, derived, wall, &[part_along(wall, at)]);
            return Self { kind, rooms: host.map_or_else(Vec::new, near) };
        }
        Self { kind: "element", rooms: Vec::new() }
    }
}

fn of_sides<'a>(home: &'a Home<'_>, sides: &'a [Side; 2]) -> Vec<&'a str> {
    let mut rooms: Vec<&str> = sides.iter().filter_map(|side| Some(room(home, side.room.as_ref()?))).collect();
    rooms.dedup();
    rooms
}

/// Where along a wall, as a part of its length, a distance from its start lies; never quite at an end.
fn part_along(wall: &Wall, at: Length) -> f64 {
    let (from, to) = (inches(wall.from), inches(wall.to));
    (at.to_inches() / (to.0 - from.0).hypot(to.1 - from.1).max(1.0)).clamp(0.05, 0.95)
}

/// The rooms on both sides of a wall, at the first of some parts of its length that has one.
fn beside<'a>(home: &'a Home<'_>, derived: &'a Derived, wall: &Wall, parts: &[f64]) -> Vec<&'a str> {
    /// Off the far face, whichever face the wall's line is.
    const BEYOND: f64 = 2.0;
    let (from, to) = (inches(wall.from), inches(wall.to));
    let along = (to.0 - from.0, to.1 - from.1);
    let length = along.0.hypot(along.1);
    if length == 0.0 {
        return Vec::new();
    }
    let off = (wall.thickness.to_inches() + BEYOND) / length;
    let side = |way: f64| {
        // Twice as far off lies the room beyond the other half of a doubled wall.
        let places = parts.iter().flat_map(|part| [(*part, off * way), (*part, 2.0 * off * way)]);
        let places = places.map(|(part, off)| {
            on_grid(from.0 + along.0 * part - along.1 * off, from.1 + along.1 * part + along.0 * off)
        });
        rooms_at(home, derived, &places.collect::<Vec<_>>()).first().copied()
    };
    let mut rooms: Vec<&str> = [side(1.0), side(-1.0)].into_iter().flatten().collect();
    rooms.dedup();
    rooms
}

/// The names of the rooms at some places, each once, in the order of the places.
fn rooms_at<'a>(home: &'a Home<'_>, derived: &'a Derived, places: &[Point]) -> Vec<&'a str> {
    let mut names: Vec<&str> = Vec::new();
    for place in places {
        let here = derived.rooms.iter().find(|room| room.region.contains_inside(*place));
        let name = here.map(|here| room(home, &here.id));
        names.extend(name.filter(|name| !names.contains(name)));
    }
    names
}

fn inches(point: Point) -> (f64, f64) {
    (point.x.to_inches(), point.y.to_inches())
}

fn on_grid(x: f64, y: f64) -> Point {
    Point::new(Length::nearest_to_inches(x), Length::nearest_to_inches(y))
}

fn middle(a: Point, b: Point) -> Point {
    let half = |a: Length, b: Length| Length::from_steps(i64::midpoint(a.steps(), b.steps()));
    Point::new(half(a.x, b.x), half(a.y, b.y))
}
