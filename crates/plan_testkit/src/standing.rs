//! Things that stand in a test home, and whole homes turned by any angle.

use plan_model::elements::{Fixture, FixtureKind, Furniture, FurnitureKind};
use plan_model::{Facing, Length, Plan, Point};

use crate::turned;

/// A length from inches and parts of an inch that lie on the grid.
///
/// # Panics
/// When they do not.
#[must_use]
#[expect(clippy::cast_possible_truncation, clippy::cast_precision_loss, reason = "checked")]
pub fn inches(inches: f64) -> Length {
    let steps = inches * Length::INCH.steps() as f64;
    assert!(steps.fract() == 0.0, "{inches} in lies on the grid");
    Length::from_steps(steps as i64)
}

/// A fixture by the middle of its back, its width along the back and its depth, in inches.
#[must_use]
pub fn fixture(kind: FixtureKind, id: &str, at: (f64, f64), faces: Facing, size: (f64, f64)) -> Fixture {
    standing(kind, id, Point::new(inches(at.0), inches(at.1)), faces, [inches(size.0), inches(size.1)])
}

/// A fixture by the middle of its back, with its width along the back and its depth.
#[must_use]
pub fn standing(kind: FixtureKind, id: &str, at: Point, faces: Facing, [width, depth]: [Length; 2]) -> Fixture {
    Fixture {
        id: id.into(),
        kind,
        at,
        faces,
        width,
        depth,
        entry: None,
        bowls: Vec::new(),
        drain: None,
        fuel: None,
        outdoor_air: false,
    }
}

/// A bed by the middle of its head, in inches.
#[must_use]
pub fn bed(id: &str, at: (f64, f64), faces: Facing, size: (f64, f64)) -> Furniture {
    Furniture {
        id: id.into(),
        kind: FurnitureKind::Bed,
        at: Point::new(inches(at.0), inches(at.1)),
        faces,
        width: inches(size.0),
        depth: inches(size.1),
    }
}

/// The walls, rooms, fixtures and furniture of a plan's base turned counter-clockwise about the origin by the angle
/// whose cosine and sine are as `cos` to `sin`, two whole numbers below 1000 of a right-angled triangle with a whole
/// longest side. Places are rounded to the grid; what looks along an axis looks exactly along the turned one.
#[must_use]
pub fn turned_plan(plan: &Plan, cos: i32, sin: i32) -> Plan {
    let degrees = f64::from(sin).atan2(f64::from(cos)).to_degrees();
    let point = |point: Point| turned(&[point], degrees)[0];
    let facing = |facing: Facing| {
        let (dx, dy) = facing.direction();
        Facing::new(dx * cos - dy * sin, dx * sin + dy * cos).unwrap_or(facing)
    };
    let mut plan = plan.clone();
    for wall in &mut plan.base.walls {
        (wall.from, wall.to) = (point(wall.from), point(wall.to));
    }
    for room in &mut plan.base.rooms {
        room.at = point(room.at);
    }
    for fixture in &mut plan.base.fixtures {
        (fixture.at, fixture.faces) = (point(fixture.at), facing(fixture.faces));
    }
    for piece in &mut plan.base.furniture {
        (piece.at, piece.faces) = (point(piece.at), facing(piece.faces));
    }
    plan
}
