//! Homes of any size, to see how the work grows with the number of walls.

use plan_model::elements::{
    Ceiling, Detector, DetectorKind, Door, Elements, FixtureKind, Furniture, FurnitureKind, Hinge, PlacedBy, Room,
    RoomUse, Swing, Wall, WallKind, Window,
};
use plan_model::{
    Alternate, Choice, Deduction, DoorOperation, DoorUnit, ExactLength, Facing, Length, Money, Operation, Plan, Point,
    WindowOperation, WindowUnit,
};

use crate::{empty_plan, standing};

/// From one wall's centre to the next, along the front.
const BAY: i64 = 150;
/// From one wall's centre to the next, from front to back.
const DEPTH: i64 = 130;

/// A block of so many rooms along the front and so many behind each other. Every room is 145 x 125 in clear, has a door to
/// the room before it (the first row outdoors) and stands between walls of its own length, so that three or four walls meet
/// at every corner: the block has `columns * (rows + 1) + rows * (columns + 1)` walls. Bedrooms, baths and kitchens take turns.
#[must_use]
pub fn block_of_rooms(columns: usize, rows: usize) -> Plan {
    let mut plan = empty_plan();
    catalogue(&mut plan);
    let (columns, rows) = (i64::try_from(columns).unwrap_or(1), i64::try_from(rows).unwrap_or(1));
    let corner = |column: i64, row: i64| Point::inches(column * BAY, row * DEPTH);
    for row in 0..=rows {
        for column in 0..=columns {
            let outside = |line: i64, last: i64| line == 0 || line == last;
            if column < columns {
                let kind = if outside(row, rows) { WallKind::Exterior } else { WallKind::Partition };
                wall(&mut plan, format!("across-{column}-{row}"), kind, [corner(column, row), corner(column + 1, row)]);
            }
            if row < rows {
                let kind = if outside(column, columns) { WallKind::Exterior } else { WallKind::Partition };
                wall(&mut plan, format!("up-{column}-{row}"), kind, [corner(column, row), corner(column, row + 1)]);
            }
        }
    }
    for row in 0..rows {
        for column in 0..columns {
            furnish(&mut plan, &format!("{column}-{row}"), (column + 2 * row) % 3, corner(column, row));
        }
    }
    let height = Length::inches(96);
    plan.base.ceilings.push(Ceiling { id: "ceiling".into(), rooms: Vec::new(), height, slope: None });
    plan
}

/// The same block with a choice for each room: nothing more in it, a cabinet, or a larger one that takes the floor before what
/// stands there. So it has three to the power of its rooms selections.
#[must_use]
pub fn block_of_choices(columns: usize, rows: usize) -> Plan {
    let mut plan = block_of_rooms(columns, rows);
    let alternate = |room: &Room, id: &str, size: Option<[i64; 2]>| {
        let cabinet = |[width, depth]: [i64; 2]| {
            // Against the left wall, half of whose thickness is in the room, beside the door.
            let (back, up) = (Length::from_steps(5 * Length::INCH.steps() / 2), Length::inches(30));
            let at = Point::new(room.at.x - Length::inches(75) + back, room.at.y + up);
            standing(
                FixtureKind::BaseCabinet,
                &format!("{id}-{}", room.id),
                at,
                Facing::RIGHT,
                [width, depth].map(Length::inches),
            )
        };
        Alternate {
            id: id.into(),
            name: id.to_owned(),
            included: size.is_none(),
            price: Money::from(size.map_or(0, |[width, _]| width)),
            needs: Vec::new(),
            excludes: Vec::new(),
            removes: Vec::new(),
            brings: Elements { fixtures: size.map(cabinet).into_iter().collect(), ..Elements::default() },
        }
    };
    let choice = |room: &Room| Choice {
        id: format!("choice-{}", room.id).into(),
        name: format!("Cabinet of {}", room.name),
        at: None,
        alternates: vec![
            alternate(room, "none", None),
            alternate(room, "small", Some([24, 12])),
            alternate(room, "large", Some([48, 24])),
        ],
    };
    plan.choices = plan.base.rooms.iter().map(choice).collect();
    // The home meets what is asked of it as a whole, whatever is chosen.
    let wide = DoorUnit {
        id: "front-door".into(),
        width: Length::inches(36),
        height: Length::inches(84),
        ..plan.catalogue.doors[0].clone()
    };
    plan.catalogue.doors.push(wide);
    for door in plan.base.doors.iter_mut().filter(|door| door.wall.as_str().ends_with("-0")) {
        door.unit = "front-door".into();
    }
    plan
}

fn catalogue(plan: &mut Plan) {
    let exact = |inches: i64| ExactLength::from_steps(i128::from(Length::inches(inches).steps()).into());
    let estimate = |operation: Operation, height_parts: u8| Deduction {
        operation,
        width_parts: 1,
        width_less: exact(3),
        height_parts,
        height_less: exact(3),
        sill_above_frame: Some(exact(2)),
        glass_width_less: Some(exact(5)),
        glass_height_less: Some(exact(6)),
    };
    plan.catalogue.doors.push(DoorUnit {
        id: "door".into(),
        operation: DoorOperation::Hinged,
        width: Length::inches(32),
        height: Length::inches(80),
        clear: None,
        glass: None,
    });
    plan.catalogue.windows.push(WindowUnit {
        id: "window".into(),
        operation: WindowOperation::SingleHung,
        width: Length::inches(36),
        height: Length::inches(60),
        head: Some(Length::inches(82)),
        clear: None,
        sill_above_frame: None,
        glass: None,
        vent: None,
    });
    plan.catalogue.deductions = vec![estimate(Operation::Hinged, 1), estimate(Operation::SingleHung, 2)];
}

fn wall(plan: &mut Plan, id: String, kind: WallKind, [from, to]: [Point; 2]) {
    let thickness = Length::inches(5);
    plan.base.walls.push(Wall {
        id: id.into(),
        kind,
        from,
        to,
        thickness,
        placed_by: PlacedBy::Centre,
        movable: false,
    });
}

/// What stands in a room: 0 a bedroom, 1 a bath, 2 a kitchen.
fn furnish(plan: &mut Plan, name: &str, kind: i64, corner: Point) {
    let at = |x: i64, y: i64| corner + Point::inches(x, y);
    let base = &mut plan.base;
    let usage = [RoomUse::Bedroom, RoomUse::Bath, RoomUse::Kitchen][usize::try_from(kind).unwrap_or(0)];
    base.rooms.push(Room { id: format!("room-{name}").into(), name: name.to_owned(), usage, at: at(75, 60) });
    base.doors.push(Door {
        id: format!("door-{name}").into(),
        unit: "door".into(),
        wall: format!("across-{name}").into(),
        through: None,
        at: Length::inches(20),
        hinge: Some(Hinge::Near),
        swing: Some(Swing::Left),
        lock: None,
    });
    let mut fixture = |what: &str, kind: FixtureKind, at: Point, faces: Facing, [width, depth]: [i64; 2]| {
        let size = [width, depth].map(Length::inches);
        base.fixtures.push(standing(kind, &format!("{what}-{name}"), at, faces, size));
    };
    // The clear room begins half a wall from the corner.
    let (back, right) = (Length::from_steps(5 * Length::INCH.steps() / 2), Length::inches(150));
    let on_back = |x: i64| Point::new(corner.x + Length::inches(x), corner.y + Length::inches(DEPTH) - back);
    let on_right = |y: i64| Point::new(corner.x + right - back, corner.y + Length::inches(y));
    match kind {
        0 => {
            let (width, depth) = (Length::inches(60), Length::inches(80));
            let bed = format!("bed-{name}").into();
            let faces = Facing::DOWN;
            base.furniture.push(Furniture { id: bed, kind: FurnitureKind::Bed, at: on_back(75), faces, width, depth });
            let kind = DetectorKind::Photoelectric;
            base.detectors.push(Detector { id: format!("smoke-{name}").into(), kind, at: at(75, 40) });
            if corner.x == Length::ZERO {
                let wall = format!("up-{name}").into();
                let at = Length::inches(40);
                base.windows.push(Window {
                    id: format!("window-{name}").into(),
                    unit: "window".into(),
                    wall,
                    at,
                    head: None,
                });
            }
        }
        1 => {
            fixture("toilet", FixtureKind::Toilet, on_back(40), Facing::DOWN, [20, 28]);
            fixture("vanity", FixtureKind::Vanity, on_back(90), Facing::DOWN, [36, 21]);
            fixture("tub", FixtureKind::Tub, on_right(70), Facing::LEFT, [60, 32]);
        }
        _ => {
            fixture("sink", FixtureKind::Sink, on_back(60), Facing::DOWN, [36, 24]);
            fixture("range", FixtureKind::Range, on_back(93), Facing::DOWN, [30, 24]);
            fixture("island", FixtureKind::Island, at(75, 40), Facing::UP, [60, 24]);
        }
    }
}
