//! Walking distances: by hand where they can be reckoned with hypotenuses, and against every sight line of a plan where
//! they cannot.

mod by_hand;
mod laws;
mod sight_lines;

use plan_geometry::{Derived, Walk, derive};
use plan_model::elements::{Fixture, FixtureKind, PlacedBy, Room, RoomUse, Wall, WallKind};
use plan_model::{Facing, Length, Plan, Point, Selection};
use plan_testkit::{cased_unit, doorway, room_with_outline};

fn p(x: i64, y: i64) -> Point {
    Point::inches(x, y)
}

/// A room with this outline and its point at the middle of the first two corners' opposite side, between walls 4 in thick.
fn room(outline: &[(i64, i64)], anchor: (i64, i64)) -> Plan {
    let outline: Vec<Point> = outline.iter().map(|(x, y)| p(*x, *y)).collect();
    room_with_outline(&outline, Length::inches(4), RoomUse::Living, p(anchor.0, anchor.1))
}

/// Adds a cased opening; `at` is from the wall's first point.
fn opening(plan: &mut Plan, id: &str, wall: &str, at: Length, width: Length) {
    let unit = format!("unit-{id}");
    plan.catalogue.doors.push(cased_unit(&unit, width, Length::inches(80)));
    plan.base.doors.push(doorway(id, &unit, wall, at));
}

/// Adds a cabinet between two corners, its back to the front wall.
fn cabinet(plan: &mut Plan, from: Point, to: Point) {
    let half = Length::from_steps((from.x.steps() + to.x.steps()) / 2);
    plan.base.fixtures.push(Fixture {
        id: format!("cabinet-{}", plan.base.fixtures.len()).into(),
        kind: FixtureKind::BaseCabinet,
        at: Point::new(half, from.y),
        faces: Facing::UP,
        width: to.x - from.x,
        depth: to.y - from.y,
        entry: None,
        bowls: Vec::new(),
        drain: None,
        fuel: None,
        outdoor_air: false,
    });
}

fn wall(plan: &mut Plan, id: &str, from: Point, to: Point) {
    plan.base.walls.push(Wall {
        id: id.into(),
        kind: WallKind::Partition,
        from,
        to,
        thickness: Length::inches(4),
        placed_by: PlacedBy::Centre,
        movable: false,
    });
}

fn named(plan: &mut Plan, id: &str, usage: RoomUse, at: Point) {
    plan.base.rooms.push(Room { id: id.into(), name: id.into(), usage, at });
}

fn derived(plan: &Plan) -> Derived {
    derive(&plan.home(&Selection::default()))
}

fn walk(plan: &Plan, from: &str, to: &str) -> Option<Walk> {
    derived(plan).walk(&from.into(), &to.into())
}

/// The sum of the legs between places in inches, rounded down to the grid.
fn legs(places: &[(f64, f64)]) -> Length {
    let inches: f64 = places.windows(2).map(|leg| (leg[1].0 - leg[0].0).hypot(leg[1].1 - leg[0].1)).sum();
    #[expect(clippy::cast_possible_truncation, clippy::cast_precision_loss, reason = "a few hundred inches")]
    Length::from_steps((inches * Length::INCH.steps() as f64).floor() as i64)
}
