//! Doors in the walls of a random plan, and what stands on its floors.

use plan_model::elements::{Door, Fixture, FixtureKind, Hinge, Swing};
use plan_model::{DoorOperation, DoorUnit, Facing, Length, Plan};

use super::describe::index;
use super::grow::{Growing, OPEN, inches, on_grid};
use super::plane::{Place, apart, around};
use super::random::Random;
use crate::{cased_unit, doorway, standing};

/// A door or cased opening. Rooms and sides are counted round, as for every part.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Doorway {
    /// The room.
    pub room: usize,
    /// The side of the room along which its wall runs.
    pub side: usize,
    /// Where in that side, in hundredths of what it can be moved by.
    pub hundredths: i64,
    /// Between its jambs.
    pub width: Length,
    /// Whether a leaf hangs in it.
    pub has_leaf: bool,
}

/// Something that stands on a floor.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Thing {
    /// The room.
    pub room: usize,
    /// The side of the room that its back is turned to.
    pub side: usize,
    /// Where it stands.
    pub stands: Stands,
    /// Along the back, and from back to front.
    pub size: [Length; 2],
    /// What it is.
    pub kind: FixtureKind,
}

/// Where in its room something stands.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Stands {
    /// In front of its side.
    Along {
        /// Where along it, in hundredths of what it can be moved by.
        hundredths: i64,
        /// Between its back and the wall.
        gap: Length,
    },
    /// Anywhere: the middle of its back, in hundredths of the room's extent.
    Free([i64; 2]),
    /// Anywhere, and looking in a direction that has nothing to do with the room.
    Askew([i64; 2], Facing),
}

const SIXTY_FOURTH: Length = Length::from_steps(Length::INCH.steps() / 64);
/// A gap that people still pass.
const PASSED: Length = Length::inches(18);
/// Widths of doorways: most are common ones, some as wide as what people still pass, or just not.
const WIDTHS: [Length; 10] = [
    PASSED,
    Length::from_steps(PASSED.steps() - SIXTY_FOURTH.steps()),
    Length::inches(24),
    Length::inches(28),
    Length::inches(30),
    Length::inches(32),
    Length::inches(32),
    Length::inches(36),
    Length::inches(48),
    Length::inches(72),
];
/// Gaps behind things.
const GAPS: [Length; 8] = [
    Length::ZERO,
    Length::ZERO,
    Length::ZERO,
    Length::inches(9),
    PASSED,
    Length::from_steps(PASSED.steps() - SIXTY_FOURTH.steps()),
    Length::from_steps(PASSED.steps() + SIXTY_FOURTH.steps()),
    Length::inches(30),
];
/// What may stand about; what hangs is walked under.
const KINDS: [FixtureKind; 8] = [
    FixtureKind::BaseCabinet,
    FixtureKind::BaseCabinet,
    FixtureKind::TallCabinet,
    FixtureKind::Island,
    FixtureKind::Refrigerator,
    FixtureKind::Vanity,
    FixtureKind::Tub,
    FixtureKind::WallCabinet,
];
/// Directions of no wall.
const ASKEW: [(i32, i32); 4] = [(3, 4), (-5, 12), (1, -1), (-7, -2)];

impl Doorway {
    pub(super) fn drawn_by(random: &mut Random) -> Self {
        Self {
            room: index(random),
            side: index(random),
            hundredths: random.whole(0, 100),
            width: random.one_of(&WIDTHS),
            has_leaf: random.in_hundred(50),
        }
    }

    /// Where it is, if its wall is one piece there and nothing joins it or stands right before it.
    pub(super) fn placed(&self, growing: &Growing) -> Option<PlacedDoorway> {
        let cell = &growing.cells[growing.cell(self.room)];
        let side = self.side % cell.corners.len();
        let wall = cell.corners[side].wall;
        if wall == OPEN || growing.pieces.iter().any(|(pieced, _)| *pieced == wall) {
            return None;
        }
        let [a, b] = cell.side(side);
        let line = growing.lines[wall];
        let ([start, end], middle) = (line.ends, line.middle());
        let out = end.minus(start).unit();
        let [near, far] = [a, b].map(|corner| corner.minus(start).dot(out));
        let (low, high) = (near.min(far), near.max(far) - inches(self.width));
        if low > high {
            return None;
        }
        let at = on_grid(Place::new(low + share(self.hundredths) * (high - low), 0.0)).x;
        let span = [at, at + self.width].map(|along| middle[0].plus(inches(along), out));
        let half = inches(line.thickness) / 2.0;
        let clear_of = |other: [Place; 2], by: f64| apart(span, other) >= half + by + BESIDE_OPENING;
        let others = growing.lines.iter().enumerate().filter(|(other, _)| *other != wall);
        let clear = others.into_iter().all(|(_, other)| clear_of(other.middle(), inches(other.thickness) / 2.0))
            && growing.columns.iter().all(|column| boxed(*column).into_iter().all(|side| clear_of(side, 0.0)))
            && growing.doorways.iter().all(|other| other.wall != wall || apart(span, other.span) >= BETWEEN_OPENINGS)
            && at >= Length::ZERO;
        clear.then_some(PlacedDoorway { wall, at, width: self.width, has_leaf: self.has_leaf, span })
    }
}

/// Nothing but its own wall is as near to an opening as this many inches.
const BESIDE_OPENING: f64 = 3.0;
/// What is left of a wall between two openings, in inches.
const BETWEEN_OPENINGS: f64 = 1.0;
/// Things that touch a wall may be off by rounding, in inches.
const TOUCHING: f64 = 1e-6;

/// The sides of a column.
fn boxed([low, high]: [Place; 2]) -> [[Place; 2]; 4] {
    around([low, Place::new(high.x, low.y), high, Place::new(low.x, high.y)])
}

#[expect(clippy::cast_precision_loss, reason = "a share from 0 to 100")]
fn share(hundredths: i64) -> f64 {
    hundredths as f64 / 100.0
}

/// A door that found its place.
#[derive(Clone, Copy)]
pub(super) struct PlacedDoorway {
    wall: usize,
    /// From the wall's start.
    at: Length,
    width: Length,
    has_leaf: bool,
    /// From jamb to jamb along the middle of the wall.
    span: [Place; 2],
}

impl PlacedDoorway {
    pub(super) fn draw(&self, index: usize, plan: &mut Plan) {
        let (id, unit, wall) = (format!("door-{index}"), format!("unit-{index}"), format!("wall-{}", self.wall));
        let (cased, mut door) =
            (cased_unit(&unit, self.width, Length::inches(80)), doorway(&id, &unit, &wall, self.at));
        if self.has_leaf {
            (door.hinge, door.swing) = (Some(Hinge::Near), Some(Swing::Left));
        }
        let operation = if self.has_leaf { DoorOperation::Hinged } else { DoorOperation::CasedOpening };
        plan.catalogue.doors.push(DoorUnit { operation, ..cased });
        plan.base.doors.push(Door { ..door });
    }
}

impl Thing {
    pub(super) fn drawn_by(random: &mut Random) -> Self {
        let anywhere = |random: &mut Random| [random.whole(0, 100), random.whole(0, 100)];
        let (room, side) = (index(random), index(random));
        let stands = match random.whole(0, 99) {
            0..60 => Stands::Along { hundredths: random.whole(-10, 110).clamp(0, 100), gap: random.one_of(&GAPS) },
            60..92 => Stands::Free(anywhere(random)),
            _ => {
                let (dx, dy) = random.one_of(&ASKEW);
                Stands::Askew(anywhere(random), Facing::new(dx, dy).unwrap_or(Facing::UP))
            }
        };
        let size = [Length::inches(random.whole(9, 72)), Length::inches(random.whole(6, 40))];
        Self { room, side, stands, size, kind: random.one_of(&KINDS) }
    }

    /// Where it is, if all of it is inside its room and in no wall. It may share floor with other things, and with a column
    /// that is inside it as a whole, as long as its middle is on the floor: that says on which floor a thing stands.
    pub(super) fn placed(&self, growing: &Growing) -> Option<PlacedThing> {
        let cell = &growing.cells[growing.cell(self.room)];
        let side = self.side % cell.corners.len();
        let [a, b] = cell.side(side);
        let out = b.minus(a).unit();
        let [width, depth] = self.size.map(inches);
        let half = |side: usize| growing.half(cell.corners[side % cell.corners.len()].wall);
        let [low, high] = cell.bounds();
        let at_share =
            |[x, y]: [i64; 2]| Place::new(low.x + share(x) * (high.x - low.x), low.y + share(y) * (high.y - low.y));
        let (at, faces) = match self.stands {
            Stands::Along { hundredths, gap } => {
                // Between the walls at both ends, where they are square to this one.
                let [before, after] = [half(side + cell.corners.len() - 1), half(side + 1)];
                let play = b.minus(a).length() - before - after - width;
                let along = before + share(hundredths) * play + width / 2.0;
                (a.plus(along, out).plus(half(side) + inches(gap), out.left()), facing(out.left()))
            }
            Stands::Free(at) => (at_share(at), facing(out.left())),
            Stands::Askew(at, faces) => (at_share(at), faces),
        };
        let (dx, dy) = faces.direction();
        let ahead = Place::new(dx.into(), dy.into()).unit();
        let corner = |left: f64, forward: f64| at.plus(left, ahead.left()).plus(forward, ahead);
        let corners = [
            corner(-width / 2.0, 0.0),
            corner(-width / 2.0, depth),
            corner(width / 2.0, depth),
            corner(width / 2.0, 0.0),
        ];
        let slack = TOUCHING + MISALIGNED * width;
        let walls = cell.sides().enumerate().map(|(side, line)| (line, half(side)));
        let clear = walls
            .chain(cell.standing.spurs.iter().copied())
            .all(|(line, half)| around(corners).into_iter().all(|side| apart(side, line) >= half - slack));
        let middle = corner(0.0, depth / 2.0);
        let in_column =
            |[low, high]: &[Place; 2]| (low.x..=high.x).contains(&middle.x) && (low.y..=high.y).contains(&middle.y);
        // A line that is no wall has nothing to keep clear of, and is not crossed either.
        let inside = around(corners).into_iter().all(|side| cell.is_clear(side));
        (clear && inside && cell.holds(middle) && !growing.columns.iter().any(in_column)).then_some(PlacedThing {
            thing: *self,
            at,
            faces,
        })
    }
}

/// By how much of its width the back of a thing may stray from a wall at an odd angle: it looks in a direction of whole
/// numbers up to 1000.
const MISALIGNED: f64 = 1e-3;

/// The direction in whole numbers up to 1000 that is nearest to another.
#[expect(clippy::cast_possible_truncation, reason = "whole numbers up to 1000")]
fn facing(towards: Place) -> Facing {
    let larger = towards.x.abs().max(towards.y.abs());
    let stray = |scale: f64| {
        let (x, y) = ((towards.x / larger * scale).round(), (towards.y / larger * scale).round());
        (towards.cross(Place::new(x, y).unit()).abs(), x, y)
    };
    let best = (1..=1000).map(|scale| stray(f64::from(scale))).min_by(|one, other| one.0.total_cmp(&other.0));
    best.and_then(|(_, x, y)| Facing::new(x as i32, y as i32)).unwrap_or(Facing::UP)
}

/// Something that found its place.
#[derive(Clone, Copy)]
pub(super) struct PlacedThing {
    thing: Thing,
    /// The middle of its back.
    at: Place,
    faces: Facing,
}

impl PlacedThing {
    pub(super) fn fixture(&self, index: usize) -> Fixture {
        standing(self.thing.kind, &format!("thing-{index}"), on_grid(self.at), self.faces, self.thing.size)
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::RandomPlan;

    #[test]
    fn a_thing_looks_square_to_its_wall_and_as_nearly_as_whole_numbers_allow() {
        assert_eq!(facing(Place::new(0.0, -1.0)), Facing::DOWN);
        assert_eq!(Facing::new(3, 4), Some(facing(Place::new(0.6, 0.8))));
        let (sin, cos) = 0.1234_f64.sin_cos();
        let (dx, dy) = facing(Place::new(cos, sin)).direction();
        assert!((f64::from(dy).atan2(f64::from(dx)) - 0.1234).abs() < 1e-5);
    }

    #[test]
    fn furnished_plans_are_to_be_walked_through() {
        let plans: Vec<Plan> = (0..100).map(|index| RandomPlan::furnished(1, index).plan()).collect();
        let count = |at_least: usize, of: fn(&Plan) -> usize| plans.iter().filter(|plan| of(plan) >= at_least).count();
        assert!(count(4, |plan| plan.base.doors.len()) > 80);
        assert!(count(1, |plan| plan.base.fixtures.len()) > 80);
        for door in plans.iter().flat_map(|plan| &plan.base.doors) {
            assert!(door.at >= Length::ZERO);
        }
    }

    #[test]
    fn what_a_plan_is_furnished_with_can_be_left_out() {
        let plan = RandomPlan::furnished(1, 0);
        let smaller = plan.smaller();
        let doors = |plan: &RandomPlan| plan.plan().base.doors.len();
        assert!(smaller.iter().any(|smaller| doors(smaller) < doors(&plan)));
    }
}
