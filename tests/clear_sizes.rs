//! Clear sizes of rooms in any direction, and of rooms with slanted sides.
//!
//! Source of the table: agreed by GEOS 3.14, SFCGAL and Clipper, or by hand. In metres:
//!
//! | shape | area | largest rectangle | largest square side | by 7 ft squares | by 36 in squares | inset by 18 in |
//! | --- | --- | --- | --- | --- | --- | --- |
//! | L: 6 x 5 minus a 3 x 2 corner | 24 | 18 (6 x 3) | 3.0 | 24 | 24 | 14.7777 |
//! | T hallway: bar 8 x 1.0 and stem 1.2 x 4 | 12.8 | 8 (8 x 1) | 1.2 | 0 | 12.8 | 1.7489 |
//! | alcove: 4 x 4 and 1.5 x 0.6 | 16.9 | 16 (4 x 4) | 4.0 | 16.0 | 16.9 | 9.8723 |
//! | pinch: 6 x 2 hallway, neck 0.9 wide and 0.3 long | 11.67 | 6 (3 x 2) | 2.0 | 0 | 11.40 | 4.2026 (2 parts) |
//!
//! The table's pinch is of halves 3 m long; with its neck in the middle of 6 m they are 2.85 m, so that 2.85 x 2 = 5.7 m2 is
//! the largest rectangle, and the largest connected part of the 11.40 m2 that squares of 36 in cover is 5.70 m2.

use plan_geometry::{Area, Inset, OFF_AXIS_SLACK, RoomFigures, derive};
use plan_model::elements::{OpenBoundary, Room, RoomUse};
use plan_model::{Length, MateLine, Plan, Point, Selection};
use plan_testkit::{Transform, room_with_outline, turned};

const SEVEN_FEET: Length = Length::inches(84);
const THREE_FEET: Length = Length::inches(36);
const ANGLES: [f64; 9] = [0.0, 0.1, 7.3, 33.7, 45.0, 61.3, 89.9, 135.0, 200.0];

/// A length in centimetres.
const fn cm(centimetres: i64) -> Length {
    Length::from_steps(centimetres * 6400)
}

fn metres(corners: &[(f64, f64)]) -> Vec<Point> {
    let length = |metres: f64| Length::nearest_to_inches(metres / 0.0254);
    corners.iter().map(|(x, y)| Point::new(length(*x), length(*y))).collect()
}

#[expect(clippy::cast_precision_loss, reason = "compared to four places")]
fn square_metres(area: Area) -> f64 {
    area.square_steps() as f64 / 640_000.0_f64.powi(2)
}

struct Shape {
    name: &'static str,
    corners: &'static [(f64, f64)],
    anchor: (f64, f64),
    area: f64,
    rectangle: [f64; 2],
    square: f64,
    by_seven_feet: f64,
    by_three_feet: f64,
    inset: (f64, usize),
}

const SHAPES: [Shape; 4] = [
    Shape {
        name: "L",
        corners: &[(0.0, 0.0), (6.0, 0.0), (6.0, 3.0), (3.0, 3.0), (3.0, 5.0), (0.0, 5.0)],
        anchor: (1.0, 1.0),
        area: 24.0,
        rectangle: [3.0, 6.0],
        square: 3.0,
        by_seven_feet: 24.0,
        by_three_feet: 24.0,
        inset: (14.7777, 1),
    },
    Shape {
        name: "T",
        corners: &[(3.4, 0.0), (4.6, 0.0), (4.6, 4.0), (8.0, 4.0), (8.0, 5.0), (0.0, 5.0), (0.0, 4.0), (3.4, 4.0)],
        anchor: (4.0, 4.5),
        area: 12.8,
        rectangle: [1.0, 8.0],
        square: 1.2,
        by_seven_feet: 0.0,
        by_three_feet: 12.8,
        inset: (1.7489, 1),
    },
    Shape {
        name: "alcove",
        corners: &[(0.0, 0.0), (4.0, 0.0), (4.0, 1.0), (4.6, 1.0), (4.6, 2.5), (4.0, 2.5), (4.0, 4.0), (0.0, 4.0)],
        anchor: (1.0, 1.0),
        area: 16.9,
        rectangle: [4.0, 4.0],
        square: 4.0,
        by_seven_feet: 16.0,
        by_three_feet: 16.9,
        inset: (9.8723, 1),
    },
    Shape {
        name: "pinch",
        corners: &[
            (0.0, 0.0),
            (2.85, 0.0),
            (2.85, 0.55),
            (3.15, 0.55),
            (3.15, 0.0),
            (6.0, 0.0),
            (6.0, 2.0),
            (3.15, 2.0),
            (3.15, 1.45),
            (2.85, 1.45),
            (2.85, 2.0),
            (0.0, 2.0),
        ],
        anchor: (1.0, 1.0),
        area: 11.67,
        rectangle: [2.0, 2.85],
        square: 2.0,
        by_seven_feet: 0.0,
        by_three_feet: 5.7,
        inset: (4.2026, 2),
    },
];

fn figures(plan: &Plan) -> RoomFigures {
    let derived = derive(&plan.home(&Selection::default()));
    assert_eq!(derived.problems, [], "the room closes");
    derived.room(&"room".into()).expect("the room closed").clone()
}

fn room(outline: &[Point], anchor: Point) -> RoomFigures {
    figures(&room_with_outline(outline, cm(10), RoomUse::Living, anchor))
}

/// What an area may be off by: every side of the room by a step of its own, and what is measured in it by as much again;
/// and by the four places to which the table is rounded.
fn area_slack(outline: &[Point]) -> f64 {
    let ends = outline.iter().zip(outline.iter().cycle().skip(1));
    let around: Length = ends.map(|(a, b)| (b.x - a.x).abs() + (b.y - a.y).abs()).sum();
    square_metres(Area::of_rectangle(around, OFF_AXIS_SLACK)) + 0.000_05
}

fn near(measured: Length, exact: f64) -> bool {
    (measured - metres(&[(exact, 0.0)])[0].x).abs() <= OFF_AXIS_SLACK
}

#[test]
fn the_shapes_of_the_table_at_any_angle() {
    for shape in &SHAPES {
        for degrees in ANGLES {
            let corners = turned(&metres(shape.corners), degrees);
            let room = room(&corners, turned(&metres(&[shape.anchor]), degrees)[0]);
            let at = format!("{} at {degrees} degrees", shape.name);
            let slack = area_slack(&corners);
            let is_area = |measured: Area, exact: f64| {
                let measured = square_metres(measured);
                assert!((measured - exact).abs() <= slack, "{at}: {measured} m2, not {exact}");
            };
            let clear = room.sizes.rectangle();
            assert!(near(clear.width, shape.rectangle[0]) && near(clear.length, shape.rectangle[1]), "{at}: {clear:?}");
            assert!(near(room.sizes.largest_square(), shape.square), "{at}");
            is_area(room.floor_area, shape.area);
            is_area(room.sizes.qualifying_area(SEVEN_FEET), shape.by_seven_feet);
            is_area(room.sizes.qualifying_area(THREE_FEET), shape.by_three_feet);
            let Inset { area, parts } = room.sizes.inset(THREE_FEET);
            is_area(area, shape.inset.0);
            assert_eq!(parts, shape.inset.1, "{at}");
            assert_eq!(room.sizes.slack() == Length::ZERO, degrees == 0.0, "{at}");
        }
    }
}

/// "A 4 x 4 m room with a cut corner has 13.4478 m2 at 7 ft." The corner is cut from 2 m along one side to 2 m along the
/// other. By hand: the corner of a rectangle from the far corner lies on x + y = 6 m, so that 3 x 3 m is the largest. A square
/// of side d above 2 m reaches 6 - d along both sides, so that squares cover 14 - 4 (d - 2) - (d - 2)^2: 12 m2 at
/// d = sqrt 6 m. The centre of a square of 36 in stands in a square of 3.0856 m less a corner with legs of 2 m: 7.5209 m2.
#[test]
fn a_cut_corner_at_any_angle() {
    let cut = metres(&[(0.0, 0.0), (4.0, 0.0), (4.0, 2.0), (2.0, 4.0), (0.0, 4.0)]);
    for degrees in ANGLES {
        let corners = turned(&cut, degrees);
        let room = room(&corners, turned(&metres(&[(1.0, 1.0)]), degrees)[0]);
        let slack = area_slack(&corners);
        let clear = room.sizes.rectangle();
        assert!(near(clear.width, 3.0) && near(clear.length, 3.0), "{degrees}: {clear:?}");
        assert!(near(room.sizes.largest_square(), 3.0), "{degrees}");
        assert!((square_metres(room.sizes.qualifying_area(SEVEN_FEET)) - 13.4478).abs() <= slack, "{degrees}");
        let inset = room.sizes.inset(THREE_FEET);
        assert!((square_metres(inset.area) - 7.5209).abs() <= slack && inset.parts == 1, "{degrees}: {inset:?}");
        let least = |square_metres: i128| {
            let required = Area::from_square_steps(square_metres * 640_000 * 640_000);
            room.sizes.least_dimension(required).expect("large enough")
        };
        // At 12 m2 a step of the square's side takes off 4.9 m by a step: what the sides of 15 m in all are off by is four.
        assert!((least(12) - metres(&[(6.0_f64.sqrt(), 0.0)])[0].x).abs() <= OFF_AXIS_SLACK * 2, "{degrees}");
        assert!(near(least(8), 3.0), "{degrees}: the largest square is enough");
    }
}

/// An attic room: a triangle, as wide as 6 m at its foot and 4 m high, its foot 30 in short of the top cut off flat. By hand:
/// the largest rectangle on the foot of a triangle is half as wide and half as high.
#[test]
fn the_largest_rectangle_under_two_slanted_sides() {
    let gable = metres(&[(0.0, 0.0), (6.0, 0.0), (3.762, 2.984), (2.238, 2.984)]);
    for degrees in ANGLES {
        let room = room(&turned(&gable, degrees), turned(&metres(&[(3.0, 1.0)]), degrees)[0]);
        let clear = room.sizes.rectangle();
        assert!(near(clear.width, 2.0) && near(clear.length, 3.0), "{degrees}: {clear:?}");
        // A square of side s on the foot: 6 - s is to 6 as s is to 4, with s = 2.4.
        assert!(near(room.sizes.largest_square(), 2.4), "{degrees}");
    }
}

#[test]
fn an_inset_of_a_square_that_fits_just_so_is_a_line() {
    let hall = room(&metres(&[(0.0, 0.0), (5.0, 0.0), (5.0, 1.0), (0.0, 1.0)]), metres(&[(0.5, 0.5)])[0]);
    let area = |area| Inset { area, parts: 1 };
    assert_eq!(hall.sizes.inset(cm(100)), area(Area::ZERO));
    assert_eq!(hall.sizes.inset(cm(101)), Inset { area: Area::ZERO, parts: 0 });
    assert_eq!(hall.sizes.inset(cm(50)), area(Area::of_rectangle(cm(450), cm(50))));
    assert_eq!(hall.sizes.inset(Length::ZERO), area(hall.floor_area));
    assert_eq!(hall.sizes.inset(-cm(10)), area(hall.floor_area));
}

/// The angle of a room's direction, modulo a quarter turn, in degrees: that of its clear rectangle.
fn direction(room: &RoomFigures) -> f64 {
    let [a, b, ..] = room.sizes.rectangle().corners;
    let side = b - a;
    side.y.to_inches().atan2(side.x.to_inches()).to_degrees().rem_euclid(90.0)
}

fn is_at(angle: f64, degrees: f64) -> bool {
    let off = (angle - degrees).rem_euclid(90.0);
    off.min(90.0 - off) < 0.001
}

/// A floor of 6 x 6 m cut along its diagonal, and a further line cut off the right angle. The legs are 6 - 1.1 = 4.9 m each,
/// 9.8 m in all; the diagonal is 8.485 m long and the open boundary 1.1 x 1.414 = 1.556 m, 10.04 m in all: the boundary decides.
/// In that direction by hand, w = 8.485 - 2 h: 2.1213 x 4.2426 m.
#[test]
fn open_boundaries_count_for_the_direction() {
    let outline = metres(&[(0.0, 0.0), (6.0, 0.0), (0.0, 6.0)]);
    for degrees in ANGLES {
        let place = |x: f64, y: f64| turned(&metres(&[(x, y)]), degrees)[0];
        let mut plan = room_with_outline(&turned(&outline, degrees), cm(10), RoomUse::Living, place(2.0, 2.0));
        let line = OpenBoundary { id: "line".into(), from: place(1.1, 0.0), to: place(0.0, 1.1) };
        plan.base.open_boundaries.push(line);
        let corner = Room { id: "corner".into(), name: "Corner".into(), usage: RoomUse::Dining, at: place(0.3, 0.3) };
        plan.base.rooms.push(corner);
        let derived = derive(&plan.home(&Selection::default()));
        assert_eq!(derived.problems, [], "{degrees}");
        let [room, corner] = &derived.rooms[..] else { panic!("two rooms") };
        assert!(is_at(direction(room), degrees + 45.0), "{degrees}: {}", direction(room));
        let clear = room.sizes.rectangle();
        assert!(near(clear.width, 2.121_320_3) && near(clear.length, 4.242_640_7), "{degrees}: {clear:?}");
        assert!(is_at(direction(corner), degrees), "{degrees}: {}", direction(corner));
        let whole = &derived.spaces[0];
        assert!(
            near(whole.sizes.largest_square(), 3.0),
            "{degrees}: the legs of the whole are longer than its diagonal"
        );
    }
}

/// The same floor without its corner, as one room: 2 (6 - c) and (6 + c) sqrt 2 are equal for c = (12 - 6 sqrt 2) / (2 + sqrt 2).
/// Along the legs the largest rectangle is a square of (6 - c) / 2 = 2.485 m, 6.18 m2; across them 2.1213 x 4.2426 m, 9 m2.
#[test]
fn of_equal_directions_the_one_with_the_larger_rectangle() {
    let c = (12.0 - 6.0 * 2.0_f64.sqrt()) / (2.0 + 2.0_f64.sqrt());
    let outline = metres(&[(c, 0.0), (6.0, 0.0), (0.0, 6.0), (0.0, c)]);
    for degrees in ANGLES {
        let mut plan = room_with_outline(
            &turned(&outline, degrees),
            cm(10),
            RoomUse::Living,
            turned(&metres(&[(2.0, 2.0)]), degrees)[0],
        );
        // A mate line along the legs decides nothing here.
        let [from, to] = [0, 1].map(|at| turned(&metres(&[(0.0, 0.0), (6.0, 0.0)]), degrees)[at]);
        plan.mate_line = Some(MateLine { from, to });
        let room = figures(&plan);
        assert!(is_at(direction(&room), degrees + 45.0), "{degrees}: {}", direction(&room));
        let clear = room.sizes.rectangle();
        assert!(near(clear.width, 2.121_320_3) && near(clear.length, 4.242_640_7), "{degrees}: {clear:?}");
    }
}

/// An octagon with equal sides has two directions with equal rectangles: the mate line decides, however it lies.
#[test]
fn of_equal_rectangles_the_one_along_the_mate_line() {
    let (side, cut) = (2.0, 2.0_f64.sqrt());
    let whole = side + 2.0 * cut;
    let octagon = metres(&[
        (cut, 0.0),
        (cut + side, 0.0),
        (whole, cut),
        (whole, cut + side),
        (cut + side, whole),
        (cut, whole),
        (0.0, cut + side),
        (0.0, cut),
    ]);
    for degrees in ANGLES {
        for line in [0.0, 45.0, 90.0, 135.0] {
            let anchor = turned(&metres(&[(2.0, 2.0)]), degrees)[0];
            let mut plan = room_with_outline(&turned(&octagon, degrees), cm(10), RoomUse::Living, anchor);
            let to = turned(&metres(&[(10.0, 0.0)]), degrees + line)[0];
            plan.mate_line = Some(MateLine { from: Point::default(), to });
            let room = figures(&plan);
            assert!(is_at(direction(&room), degrees + line), "{degrees}, {line}: {}", direction(&room));
        }
    }
}

/// A room within walls 10 cm thick on both sides of a mate line of two walls, both halves slanted: each half has the figures
/// that it has alone, turned or mirrored.
#[test]
fn rooms_on_both_sides_of_a_mate_line() {
    let half = |x: f64| [(0.1, 0.0), (4.1, 0.0), (4.1, 2.0), (2.1, 4.0), (0.1, 4.0)].map(|(a, b)| (a * x, b));
    let right = metres(&half(1.0));
    let mut left = metres(&half(-1.0));
    left.reverse();
    let at = metres(&[(1.0, 1.0), (-1.0, 1.0)]);
    let mut plan = room_with_outline(&right, cm(10), RoomUse::Living, at[0]);
    let other = room_with_outline(&left, cm(10), RoomUse::Bedroom, at[1]);
    plan.base.walls.extend(
        other
            .base
            .walls
            .into_iter()
            .map(|wall| plan_model::elements::Wall { id: format!("left-{}", wall.id).into(), ..wall }),
    );
    plan.base.rooms.push(Room { id: "left".into(), ..other.base.rooms[0].clone() });
    plan.mate_line = Some(MateLine { from: Point::default(), to: metres(&[(0.0, 4.0)])[0] });
    for transform in [Transform::QuarterTurned, Transform::Mirrored] {
        plan = transform.plan(&plan);
        let derived = derive(&plan.home(&Selection::default()));
        for room in &derived.rooms {
            let clear = room.sizes.rectangle();
            assert!(near(clear.width, 3.0) && near(clear.length, 3.0), "{}: {clear:?}", room.id);
            let covered = square_metres(room.sizes.qualifying_area(SEVEN_FEET));
            assert!((covered - 13.4478).abs() <= area_slack(&room.region.outer), "{covered}");
        }
    }
}
