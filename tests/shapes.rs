//! Shapes with exact answers.
//!
//! Source: areas agreed by GEOS 3.14, SFCGAL and Clipper; rectangles, squares and legs by hand. In metres:
//!
//! | shape | area | largest rectangle | largest square side | narrowest leg | area of 7 ft squares | area of 36 in squares |
//! | --- | --- | --- | --- | --- | --- | --- |
//! | L: 6 x 5 minus a 3 x 2 corner | 24 | 18 | 3.0 | 3.0 | 24 | 24 |
//! | T hallway: bar 8 x 1.0 and stem 1.2 x 4 | 12.8 | 8 | 1.2 | 1.0 | 0 | 12.8 |
//! | alcove: 4 x 4 and 1.5 x 0.6 | 16.9 | 16 | 4.0 | 1.5 | 16.0 | 16.9 |
//! | pinch: 6 x 2 hallway, neck 0.9 wide and 0.3 long | 11.67 | 6 (3 x 2) | 2.0 | 0.9 | 0 | 11.40 |
//! | 4 x 4 room with a cut corner | - | - | - | - | 13.4478 | - |

use plan_geometry::{Area, OFF_AXIS_SLACK, Passage, RoomFigures, derive};
use plan_model::elements::RoomUse;
use plan_model::{Id, Length, Plan, Point, Selection};
use plan_testkit::{Transform, cased_unit, doorway, room_with_outline, turned};

const SEVEN_FEET: Length = Length::inches(84);
const THREE_FEET: Length = Length::inches(36);

/// A length in centimetres.
const fn cm(centimetres: i64) -> Length {
    Length::from_steps(centimetres * 6400)
}

/// An area in square centimetres.
const fn square_cm(square_centimetres: i128) -> Area {
    Area::from_square_steps(square_centimetres * 6400 * 6400)
}

fn outline(corners: &[(i64, i64)]) -> Vec<Point> {
    corners.iter().map(|(x, y)| Point::new(cm(*x), cm(*y))).collect()
}

fn l_shape() -> Vec<Point> {
    outline(&[(0, 0), (600, 0), (600, 300), (300, 300), (300, 500), (0, 500)])
}

/// The bar lies on top, the stem hangs from its middle.
fn t_hallway() -> Vec<Point> {
    outline(&[(340, 0), (460, 0), (460, 400), (800, 400), (800, 500), (0, 500), (0, 400), (340, 400)])
}

fn alcove() -> Vec<Point> {
    outline(&[(0, 0), (400, 0), (400, 100), (460, 100), (460, 250), (400, 250), (400, 400), (0, 400)])
}

/// The neck in the middle: 2.85 + 0.3 + 2.85.
fn pinch() -> Vec<Point> {
    let neck = [(315, 0), (315, 55), (285, 55), (285, 0)];
    let top = [(285, 200), (285, 145), (315, 145), (315, 200)];
    let mut corners = vec![(0, 0), neck[3], neck[2], neck[1], neck[0], (600, 0), (600, 200)];
    corners.extend([top[3], top[2], top[1], top[0], (0, 200)]);
    outline(&corners)
}

fn figures(outline: &[Point], usage: RoomUse, anchor: Point) -> RoomFigures {
    let plan = room_with_outline(outline, cm(10), usage, anchor);
    let derived = derive(&plan.home(&Selection::default()));
    assert_eq!(derived.problems, [], "the room closes");
    derived.room(&"room".into()).expect("the room closed").clone()
}

struct Expected {
    area: i128,
    rectangle: i128,
    square: i64,
    by_seven_feet: i128,
    by_three_feet: i128,
}

fn check(outline: &[Point], anchor: (i64, i64), expected: &Expected) {
    let anchor = Point::new(cm(anchor.0), cm(anchor.1));
    let mut drawn = (outline.to_vec(), anchor);
    for quarter in 0..4 {
        let room = figures(&drawn.0, RoomUse::Living, drawn.1);
        let clear = room.sizes.rectangle();
        assert_eq!(room.floor_area, square_cm(expected.area), "area, quarter {quarter}");
        assert_eq!(Area::of_rectangle(clear.width, clear.length), square_cm(expected.rectangle), "clear rectangle");
        assert_eq!(room.sizes.largest_square(), cm(expected.square), "largest square");
        assert_eq!(room.sizes.qualifying_area(SEVEN_FEET), square_cm(expected.by_seven_feet), "by 7 ft squares");
        assert_eq!(room.sizes.qualifying_area(THREE_FEET), square_cm(expected.by_three_feet), "by 36 in squares");
        assert_eq!(room.sizes.slack(), Length::ZERO);
        let quarter_turned = |point: &Point| Transform::QuarterTurned.point(*point);
        drawn = (drawn.0.iter().map(quarter_turned).collect(), quarter_turned(&drawn.1));
    }
}

#[test]
fn l_shaped_room() {
    let expected =
        Expected { area: 240_000, rectangle: 180_000, square: 300, by_seven_feet: 240_000, by_three_feet: 240_000 };
    check(&l_shape(), (100, 100), &expected);
}

#[test]
fn t_shaped_hallway() {
    let expected = Expected { area: 128_000, rectangle: 80_000, square: 120, by_seven_feet: 0, by_three_feet: 128_000 };
    check(&t_hallway(), (400, 450), &expected);
}

#[test]
fn room_with_an_alcove() {
    let expected =
        Expected { area: 169_000, rectangle: 160_000, square: 400, by_seven_feet: 160_000, by_three_feet: 169_000 };
    check(&alcove(), (100, 100), &expected);
}

/// The table's largest rectangle is of halves 3 m long; with a neck 0.3 m long in the middle of 6 m they are 2.85 m, the
/// neck alone reaches across with 6 x 0.9 = 5.4 m2, and 2.85 x 2 = 5.7 m2 is the largest. Squares of 36 in do not pass
/// the neck, so that the largest connected part is half of the table's 11.40 m2.
#[test]
fn pinched_hallway() {
    let expected = Expected { area: 116_700, rectangle: 57_000, square: 200, by_seven_feet: 0, by_three_feet: 57_000 };
    check(&pinch(), (100, 100), &expected);
}

/// Squares of 0.9 m just pass the neck: the area they cover is one part again.
#[test]
fn a_square_as_wide_as_the_neck_slides_through() {
    let room = figures(&pinch(), RoomUse::Living, Point::new(cm(100), cm(100)));
    assert_eq!(room.sizes.qualifying_area(cm(90)), square_cm(116_700));
    assert_eq!(room.sizes.qualifying_area(cm(90) + Length::from_steps(1)), square_cm(57_000));
    assert_eq!(room.sizes.least_dimension(square_cm(60_000)), Some(cm(90)));
    assert_eq!(room.sizes.least_dimension(square_cm(57_000)), Some(cm(200)));
    assert_eq!(room.sizes.least_dimension(square_cm(116_701)), None);
}

#[test]
fn the_least_dimension_leaves_out_what_is_not_needed() {
    let room = figures(&alcove(), RoomUse::Living, Point::new(cm(100), cm(100)));
    assert_eq!(room.sizes.least_dimension(square_cm(160_000)), Some(cm(400)));
    assert_eq!(room.sizes.least_dimension(square_cm(160_001)), Some(cm(150)));
}

/// "A 4 x 4 m room with a cut corner has 13.4478 m2 at 7 ft, and a mitred buffer says 14.0 where that is plainly wrong."
/// The corner is cut from 2 m along one side to 2 m along the other, which takes 2 m2 off.
#[test]
fn a_cut_corner_is_measured_by_the_square_itself() {
    let cut = outline(&[(0, 0), (400, 0), (400, 200), (200, 400), (0, 400)]);
    let room = figures(&cut, RoomUse::Living, Point::new(cm(100), cm(100)));
    let covered = room.sizes.qualifying_area(SEVEN_FEET).to_square_feet() * 0.092_903_04;
    assert!((covered - 13.4478).abs() < 0.000_05, "{covered} m2");
    assert_eq!(room.floor_area, square_cm(140_000));
    assert_eq!(room.sizes.slack(), OFF_AXIS_SLACK);
}

/// The same L, turned by any angle, keeps its figures to within the slack of faces off the axes.
#[test]
fn an_l_shaped_room_at_any_angle() {
    for degrees in [7.0, 30.0, 45.0, 61.3, 89.9, 135.0, 200.0] {
        let corners = turned(&l_shape(), degrees);
        let anchor = turned(&outline(&[(100, 100)]), degrees)[0];
        let room = figures(&corners, RoomUse::Living, anchor);
        let off = |measured: Length, exact: Length| (measured - exact).abs() <= OFF_AXIS_SLACK;
        let clear = room.sizes.rectangle();
        assert!(off(clear.width, cm(300)) && off(clear.length, cm(600)), "{degrees}: {clear:?}");
        assert!(off(room.sizes.largest_square(), cm(300)), "{degrees}");
        let least = room.sizes.least_dimension(square_cm(239_000)).expect("large enough");
        assert!(off(least, cm(300)), "{degrees}: {}", least.steps());
        // Sides of 22 m in all, each within a step: no more than 22 m by one step.
        let difference = (room.floor_area.square_steps() - square_cm(240_000).square_steps()).abs();
        assert!(difference <= i128::from(cm(2200).steps()), "{degrees}: {difference}");
    }
}

/// Doorways at the ends of the legs: the passage between them is as wide as the narrowest leg.
fn with_doorways(outline: &[Point], anchor: (i64, i64), walls: &[usize]) -> Plan {
    let mut plan = room_with_outline(outline, cm(10), RoomUse::Hall, Point::new(cm(anchor.0), cm(anchor.1)));
    plan.catalogue.doors.push(cased_unit("opening", cm(80), cm(200)));
    for wall in walls {
        let drawn = &plan.base.walls[*wall];
        let length = (drawn.to.x - drawn.from.x).abs() + (drawn.to.y - drawn.from.y).abs();
        let (id, at) = (format!("door-{wall}"), Length::from_steps((length - cm(80)).steps() / 2));
        plan.base.doors.push(doorway(&id, "opening", drawn.id.as_str(), at));
    }
    plan
}

fn passage(plan: &Plan, a: &str, b: &str) -> Passage {
    let derived = derive(&plan.home(&Selection::default()));
    let pair = [Id::from(a), Id::from(b)];
    let room = derived.room(&"room".into()).expect("the room closed");
    let passage = room.passages().iter().find(|p| p.between == pair || p.between == [pair[1].clone(), pair[0].clone()]);
    passage.expect("both doorways lead into the hall").clone()
}

#[test]
fn passages_of_the_t_shaped_hallway() {
    // Walls 0, 3 and 5 close the stem, the right and the left end of the bar.
    let plan = with_doorways(&t_hallway(), (400, 450), &[0, 3, 5]);
    assert_eq!(passage(&plan, "door-0", "door-3").clear_width.value, cm(100), "from the stem into the bar");
    assert_eq!(passage(&plan, "door-3", "door-5").clear_width.value, cm(100), "along the bar");
}

#[test]
fn passage_through_the_pinch() {
    // Walls 5 and 11 close the right and the left end.
    let plan = with_doorways(&pinch(), (100, 100), &[5, 11]);
    let passage = passage(&plan, "door-5", "door-11");
    assert_eq!(passage.clear_width.value, cm(90));
    assert_eq!(passage.clear_width.slack, Length::ZERO);
    let [a, b] = passage.pinch;
    assert_eq!((a.x, (a.y - b.y).abs()), (b.x, cm(90)), "drawn across the neck");
}

#[test]
fn passage_of_an_l_shaped_hallway_is_its_narrowest_leg() {
    // Legs 1.1 m and 0.95 m wide.
    let corners = outline(&[(0, 0), (500, 0), (500, 95), (110, 95), (110, 400), (0, 400)]);
    let plan = with_doorways(&corners, (50, 50), &[1, 4]);
    assert_eq!(passage(&plan, "door-1", "door-4").clear_width.value, cm(95));
}

/// A recess no deeper than 24 in that serves one doorway is closed at its mouth: 0.6 m is, 0.62 m is not.
#[test]
fn a_shallow_recess_at_a_doorway_does_not_narrow_the_hall() {
    let hall = |depth: i64| {
        let corners =
            [(0, 0), (500, 0), (500, 100), (280, 100), (280, 100 + depth), (195, 100 + depth), (195, 100), (0, 100)];
        let plan = with_doorways(&outline(&corners), (50, 50), &[1, 4, 7]);
        passage(&plan, "door-4", "door-7").clear_width.value
    };
    assert_eq!(hall(60), cm(85).max(hall(60)), "the disc touches the mouth");
    assert!(hall(60) > cm(85), "{}", hall(60).steps());
    assert_eq!(hall(62), cm(85), "a deeper one is a passage of its own");
}

/// A hall that narrows by steps of 24 in is not closed step by step: 30 in is left at its end.
#[test]
fn a_hall_that_narrows_step_by_step_is_as_narrow_as_its_end() {
    let inch = |corners: &[(i64, i64)]| corners.iter().map(|(x, y)| Point::inches(*x, *y)).collect::<Vec<_>>();
    let corners = [
        (0, 0),
        (100, 0),
        (100, 13),
        (120, 13),
        (120, 15),
        (144, 15),
        (144, 45),
        (120, 45),
        (120, 47),
        (100, 47),
        (100, 60),
        (0, 60),
    ];
    let mut plan = with_doorways(&inch(&corners), (30, 30), &[]);
    plan.base.rooms[0].at = Point::inches(30, 30);
    plan.catalogue.doors[0].width = Length::inches(28);
    for (id, wall, at) in [("far", "wall-5", 1), ("near", "wall-11", 16)] {
        plan.base.doors.push(doorway(id, "opening", wall, Length::inches(at)));
    }
    assert_eq!(
        passage(&plan, "far", "near").clear_width.value,
        Length::inches(34),
        "the last step is a recess of its door"
    );
}

/// A bay of 20 ft along a hall is no recess of the one door in it: nothing narrow lies between the doors.
#[test]
fn a_long_bay_is_not_taken_out_of_a_hall() {
    let inch = |corners: &[(i64, i64)]| corners.iter().map(|(x, y)| Point::inches(*x, *y)).collect::<Vec<_>>();
    let corners = [(0, 0), (300, 0), (300, 34), (270, 34), (270, 42), (30, 42), (30, 34), (0, 34)];
    let mut plan = with_doorways(&inch(&corners), (30, 30), &[]);
    plan.base.rooms[0].at = Point::inches(30, 20);
    for (id, wall, at) in [("across", "wall-0", 120), ("in-the-bay", "wall-4", 100)] {
        plan.base.doors.push(doorway(id, "opening", wall, Length::inches(at)));
    }
    assert_eq!(passage(&plan, "across", "in-the-bay").clear_width.value, Length::inches(42));
}
