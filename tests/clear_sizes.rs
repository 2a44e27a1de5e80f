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
use plan_model::elements::RoomUse;
use plan_model::{Length, Plan, Point, Selection};
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
        corners: &[
            (3.4, 0.0),
            (4.6, 0.0),
            (4.6, 4.0),
            (8.0, 4.0),
            (8.0, 5.0),
            (0.0, 5.0),
            (0.0, 4.0),
            (3.4, 4.0),
        ],
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
        corners: &[
            (0.0, 0.0),
            (4.0, 0.0),
            (4.0, 1.0),
            (4.6, 1.0),
            (4.6, 2.5),
            (4.0, 2.5),
            (4.0, 4.0),
            (0.0, 4.0),
        ],
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

#[test]
fn explore() {
    for shape in &SHAPES {
        let (corners, anchor) = (metres(shape.corners), metres(&[shape.anchor]));
        let mut worst = [0i64; 3];
        let mut slanted = 0;
        for i in 0..3600 {
            let degrees = i as f64 / 10.0;
            let room = room(&turned(&corners, degrees), turned(&anchor, degrees)[0]);
            let clear = room.sizes.rectangle();
            let l = |m: f64| Length::nearest_to_inches(m / 0.0254);
            let off = [clear.width - l(shape.rectangle[0]), clear.length - l(shape.rectangle[1]), room.sizes.largest_square() - l(shape.square)];
            for (w, o) in worst.iter_mut().zip(off) { *w = (*w).max(o.steps().abs()); }
            let inset = room.sizes.inset(THREE_FEET);
            if i % 900 == 73 { println!("{} {degrees} {} {:?} {} {} {}", shape.name, square_metres(room.floor_area), inset.parts, square_metres(inset.area), square_metres(room.sizes.qualifying_area(SEVEN_FEET)), square_metres(room.sizes.qualifying_area(THREE_FEET))); }
            if format!("{:?}", room.sizes).contains("Slanted") { slanted += 1; }
        }
        println!("{} {worst:?} slanted {slanted}", shape.name);
    }
}
