//! What can be placed on a floor, and led over it.
//!
//! Sources: largest discs by GEOS 3.14, SFCGAL and Clipper, or by hand (in metres: L 6(2 - sqrt 2) = 3.514719, T 1.36,
//! alcove 4.0, pinch 2.0); turning circle 60 in, ADA Standards 304.3; clear floor space 30 x 48 in, 305.3; route 36 in,
//! 403.5.1; all else by the arithmetic beside it. Random rooms are compared with a search over a lattice.

use std::collections::BinaryHeap;

use plan_geometry::{
    Amount, Derived, Mark, MeasureName, OFF_AXIS_SLACK, Region, RoomReach, derive, derive_after, outline,
};
use plan_model::elements::{Fixture, OpenBoundary, Room, RoomUse, Wall};
use plan_model::{
    DoorOperation, DoorUnit, Exact, ExactLength, Facing, Id, Length, Plan, Point, PublishedClear, Selection, file,
};
use plan_testkit::{Transform, doorway, room_with_outline, turned};
use proptest::prelude::*;

const DUNLIN: &str = include_str!("../sample-plans/dunlin-58.json");
const STEP: Length = Length::from_steps(1);
const TURNING: Length = Length::inches(60);
const CLEAR_FLOOR: [Length; 2] = [Length::inches(30), Length::inches(48)];

/// A length in centimetres.
const fn cm(centimetres: i64) -> Length {
    Length::from_steps(centimetres * 6400)
}

fn metric(corners: &[(i64, i64)]) -> Vec<Point> {
    corners.iter().map(|(x, y)| Point::new(cm(*x), cm(*y))).collect()
}

fn inches(corners: &[(i64, i64)]) -> Vec<Point> {
    corners.iter().map(|(x, y)| Point::inches(*x, *y)).collect()
}

fn l_shape() -> Vec<Point> {
    metric(&[(0, 0), (600, 0), (600, 300), (300, 300), (300, 500), (0, 500)])
}

fn t_hallway() -> Vec<Point> {
    metric(&[(340, 0), (460, 0), (460, 400), (800, 400), (800, 500), (0, 500), (0, 400), (340, 400)])
}

fn box_of(width: i64, length: i64) -> Vec<Point> {
    inches(&[(0, 0), (width, 0), (width, length), (0, length)])
}

fn room(outline: &[Point], anchor: Point) -> Plan {
    room_with_outline(outline, Length::inches(5), RoomUse::Living, anchor)
}

/// A cabinet of a size with the middle of its back at a place.
fn cabinet(plan: &mut Plan, at: Point, faces: Facing, width: Length, depth: Length) {
    let id = format!("cabinet-{}", plan.base.fixtures.len());
    plan.base.fixtures.push(plan_testkit::cabinet(&id, at, faces, width, depth));
}

/// A cabinet between two corners, in inches.
fn block(plan: &mut Plan, [left, low, right, high]: [i64; 4]) {
    let at = Point::new(Length::from_steps(Length::inches(left + right).steps() / 2), Length::inches(low));
    cabinet(plan, at, Facing::UP, Length::inches(right - left), Length::inches(high - low));
}

fn derived(plan: &Plan) -> Derived {
    derive(&plan.home(&Selection::default()))
}

fn only(derived: &Derived) -> RoomReach {
    derived.reach().room(&"room".into()).expect("the room closed").clone()
}

fn largest(plan: &Plan) -> Length {
    only(&derived(plan)).largest_disc().expect("some of the floor is free").diameter.value
}

#[test]
fn largest_discs_of_known_shapes() {
    let alcove = metric(&[(0, 0), (400, 0), (400, 100), (460, 100), (460, 250), (400, 250), (400, 400), (0, 400)]);
    let pinch = metric(&[
        (0, 0),
        (285, 0),
        (285, 55),
        (315, 55),
        (315, 0),
        (600, 0),
        (600, 200),
        (315, 200),
        (315, 145),
        (285, 145),
        (285, 200),
        (0, 200),
    ]);
    // 6 (2 - sqrt 2) m are 3,840,000 (2 - 1.41421356237) = 2,249,419.92 steps, rounded down.
    let shapes = [
        (l_shape(), (100, 100), Length::from_steps(2_249_419)),
        (t_hallway(), (400, 450), cm(136)),
        (alcove, (100, 100), cm(400)),
        (pinch, (100, 100), cm(200)),
    ];
    for (corners, (x, y), expected) in shapes {
        let mut drawn = (corners, Point::new(cm(x), cm(y)));
        for quarter in 0..4 {
            assert_eq!(largest(&room(&drawn.0, drawn.1)), expected, "quarter {quarter} of {:?}", drawn.0);
            let quarter_turned = |point: &Point| Transform::QuarterTurned.point(*point);
            drawn = (drawn.0.iter().map(quarter_turned).collect(), quarter_turned(&drawn.1));
        }
    }
}

#[test]
fn largest_discs_at_any_angle() {
    for degrees in [7.0, 30.0, 45.0, 61.3, 89.9, 135.0, 200.0] {
        for (corners, anchor, exact) in
            [(l_shape(), (100, 100), Length::from_steps(2_249_419)), (t_hallway(), (400, 450), cm(136))]
        {
            let anchor = turned(&metric(&[anchor]), degrees)[0];
            let plan = room(&turned(&corners, degrees), anchor);
            let disc = only(&derived(&plan)).largest_disc().expect("the floor is free");
            // Sides lie within a step of true; where they meet at a corner, the disc moves by no more than twice that.
            let off = (disc.diameter.value - exact).abs();
            assert!(off <= OFF_AXIS_SLACK * 2, "{degrees}: {} off", off.steps());
            assert_eq!(disc.diameter.slack, OFF_AXIS_SLACK);
        }
    }
}

/// A circular room of 64 sides about a radius of 100 in: every side holds the disc at once.
#[test]
fn the_largest_disc_of_a_round_room_meets_all_its_sides() {
    let corner = |index: u32| {
        let angle = f64::from(index) * std::f64::consts::TAU / 64.0;
        Point::new(Length::nearest_to_inches(100.0 * angle.cos()), Length::nearest_to_inches(100.0 * angle.sin()))
    };
    let plan = room(&(0..64).map(corner).collect::<Vec<_>>(), Point::default());
    // Twice the radius of the inscribed circle, 200 cos(pi / 64) in.
    let exact = Length::nearest_to_inches(200.0 * (std::f64::consts::PI / 64.0).cos());
    let off = (largest(&plan) - exact).abs();
    assert!(off <= OFF_AXIS_SLACK * 2, "{} steps", off.steps());
}

#[test]
fn a_turning_circle_fits_in_exactly_sixty_inches_and_not_in_a_step_less() {
    let mut plan = room(&box_of(200, 84), Point::inches(100, 42));
    cabinet(&mut plan, Point::inches(100, 0), Facing::UP, Length::inches(200), Length::inches(24));
    let turning = only(&derived(&plan)).turning_circle().expect("60 in are left before the cabinets");
    assert_eq!(turning.y, Length::inches(24 + 30));
    plan.base.fixtures[0].depth = Length::inches(24) + STEP;
    assert_eq!(only(&derived(&plan)).turning_circle(), None);
    assert_eq!(largest(&plan), Length::inches(60) - STEP);
    // An odd number of steps: the centre lies between two places of the grid.
    assert!(only(&derived(&plan)).place_disc(TURNING - STEP).is_some());
}

/// Held between three corners: cabinets leave three corners of a circle of 60 in free, on the 3-4-5 triangle: 18 and 24
/// from the centre.
#[test]
fn a_turning_circle_between_corners() {
    let mut plan = room(&box_of(100, 84), Point::inches(50, 42));
    // The circle about (50, 30) touches the front wall at (50, 0) and the corners (32, 54) and (68, 54).
    block(&mut plan, [0, 54, 32, 84]);
    block(&mut plan, [68, 54, 100, 84]);
    let centre = only(&derived(&plan)).turning_circle().expect("the corners are 30 in away");
    assert!(only(&derived(&plan)).place_disc(TURNING).is_some());
    let from = |x: i64, y: i64| {
        let away = Point::inches(x, y) - centre;
        i128::from(away.x.steps()).pow(2) + i128::from(away.y.steps()).pow(2)
    };
    let radius = i128::from(Length::inches(30).steps());
    for (x, y) in [(32, 54), (68, 54)] {
        assert!(from(x, y) >= (radius - 2).pow(2), "{centre:?}");
    }
}

#[test]
fn a_clear_floor_space_fits_exactly_and_not_in_a_step_less() {
    for (width, length) in [(30, 48), (48, 30)] {
        let plan = room(&box_of(width, length), Point::inches(width / 2, length / 2));
        let place = only(&derived(&plan)).clear_floor().expect("it fits exactly");
        assert_eq!(place[0], Point::inches(0, 0));
        assert_eq!(place[2], Point::inches(width, length));
    }
    let mut corners = box_of(30, 48);
    corners[1].x = corners[1].x - STEP;
    corners[2].x = corners[2].x - STEP;
    let plan = room(&corners, Point::inches(15, 24));
    assert_eq!(only(&derived(&plan)).clear_floor(), None);
}

/// A clear floor space beside cabinets in an L: only the leg of 48 x 30 in is left.
#[test]
fn a_clear_floor_space_is_found_around_the_corner() {
    let corners = inches(&[(0, 0), (100, 0), (100, 48), (40, 48), (40, 120), (0, 120)]);
    let mut plan = room(&corners, Point::inches(20, 60));
    block(&mut plan, [0, 48, 20, 120]);
    block(&mut plan, [0, 0, 70, 20]);
    let place = only(&derived(&plan)).clear_floor().expect("x 70 to 100, y 0 to 48");
    assert_eq!((place[0], place[2]), (Point::inches(70, 0), Point::inches(100, 48)));
    block(&mut plan, [90, 0, 100, 10]);
    // What is left before the cabinets is 48 - 20 = 28 in deep.
    assert_eq!(only(&derived(&plan)).clear_floor(), None);
}

#[test]
fn rectangles_at_any_angle() {
    for degrees in [7.0, 30.0, 61.3, 135.0] {
        for (width, fits) in [(Length::inches(30), true), (Length::inches(30) - STEP * 8, false)] {
            let corner = Point::new(width, Length::inches(48));
            let corners =
                [Point::default(), Point::new(width, Length::ZERO), corner, Point::new(Length::ZERO, corner.y)];
            let anchor = turned(&inches(&[(15, 24)]), degrees)[0];
            let reach = only(&derived(&room(&turned(&corners, degrees), anchor)));
            assert_eq!(reach.clear_floor().is_some(), fits, "{degrees} {}", width.steps());
        }
    }
    // A corner cut off at 45 degrees from (60, 20) to (20, 60): the sides of 45 x 35 in meet it at (45, 35).
    let cut = inches(&[(0, 0), (60, 0), (60, 20), (20, 60), (0, 60)]);
    let reach = only(&derived(&room(&cut, Point::inches(10, 10))));
    let size = [Length::inches(45), Length::inches(35)];
    assert!(reach.place_rectangle(size).is_some());
    assert_eq!(reach.place_rectangle([size[0] + STEP * 8, size[1]]), None);
}

/// The pinch: a rectangle as wide as the neck slides through, a wider one does not, and neither turns.
#[test]
fn rectangles_slide_through_a_neck_as_wide_as_they_are() {
    let mut plan = room(&box_of(200, 80), Point::inches(10, 10));
    block(&mut plan, [90, 0, 100, 25]);
    block(&mut plan, [90, 55, 100, 80]);
    let reach = only(&derived(&plan));
    let (from, to) = (Point::inches(40, 40), Point::inches(160, 40));
    assert!(reach.rectangle_leads([Length::inches(48), Length::inches(30)], from, to));
    assert!(!reach.rectangle_leads([Length::inches(48), Length::inches(30) + STEP], from, to));
    assert!(!reach.rectangle_leads([Length::inches(30), Length::inches(48)], from, to), "it does not turn");
    assert!(reach.rectangle_leads([Length::inches(30), Length::inches(48)], from, from), "where it stands, it may");
}

fn unit(plan: &mut Plan, width: Length) {
    let clear = PublishedClear {
        width: ExactLength::from_steps(Exact::from(i128::from(width.steps()))),
        height: ExactLength::from_steps(Exact::from(i128::from(Length::inches(79).steps()))),
    };
    plan.catalogue.doors.push(DoorUnit {
        id: format!("unit-{}", plan.catalogue.doors.len()).into(),
        operation: DoorOperation::CasedOpening,
        width,
        height: Length::inches(80),
        clear: Some(clear),
        glass: None,
    });
}

/// A cased opening in a wall.
fn opening(plan: &mut Plan, id: &str, wall: &str, at: i64, width: i64) {
    unit(plan, Length::inches(width));
    let unit = plan.catalogue.doors.last().expect("it was just pushed").id.to_string();
    plan.base.doors.push(doorway(id, &unit, wall, Length::inches(at)));
}

fn route(derived: &Derived, from: &str, to: &str) -> plan_geometry::RouteWidth {
    let space = derived.reach().space(0).expect("there is a space");
    space.route_width(&from.into(), &to.into()).expect("both are doors of the space")
}

/// A room 200 x 100 in with doors at its ends and two cabinets that leave `neck` between them.
fn necked(neck: Length) -> Plan {
    let mut plan = room(&box_of(200, 100), Point::inches(20, 50));
    opening(&mut plan, "right", "wall-1", 30, 40);
    opening(&mut plan, "left", "wall-3", 30, 40);
    cabinet(&mut plan, Point::inches(100, 0), Facing::UP, Length::inches(24), Length::inches(30));
    let back = Length::inches(100 - 30) - neck;
    cabinet(&mut plan, Point::inches(100, 100), Facing::DOWN, Length::inches(24), back);
    plan
}

#[test]
fn a_body_as_wide_as_the_neck_passes_and_one_a_step_wider_does_not() {
    for neck in [Length::inches(36), Length::inches(36) - STEP, Length::inches(36) + STEP] {
        let plan = necked(neck);
        let derived = derived(&plan);
        let route = route(&derived, "left", "right");
        assert_eq!((route.width.value, route.width.slack), (neck, Length::ZERO));
        let [a, b] = route.pinch;
        assert_eq!((a.x, (a.y - b.y).abs()), (b.x, neck), "drawn across the neck");
        let space = derived.reach().space(0).expect("there is a space");
        // Beyond the neck 88 in are left, before the end of the room 88 too.
        let turning = space.leads_to_disc(&"left".into(), Length::inches(36), TURNING);
        assert!(turning.is_some(), "there is a place before the neck");
    }
}

/// A turning circle that has a place only behind a neck: a body gets there if it passes the neck.
#[test]
fn a_body_gets_to_a_turning_circle_only_through_what_is_wide_enough() {
    for (neck, gets_there) in [(Length::inches(36), true), (Length::inches(36) - STEP, false)] {
        let mut plan = necked(neck);
        // In front of the left door only 59 in are left to the cabinets.
        cabinet(&mut plan, Point::inches(73, 0), Facing::UP, Length::inches(30), Length::inches(30));
        let wide = Length::inches(100 - 30) - neck;
        cabinet(&mut plan, Point::inches(73, 100), Facing::DOWN, Length::inches(30), wide);
        // A counter leaves 58 in between itself and them.
        cabinet(&mut plan, Point::inches(0, 15), Facing::RIGHT, Length::inches(30), Length::inches(2));
        cabinet(&mut plan, Point::inches(0, 85), Facing::RIGHT, Length::inches(30), Length::inches(2));
        let derived = derived(&plan);
        let space = derived.reach().space(0).expect("there is a space");
        let turning = space.leads_to_disc(&"left".into(), Length::inches(36), TURNING);
        let beyond = turning.filter(|centre| centre.x > Length::inches(112));
        assert_eq!(beyond.is_some(), gets_there || beyond.is_some());
        assert_eq!(
            space.leads_to_disc(&"left".into(), Length::inches(36), Length::inches(88)).is_some(),
            gets_there,
            "88 in are left only beyond the neck"
        );
        assert!(space.leads_to_disc(&"right".into(), Length::inches(36), Length::inches(88)).is_some());
        assert_eq!(space.leads_to_disc(&"no-door".into(), Length::inches(36), TURNING), None);
    }
}

#[test]
fn routes_of_the_t_shaped_hallway() {
    let mut plan = room_with_outline(&t_hallway(), cm(10), RoomUse::Hall, Point::new(cm(400), cm(450)));
    for (id, wall, at) in [("stem", "wall-0", 5), ("right", "wall-3", 5), ("left", "wall-5", 5)] {
        opening(&mut plan, id, wall, at, 28);
    }
    let derived = derived(&plan);
    assert_eq!(route(&derived, "stem", "right").width.value, cm(100));
    assert_eq!(route(&derived, "left", "right").width.value, cm(100));
}

/// Cabinets at an odd angle narrow a way to the distance of a corner from a wall.
#[test]
fn routes_around_a_cabinet_at_an_angle() {
    let mut plan = necked(Length::inches(36));
    plan.base.fixtures.clear();
    // Its back stands across the way from (100, 0); seen along [3, 4] it is 50 in deep and 10 wide. The far corners lie at
    // (100, 0) + 50 (0.6, 0.8) -+ 5 (0.8, -0.6): (134, 37) and (126, 43). 100 - 43 = 57 in are left.
    let facing = Facing::new(3, 4).expect("small whole numbers");
    cabinet(&mut plan, Point::inches(100, 0), facing, Length::inches(10), Length::inches(50));
    let route = route(&derived(&plan), "left", "right");
    assert!((route.width.value - Length::inches(57)).abs() <= OFF_AXIS_SLACK, "{}", route.width.value.steps());
    assert_eq!(route.width.slack, OFF_AXIS_SLACK);
}

/// A house 300 x 100 in: `room` on the left, `part` on the right behind a partition, and `end`, the last 100 in of `part`,
/// across an open boundary.
fn three_rooms() -> Plan {
    let mut plan = room(&box_of(300, 100), Point::inches(20, 50));
    let partition = Wall {
        id: "partition".into(),
        from: Point::inches(100, 0),
        to: Point::inches(100, 100),
        thickness: Length::inches(4),
        ..plan.base.walls[0].clone()
    };
    plan.base.walls.push(partition);
    for (id, x) in [("part", 150), ("end", 250)] {
        plan.base.rooms.push(Room { id: id.into(), name: id.into(), usage: RoomUse::Living, at: Point::inches(x, 50) });
    }
    let (from, to) = (Point::inches(200, 0), Point::inches(200, 100));
    plan.base.open_boundaries.push(OpenBoundary { id: "boundary".into(), from, to });
    opening(&mut plan, "front", "wall-3", 30, 36);
    opening(&mut plan, "inner", "partition", 30, 32);
    plan
}

fn ways(derived: &Derived) -> Vec<(String, Option<Exact>, Vec<String>)> {
    assert_eq!(derived.problems, []);
    let way = |way: &plan_geometry::WayIn| {
        (way.room.to_string(), way.width.value(), way.doors.iter().map(Id::to_string).collect())
    };
    derived.reach().ways_in().iter().map(way).collect()
}

fn steps(length: Length) -> Option<Exact> {
    Some(Exact::from(i128::from(length.steps())))
}

fn way(room: &str, width: Option<Exact>, doors: &[&str]) -> (String, Option<Exact>, Vec<String>) {
    (room.to_owned(), width, doors.iter().map(|door| (*door).to_owned()).collect())
}

#[test]
fn the_widest_body_that_gets_in() {
    let mut plan = three_rooms();
    let thirty = |inches: i64| steps(Length::inches(inches));
    let expected = [
        way("room", thirty(36), &["front"]),
        way("part", thirty(32), &["front", "inner"]),
        way("end", thirty(32), &["front", "inner"]),
    ];
    assert_eq!(ways(&derived(&plan)), expected);
    // Two cabinets leave 25 in on the way over the open boundary: the end of the space is narrower.
    block(&mut plan, [190, 0, 210, 40]);
    block(&mut plan, [190, 65, 210, 100]);
    let narrowed = derived(&plan);
    assert_eq!(ways(&narrowed)[1], expected[1]);
    assert_eq!(ways(&narrowed)[2], way("end", thirty(25), &["front", "inner"]));
    let measure = narrowed.measures().iter().find(|m| m.name == MeasureName::WayInWidth && m.of[0].as_str() == "end");
    let measure = measure.expect("it is told");
    assert_eq!(measure.amount, Amount::Length(plan_geometry::Measured::exact(Length::inches(25))));
    let [Mark::Span([a, b]), ..] = measure.marks[..] else { panic!("{:?}", measure.marks) };
    assert_eq!((a.x, (a.y - b.y).abs()), (b.x, Length::inches(25)));
    // A second way in, of 28 in, at the end itself: wider than 25, and the part is still reached through the 32 in door.
    opening(&mut plan, "back", "wall-1", 30, 28);
    let two_ways = ways(&derived(&plan));
    assert_eq!(two_ways[1], expected[1]);
    assert_eq!(two_ways[2], way("end", thirty(28), &["back"]));
}

#[test]
fn a_door_of_unknown_width_makes_ways_unknown_unless_another_is_as_wide() {
    let mut plan = three_rooms();
    // The unit is one whose clear width nobody says.
    let inner = plan.catalogue.doors.last_mut().expect("the inner door's unit");
    (inner.operation, inner.clear) = (DoorOperation::Sliding, None);
    let unknown = derived(&plan);
    let told = ways(&unknown);
    assert_eq!(told[0].1, steps(Length::inches(36)));
    assert_eq!((told[1].1, told[2].1), (None, None));
    let measure = unknown.measures().iter().find(|m| m.name == MeasureName::WayInWidth && m.of[0].as_str() == "part");
    assert!(matches!(measure.map(|m| &m.amount), Some(Amount::Unknown(why)) if why.contains("inner")));
    // The front door is 36 in: nothing wider gets in through it, and a back door of 36 makes the others known.
    opening(&mut plan, "back", "wall-1", 30, 36);
    let known = ways(&derived(&plan));
    assert_eq!(known[1], way("part", steps(Length::inches(36)), &["back"]));
    assert_eq!(known[2], way("end", steps(Length::inches(36)), &["back"]));
}

#[test]
fn without_a_door_nothing_is_led_in() {
    let plan = room(&box_of(100, 100), Point::inches(50, 50));
    assert_eq!(ways(&derived(&plan)), [way("room", None, &[])]);
    let mut plan = three_rooms();
    plan.base.doors.pop();
    assert_eq!(ways(&derived(&plan))[1], way("part", Some(Exact::from(0)), &[]));
}

/// What a plan file may hold: nothing here panics, and nothing is possible where nothing is free.
#[test]
fn odd_fixtures_do_no_harm() {
    let mut plan = three_rooms();
    cabinet(&mut plan, Point::inches(50, 50), Facing::UP, Length::ZERO, Length::ZERO);
    cabinet(&mut plan, Point::inches(50, 0), Facing::UP, Length::inches(400), Length::inches(400));
    cabinet(&mut plan, Point::inches(-3, -3), Facing::UP, Length::inches(3), Length::inches(3));
    cabinet(&mut plan, Point::inches(150, 50), Facing::new(7, -3).expect("small"), Length::inches(3), Length::ZERO);
    let derived = derived(&plan);
    assert!(!derived.measures().is_empty());
    plan.base.fixtures.clear();
    cabinet(&mut plan, Point::inches(150, 0), Facing::UP, Length::inches(400), Length::inches(100));
    let covered = derive(&plan.home(&Selection::default()));
    let end = covered.reach().room(&"end".into()).expect("the room closed");
    assert_eq!((end.largest_disc(), end.clear_floor(), end.turning_circle()), (None, None, None));
}

/// Values of the demo home from its wall faces and its fixtures.
#[test]
fn the_demo_home() {
    let plan = file::read(DUNLIN).unwrap_or_else(|error| panic!("{error}"));
    let derived = derive(&plan.home(&Selection::included(&plan)));
    let width = |id: &str| {
        let ways = derived.reach().ways_in();
        ways.iter().find(|way| way.room.as_str() == id).and_then(|way| way.width.value())
    };
    let eighths = |eighths: i64| steps(Length::from_steps(eighths * Length::INCH.steps() / 8));
    // Doors of 32, 30 and 28 in less 2-3/8; through the mate line into the bath and the closet.
    assert_eq!(width("owner-bedroom"), eighths(29 * 8 + 5));
    assert_eq!(width("owner-bath"), eighths(27 * 8 + 5));
    assert_eq!(width("owner-closet"), eighths(25 * 8 + 5));
    // The front door is published with 33-5/8 clear, and nothing in the great room is narrower.
    for room in ["living", "kitchen", "dining", "hall"] {
        assert_eq!(width(room), eighths(33 * 8 + 5), "{room}");
    }
    let reach = |id: &str| derived.reach().room(&id.into()).expect("the room closed");
    assert_eq!(reach("hall").largest_disc().map(|disc| disc.diameter.value), Some(Length::inches(40)));
    assert_eq!(reach("bedroom-2").largest_disc().map(|disc| disc.diameter.value), Some(Length::inches(110)));
    assert!(reach("owner-bedroom").turning_circle().is_some());
    assert!(reach("hall-bath").turning_circle().is_none(), "60 in wide, less a toilet and a vanity");
    // The great room: held by the front wall y 6.5, the bedroom wall x 427.5 and the island's corner (314, 213):
    // (113.5 - r)^2 + (206.5 - r)^2 = r^2, r = 320 - sqrt(102,400 - 55,524.5) in.
    let great = derived.rooms.iter().find(|room| room.id.as_str() == "living").map(|room| room.space);
    let disc = great.and_then(|space| derived.reach().space(space)?.largest_disc()).expect("it is free");
    let exact = 2.0 * (320.0 - (102_400.0_f64 - 55_524.5).sqrt()) * 16_256.0;
    assert_eq!(disc.diameter.value, Length::from_steps(exact.floor() as i64));
}

#[test]
fn what_is_kept_after_a_change_is_what_is_derived_anew() {
    let mut plan = three_rooms();
    let before = derived(&plan);
    let _ = before.measures();
    block(&mut plan, [190, 0, 210, 40]);
    let home = plan.home(&Selection::default());
    assert_eq!(derive_after(&before, &home).measures(), derive(&home).measures());
}

// Random rooms against a search over a lattice.

/// Cabinets in a room 240 x 120 in, some of them at an angle; 40 in at both ends stay free.
fn cabinets() -> impl Strategy<Value = Vec<(i64, i64, i64, i64, i32, i32)>> {
    prop::collection::vec((105..136_i64, 0..120_i64, 4..40_i64, 4..45_i64, -3..4_i32, -3..4_i32), 0..7)
}

fn furnished(cabinets: &[(i64, i64, i64, i64, i32, i32)], slanted: bool) -> Plan {
    let mut plan = room(&box_of(240, 120), Point::inches(20, 50));
    opening(&mut plan, "right", "wall-1", 40, 40);
    opening(&mut plan, "left", "wall-3", 40, 40);
    for (x, y, width, depth, dx, dy) in cabinets {
        let square = if dx > dy { Facing::UP } else { Facing::RIGHT };
        let facing = if slanted { Facing::new(*dx, *dy).unwrap_or(square) } else { square };
        let at = Point::inches(*x, *y);
        cabinet(&mut plan, at, facing, Length::inches(2 * width), Length::inches(*depth));
    }
    // What stands with its middle outside the room does not stand in it.
    let is_inside = |fixture: &Fixture| {
        let [a, _, c, _] = outline(fixture.at, fixture.faces, fixture.width, fixture.depth);
        let (x, y) = ((a.x + c.x).to_inches() / 2.0, (a.y + c.y).to_inches() / 2.0);
        x > 0.0 && x < 240.0 && y > 0.0 && y < 120.0
    };
    plan.base.fixtures.retain(is_inside);
    plan
}

/// The distance of a place from what is nearest, negative in a cabinet; from the plan alone.
struct Clearance(Vec<[(f64, f64); 4]>);

impl Clearance {
    fn of(plan: &Plan) -> Self {
        let corners = |fixture: &Fixture| {
            outline(fixture.at, fixture.faces, fixture.width, fixture.depth).map(|p| (p.x.to_inches(), p.y.to_inches()))
        };
        Self(plan.base.fixtures.iter().map(corners).collect())
    }

    fn at(&self, x: f64, y: f64) -> f64 {
        let walls = x.min(240.0 - x).min(y).min(120.0 - y);
        self.0.iter().map(|corners| distance(corners, x, y)).fold(walls, f64::min)
    }
}

fn distance(corners: &[(f64, f64); 4], x: f64, y: f64) -> f64 {
    let sides = corners.iter().zip(corners.iter().cycle().skip(1));
    let mut inside = true;
    let mut nearest = f64::INFINITY;
    for ((ax, ay), (bx, by)) in sides {
        let (u, v, px, py) = (bx - ax, by - ay, x - ax, y - ay);
        inside &= u * py - v * px >= 0.0;
        let part = ((px * u + py * v) / (u * u + v * v)).clamp(0.0, 1.0);
        nearest = nearest.min((px - part * u).hypot(py - part * v));
    }
    if inside { -nearest } else { nearest }
}

const PITCH: f64 = 4.0;
/// From any place to the nearest one of the lattice.
const OFF: f64 = PITCH * std::f64::consts::FRAC_1_SQRT_2;
const COLUMNS: usize = 61;
const ROWS: usize = 31;

fn lattice(clearance: &Clearance) -> Vec<f64> {
    let at = |index: usize| clearance.at((index % COLUMNS) as f64 * PITCH, (index / COLUMNS) as f64 * PITCH);
    (0..COLUMNS * ROWS).map(at).collect()
}

/// The greatest least clearance on a way over the lattice from one place to another.
fn bottleneck(lattice: &[f64], from: usize, to: usize) -> f64 {
    let key = |index: usize, value: f64| ((value * 1e6) as i64, index);
    let mut best = vec![f64::NEG_INFINITY; lattice.len()];
    best[from] = lattice[from];
    let mut next = BinaryHeap::from([key(from, best[from])]);
    while let Some((_, here)) = next.pop() {
        let (column, row) = (here % COLUMNS, here / COLUMNS);
        for (x, y) in (0..9).map(|k| ((column + k % 3).wrapping_sub(1), (row + k / 3).wrapping_sub(1))) {
            if x < COLUMNS && y < ROWS {
                let there = y * COLUMNS + x;
                let value = best[here].min(lattice[there]);
                if value > best[there] {
                    best[there] = value;
                    next.push(key(there, value));
                }
            }
        }
    }
    best[to]
}

fn shown(length: Length) -> f64 {
    length.to_inches()
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(64))]

    #[test]
    fn no_place_of_a_lattice_holds_a_larger_disc(cabinets in cabinets(), slanted in any::<bool>()) {
        let plan = furnished(&cabinets, slanted);
        let clearance = Clearance::of(&plan);
        let best = lattice(&clearance).into_iter().fold(0.0, f64::max);
        let disc = only(&derived(&plan)).largest_disc().expect("the ends of the room are free");
        let radius = shown(disc.diameter.value) / 2.0;
        // Two steps are less than 1/8000 in.
        let own = clearance.at(shown(disc.centre.x), shown(disc.centre.y));
        prop_assert!((own - radius).abs() < 5e-4, "clear {own}, told {radius}");
        prop_assert!(best <= radius + 5e-4, "the lattice has {best}, told {radius}");
    }

    #[test]
    fn the_route_is_as_wide_as_the_widest_way_over_a_lattice(cabinets in cabinets(), slanted in any::<bool>()) {
        let plan = furnished(&cabinets, slanted);
        // From the middle of the one end to that of the other, where nothing stands.
        let lattice = lattice(&Clearance::of(&plan));
        let widest = bottleneck(&lattice, 15 * COLUMNS + 5, 15 * COLUMNS + 55).max(0.0);
        let derived = derived(&plan);
        let route = shown(route(&derived, "left", "right").width.value).min(40.0) / 2.0;
        let widest = widest.min(20.0);
        prop_assert!((route - widest).abs() <= OFF, "led {route}, over the lattice {widest}");
    }

    /// Cabinets stand on whole inches: so does a rectangle that is pushed to the left and down as far as it goes.
    #[test]
    fn a_rectangle_has_a_place_where_whole_inches_have_one(
        blocks in prop::collection::vec((0..100_i64, 0..60_i64, 1..30_i64, 1..30_i64), 0..9),
    ) {
        let mut plan = room(&inches(&[(0, 0), (100, 0), (100, 50), (70, 50), (70, 80), (0, 80)]), Point::inches(5, 5));
        let mut taken = vec![[false; 100]; 80];
        for (x, y) in (70..100).flat_map(|x| (50..80).map(move |y| (x, y))) {
            taken[y][x] = true;
        }
        for (x, y, width, height) in blocks {
            let middle = (x + width / 2, y + height / 2);
            if middle.0 >= 69 && middle.1 >= 49 || middle.0 >= 99 || middle.1 >= 79 {
                continue;
            }
            block(&mut plan, [x, y, x + width, y + height]);
            for row in taken.iter_mut().take((y + height) as usize).skip(y as usize) {
                row.iter_mut().take((x + width) as usize).skip(x as usize).for_each(|cell| *cell = true);
            }
        }
        let free = |x: usize, y: usize, w: usize, h: usize| {
            x + w <= 100 && y + h <= 80 && taken[y..y + h].iter().all(|row| !row[x..x + w].contains(&true))
        };
        let fits = |w: usize, h: usize| (0..80).any(|y| (0..100).any(|x| free(x, y, w, h)));
        let place = only(&derived(&plan)).place_rectangle(CLEAR_FLOOR);
        prop_assert_eq!(place.is_some(), fits(30, 48) || fits(48, 30));
        if let Some([low, _, high, _]) = place {
            let whole = |length: Length| (length.steps() / Length::INCH.steps()) as usize;
            prop_assert!(free(whole(low.x), whole(low.y), whole(high.x - low.x), whole(high.y - low.y)));
        }
    }

    #[test]
    fn an_obstruction_never_makes_possible_what_was_not(
        cabinets in cabinets(),
        one_more in (0..240_i64, 0..120_i64, 1..40_i64, 1..40_i64, -3..4_i32, -3..4_i32),
        slanted in any::<bool>(),
    ) {
        let plan = furnished(&cabinets, slanted);
        let more: Vec<_> = cabinets.into_iter().chain([one_more]).collect();
        let (before, after) = (derived(&plan), derived(&furnished(&more, slanted)));
        // Places where slanted sides cross are rounded to the grid.
        let slack = if slanted { OFF_AXIS_SLACK } else { Length::ZERO };
        let led = |derived: &Derived| route(derived, "left", "right").width.value;
        prop_assert!(led(&after) <= led(&before) + slack);
        let disc = |derived: &Derived| only(derived).largest_disc().map_or(Length::ZERO, |disc| disc.diameter.value);
        prop_assert!(disc(&after) <= disc(&before) + slack);
        let possible = |derived: &Derived| only(derived).clear_floor().is_some();
        prop_assert!(possible(&before) || !possible(&after) || slanted);
        let width = |derived: &Derived| derived.reach().ways_in()[0].width.value();
        prop_assert!(width(&after) <= width(&before));
    }

    #[test]
    fn a_room_drawn_elsewhere_keeps_its_reach(cabinets in cabinets()) {
        let plan = furnished(&cabinets, false);
        let told = |plan: &Plan| {
            let derived = derived(plan);
            let reach = only(&derived);
            let disc = reach.largest_disc().map(|disc| disc.diameter);
            (disc, reach.clear_floor().is_some(), reach.turning_circle().is_some(), route(&derived, "left", "right").width)
        };
        let here = told(&plan);
        for transform in [Transform::Moved(Point::inches(-777, 3)), Transform::QuarterTurned, Transform::Mirrored] {
            prop_assert_eq!(&here, &told(&transform.plan(&plan)), "{:?}", transform);
        }
    }
}

/// Every part of the free floor of a home is a region without anything in it.
#[test]
fn the_free_floor_leaves_out_what_stands_there() {
    let plan = necked(Length::inches(36));
    let derived = derived(&plan);
    let free: i128 = derived.spaces[0].free_floor().iter().map(Region::area).map(|area| area.square_steps()).sum();
    let square_inch = i128::from(Length::INCH.steps()).pow(2);
    // 200 x 100 less 24 x (30 + 34).
    assert_eq!(free, (20_000 - 24 * 64) * square_inch);
}
