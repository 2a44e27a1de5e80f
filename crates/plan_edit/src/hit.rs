//! What is under the pointer.

use plan_geometry::{Derived, outline};
use plan_model::elements::Fixture;
use plan_model::{Home, Id, Length, Point};

/// Something of the home that is under the pointer.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Hit {
    /// A door, cased opening or window.
    Opening(Id),
    /// A wall, away from its openings.
    Wall {
        /// The wall.
        id: Id,
        /// Whether it may be dragged.
        movable: bool,
    },
    /// A fixture, appliance or cabinet.
    Fixture(Id),
    /// The floor of a room.
    Room(Id),
}

impl Hit {
    /// The element that was hit.
    #[must_use]
    pub const fn id(&self) -> &Id {
        match self {
            Self::Opening(id) | Self::Wall { id, .. } | Self::Fixture(id) | Self::Room(id) => id,
        }
    }
}

/// What stands at a place: an opening before a wall, a wall before a fixture, a fixture before a room.
///
/// Openings, walls and fixtures are hit from as far as `reach` outside them, the nearest first; rooms only from inside.
#[must_use]
pub fn hit_test(home: &Home<'_>, derived: &Derived, at: Point, reach: Length) -> Option<Hit> {
    let elements = &home.elements;
    let doors = derived.doors.iter().map(|door| (&door.id, &door.outline));
    let openings = doors.chain(derived.windows.iter().map(|window| (&window.id, &window.outline)));
    let opening = || nearest(at, reach, openings.map(|(id, outline)| (id, outline.map(on_drawing).to_vec())));
    let walls = derived.walls.iter().map(|wall| (wall, wall.outline.iter().copied().map(on_drawing).collect()));
    let wall = || nearest(at, reach, walls).map(|wall| (&wall.id, elements.walls.get(wall.index)));
    let fixture = || nearest(at, reach, elements.fixtures.iter().map(|fixture| (&fixture.id, floor_of(fixture))));
    let room = || derived.rooms.iter().find(|room| room.region.contains(at));
    opening()
        .map(|id| Hit::Opening(id.clone()))
        .or_else(|| {
            wall().map(|(id, wall)| Hit::Wall { id: id.clone(), movable: wall.is_some_and(|wall| wall.movable) })
        })
        .or_else(|| fixture().map(|id| Hit::Fixture(id.clone())))
        .or_else(|| room().map(|room| Hit::Room(room.id.clone())))
}

/// A place for pointing at things, in inches: near enough for a hand, never compared with a limit.
type Drawn = [f64; 2];

fn on_drawing(point: Point) -> Drawn {
    [point.x.to_inches(), point.y.to_inches()]
}

/// The corners of the floor that a fixture takes.
fn floor_of(fixture: &Fixture) -> Vec<Drawn> {
    outline(fixture.at, fixture.faces, fixture.width, fixture.depth).map(on_drawing).to_vec()
}

/// The thing whose shape is nearest to a place and no farther than `reach`; the first of several equally near.
fn nearest<T>(at: Point, reach: Length, things: impl IntoIterator<Item = (T, Vec<Drawn>)>) -> Option<T> {
    let at = on_drawing(at);
    let reach = reach.to_inches();
    let mut found: Option<(T, f64)> = None;
    for (thing, shape) in things {
        let away = distance(at, &shape);
        if away <= reach && found.as_ref().is_none_or(|(_, nearest)| away < *nearest) {
            found = Some((thing, away));
        }
    }
    found.map(|(thing, _)| thing)
}

/// From a place to a shape with straight sides; zero inside.
fn distance(at: Drawn, shape: &[Drawn]) -> f64 {
    let sides = || shape.iter().copied().zip(shape.iter().copied().cycle().skip(1));
    let crossed = sides().filter(|([ax, ay], [bx, by])| {
        (*ay > at[1]) != (*by > at[1]) && at[0] < ax + (bx - ax) * (at[1] - ay) / (by - ay)
    });
    if crossed.count() % 2 == 1 {
        return 0.0;
    }
    sides().map(|(a, b)| to_segment(at, a, b)).fold(f64::INFINITY, f64::min)
}

fn to_segment([x, y]: Drawn, [ax, ay]: Drawn, [bx, by]: Drawn) -> f64 {
    let (dx, dy) = (bx - ax, by - ay);
    let square = dx * dx + dy * dy;
    let part = if square > 0.0 { (((x - ax) * dx + (y - ay) * dy) / square).clamp(0.0, 1.0) } else { 0.0 };
    (x - ax - part * dx).hypot(y - ay - part * dy)
}
