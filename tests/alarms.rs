//! Distances of alarms, and what calls for carbon monoxide alarms.
//!
//! Sources: IRC R314.3 (3 ft from a bath's door, outside each sleeping area), R314.3.1 (20, 10 or 6 ft from cooking
//! appliances), R315.2 and R315.3 (fuel, attached garage); W47. Distances by Pythagoras.

use plan_geometry::{
    AlarmDistance, Amount, Derived, MeasureName, Nearest, OFF_AXIS_SLACK, derive, senses_carbon_monoxide, senses_smoke,
};
use plan_model::elements::DetectorKind::{CarbonMonoxide, Combined, Ionization, Photoelectric};
use plan_model::elements::RoomUse::{Bath, Bedroom, Closet, Dining, Garage, Hall, Kitchen, Living, Toilet};
use plan_model::elements::{FixtureKind, Fuel};
use plan_model::{Facing, Id, Length, Plan, Point, Selection, file};
use plan_testkit::Sketch;

const DUNLIN: &str = include_str!("../sample-plans/dunlin-58.json");

fn derived(plan: &Plan) -> Derived {
    let derived = derive(&plan.home(&Selection::default()));
    assert_eq!(derived.problems, [], "the home is drawn without a fault");
    derived
}

fn bath_door(home: &Derived, detector: &str) -> Nearest {
    let alarms = home.alarms();
    let found = alarms.detectors.iter().find(|found| found.id.as_str() == detector).expect("the alarm");
    found.bath_door.clone()
}

fn cooking(home: &Derived, detector: &str) -> Nearest {
    let alarms = home.alarms();
    let found = alarms.detectors.iter().find(|found| found.id.as_str() == detector).expect("the alarm");
    found.cooking.clone()
}

fn told(distance: Option<&AlarmDistance>) -> Option<(&str, Length)> {
    distance.map(|distance| (distance.to.as_str(), distance.distance.value))
}

/// Whether a length is the square root of so many square inches, rounded down to the step.
fn is_root_of(length: Length, square_inches: i128) -> bool {
    let square = |steps: i64| i128::from(steps) * i128::from(steps);
    let exact = square_inches * square(Length::INCH.steps());
    square(length.steps()) <= exact && exact < square(length.steps() + 1)
}

/// An L: a hall 40 in wide runs 300 in from left to right and turns up at its right end. A bath and a bedroom lie in the
/// crook of the L; their wall ends on the hall's as a T.
fn l_hall(degrees: f64) -> Sketch {
    Sketch::at_angle(degrees)
        .outside(&[(0, 0), (340, 0), (340, 240), (0, 240)])
        .partition("along", (0, 42), (298, 42))
        .partition("up", (298, 42), (298, 240))
        .partition("between", (150, 42), (150, 240))
        .room("hall", Hall, (60, 20))
        .room("bath", Bath, (70, 140))
        .room("bedroom", Bedroom, (220, 140))
        // The bath's door x 100 to 132, the bedroom's y 182 to 214 in the wall along the upright of the L.
        .door("bath-door", "along", 100)
        .door("bedroom-door", "up", 140)
}

/// The bath's door stands in the hall's face y 40, from x 100 to 132.
#[test]
fn three_feet_from_a_bath_door() {
    let short = Point::new(Length::inches(168) - Length::from_steps(1), Length::inches(40));
    let at = |at: Point| bath_door(&derived(&l_hall(0.0).detector("alarm", Photoelectric, at).plan()), "alarm");
    let exactly = at(Point::inches(168, 40));
    assert_eq!(told(exactly.straight.as_ref()), Some(("bath-door", Length::inches(36))), "on the face, in the hall");
    assert_eq!(exactly.in_the_open, exactly.straight);
    assert_eq!(at(short).straight.expect("a door").distance.value, Length::inches(36) - Length::from_steps(1));
    // Not along the wall: 27 across and 36 down would be 45; here 30 across and 16 down, 34.
    assert_eq!(told(at(Point::inches(162, 24)).straight.as_ref()), Some(("bath-door", Length::inches(34))));
    let opposite = at(Point::inches(116, 4));
    assert_eq!(told(opposite.straight.as_ref()), Some(("bath-door", Length::inches(36))), "square to the door");
    let Some(AlarmDistance { span, .. }) = opposite.straight else { panic!("a door") };
    assert_eq!(span, [Point::inches(116, 4), Point::inches(116, 40)]);
    // Around the corner of the L the line is straight all the same: 180 across and 108 up from the door's end, through the
    // bedroom.
    let around = at(Point::inches(312, 152)).straight.expect("a door");
    assert!(is_root_of(around.distance.value, 180 * 180 + 108 * 108));
}

#[test]
fn distances_off_the_axes_carry_the_slack() {
    for degrees in [17.0, 122.5] {
        let home = derived(&l_hall(degrees).detector("alarm", Photoelectric, Point::inches(162, 24)).plan());
        let found = bath_door(&home, "alarm").in_the_open.expect("a door of the hall");
        assert_eq!(found.distance.slack, OFF_AXIS_SLACK);
        assert!((found.distance.value - Length::inches(34)).abs() <= OFF_AXIS_SLACK, "{:?}", found.distance.value);
    }
}

#[test]
fn what_a_wall_or_a_door_parts_is_told_apart_from_what_is_in_the_open() {
    // In the bedroom, 2 in from the bath's wall: the hall's bath door is near, but there is a wall between.
    let home = derived(&l_hall(0.0).detector("alarm", Photoelectric, Point::inches(154, 45)).plan());
    let found = bath_door(&home, "alarm");
    assert_eq!(told(found.straight.as_ref()).map(|(id, _)| id), Some("bath-door"));
    assert!(is_root_of(found.straight.expect("a door").distance.value, 22 * 22 + 1));
    assert_eq!(found.in_the_open, None);
    // In a wall, it is in no room.
    let home = derived(&l_hall(0.0).detector("alarm", Photoelectric, Point::inches(168, 42)).plan());
    assert_eq!(home.alarms().detectors[0].room, None);
    assert_eq!(bath_door(&home, "alarm").in_the_open, None);
    assert_eq!(bath_door(&home, "alarm").straight.expect("a door").distance.value, Length::inches(36));
}

#[test]
fn doors_within_a_bath_are_no_bath_doors_but_an_open_boundary_is() {
    // A closet and a toilet room behind the bath, and a bath that lies open to a bedroom.
    let plan = Sketch::new()
        .outside(&[(0, 0), (300, 0), (300, 200), (0, 200)])
        .partition("wall", (100, 0), (100, 200))
        .partition("closets", (0, 100), (100, 100))
        .partition("closet-divider", (50, 100), (50, 200))
        .boundary("line", (200, 0), (200, 200))
        .room("bath", Bath, (20, 20))
        .room("closet", Closet, (20, 150))
        .room("toilet", Toilet, (80, 150))
        .room("bedroom", Bedroom, (150, 100))
        .room("open-bath", Bath, (250, 100))
        .door("closet-door", "closets", 8)
        .door("toilet-door", "closets", 60)
        .door("bath-door", "wall", 20)
        .door("outer", "outside-1", 40)
        .detector("in-bath", Photoelectric, Point::inches(40, 90))
        .detector("in-bedroom", Photoelectric, Point::inches(164, 160))
        .detector("at-outer", Photoelectric, Point::inches(290, 60))
        .plan();
    let home = derived(&plan);
    // The door x 98 to 102, y 20 to 52: from (40, 90), 58 across and 38 down.
    let found = bath_door(&home, "in-bath").straight.expect("the bath's own door");
    assert_eq!(found.to.as_str(), "bath-door");
    assert!(is_root_of(found.distance.value, 58 * 58 + 38 * 38));
    assert_eq!(told(bath_door(&home, "in-bedroom").straight.as_ref()), Some(("line", Length::inches(36))));
    assert_eq!(told(bath_door(&home, "at-outer").in_the_open.as_ref()), Some(("line", Length::inches(90))));
}

/// A range 30 x 26 in with its back to the left wall: x 0 to 26, y 85 to 115. The kitchen lies open to dining through a
/// cased opening; the bedroom is behind a wall and a door.
fn kitchen() -> Sketch {
    Sketch::new()
        .outside(&[(0, 0), (400, 0), (400, 200), (0, 200)])
        .partition("cased-wall", (150, 0), (150, 200))
        .partition("bedroom-wall", (280, 0), (280, 200))
        .room("kitchen", Kitchen, (100, 50))
        .room("dining", Dining, (200, 50))
        .room("bedroom", Bedroom, (350, 50))
        .cased_opening("opening", "cased-wall", 60, [72, 80])
        .door("bedroom-door", "bedroom-wall", 60)
        .fixture("range", FixtureKind::Range, (0, 100), Facing::RIGHT, None)
}

#[test]
fn distances_from_a_range_are_taken_from_its_nearest_point() {
    let plan = kitchen()
        .detector("front", Photoelectric, Point::inches(98, 100))
        .detector("corner", Ionization, Point::inches(80, 157))
        .detector("dining", Ionization, Point::inches(266, 100))
        .detector("bedroom", Photoelectric, Point::inches(290, 115))
        .detector("above", Photoelectric, Point::inches(13, 100))
        .plan();
    let home = derived(&plan);
    let straight = |detector: &str| cooking(&home, detector).straight.expect("a range").distance.value;
    assert_eq!(straight("front"), Length::inches(72), "6 ft: photoelectric");
    assert!(is_root_of(straight("corner"), 54 * 54 + 42 * 42));
    assert_eq!(straight("dining"), Length::inches(240), "20 ft: ionization, through the cased opening");
    assert!(cooking(&home, "dining").in_the_open.is_some());
    assert_eq!(straight("bedroom"), Length::inches(264));
    assert_eq!(cooking(&home, "bedroom").in_the_open, None, "behind a door");
    assert_eq!(straight("above"), Length::ZERO);
    assert_eq!(bath_door(&home, "above"), Nearest::default(), "there is no bath");
}

#[test]
fn of_many_ranges_the_nearest_is_found_wherever_it_is() {
    // More than are looked through one by one; the nearest to the alarm is in a corner of what is looked at first.
    let mut sketch = kitchen().detector("alarm", Photoelectric, Point::inches(300, 100));
    for index in 0..200 {
        let at = (5_000 + 40 * index, 5_000);
        sketch = sketch.fixture(&format!("range-{index}"), FixtureKind::Range, at, Facing::UP, None);
    }
    let plan = sketch.plan();
    let home = derive(&plan.home(&Selection::default()));
    assert_eq!(told(cooking(&home, "alarm").straight.as_ref()), Some(("range", Length::inches(274))));
    let mut far = plan;
    far.base.fixtures.retain(|fixture| fixture.id.as_str() != "range");
    let home = derive(&far.home(&Selection::default()));
    // The first of the row: x 4,985 to 5,015, y 5,000 to 5,026.
    let found = cooking(&home, "alarm").straight.expect("a range");
    assert_eq!(found.to.as_str(), "range-0");
    assert!(is_root_of(found.distance.value, 4685 * 4685 + 4900 * 4900));
}

/// W47: three bedrooms, two sleeping areas: five smoke alarms, and two for carbon monoxide outside the areas. Walls as in
/// `room_graph.rs`: the owner's door y 100 to 132 in x 158 to 162, doors 2 and 3 in x 478 to 482.
#[test]
fn w47_alarms_outside_each_sleeping_area() {
    let plan = Sketch::new()
        .outside(&[(0, 0), (600, 0), (600, 240), (0, 240)])
        .partition("owner-wall", (160, 0), (160, 240))
        .partition("wing-wall", (400, 0), (400, 240))
        .partition("between", (480, 120), (600, 120))
        .partition("hall-wall", (480, 0), (480, 240))
        .room("owner", Bedroom, (80, 120))
        .room("living", Living, (280, 120))
        .room("hall", Hall, (440, 120))
        .room("bedroom-2", Bedroom, (540, 60))
        .room("bedroom-3", Bedroom, (540, 180))
        .door("owner-door", "owner-wall", 100)
        .door("hall-door", "wing-wall", 100)
        .door("door-2", "hall-wall", 40)
        .door("door-3", "hall-wall", 160)
        .detector("in-owner", Photoelectric, Point::inches(80, 60))
        .detector("in-2", Photoelectric, Point::inches(540, 100))
        .detector("in-3", Photoelectric, Point::inches(540, 140))
        .detector("living", Photoelectric, Point::inches(192, 116))
        .detector("living-far", CarbonMonoxide, Point::inches(222, 212))
        .detector("hall", Combined, Point::inches(446, 120))
        .plan();
    let home = derived(&plan);
    let graph = home.room_graph();
    let smoke = home.alarms().detectors.iter().filter(|detector| senses_smoke(detector.kind)).count();
    let bedrooms: usize = graph.sleeping_areas().iter().map(|area| area.bedrooms.len()).sum();
    assert_eq!((smoke, bedrooms + graph.sleeping_areas().len()), (5, 5));
    let carbon = home.alarms().detectors.iter().filter(|detector| senses_carbon_monoxide(detector.kind)).count();
    assert_eq!((carbon, graph.sleeping_areas().len()), (2, 2));
    let outside = &home.alarms().outside_bedrooms;
    let doorways: Vec<(usize, &str, &str)> =
        outside.iter().map(|outside| (outside.area, outside.doorway.as_str(), outside.room.as_str())).collect();
    assert_eq!(doorways, [(0, "owner-door", "living"), (1, "door-2", "hall"), (1, "door-3", "hall")]);
    let near = |index: usize| {
        let alarm = |distance: &Option<AlarmDistance>| {
            distance.as_ref().map(|found| (found.detector.to_string(), found.distance.value))
        };
        (alarm(&outside[index].smoke), alarm(&outside[index].carbon_monoxide))
    };
    // The carbon monoxide alarm: 60 across and 80 up from the door's end, 100.
    let owner = (Some(("living".to_owned(), Length::inches(30))), Some(("living-far".to_owned(), Length::inches(100))));
    assert_eq!(near(0), owner);
    // 32 across and 48 down from door 2, 40 up from door 3.
    let (hall_2, hall_3) = (near(1).0.expect("an alarm"), near(2).0.expect("an alarm"));
    assert!(is_root_of(hall_2.1, 32 * 32 + 48 * 48) && is_root_of(hall_3.1, 32 * 32 + 40 * 40));
    assert_eq!(near(1).1, Some(hall_2), "a combined alarm senses both");
    let in_owner: Vec<&str> = home.alarms().in_room(&"owner".into()).map(|found| found.id.as_str()).collect();
    assert_eq!(in_owner, ["in-owner"], "an alarm in the bedroom is not outside of it");
    // Without the hall's alarm there is none outside bedrooms 2 and 3: the living room's is behind a door.
    let mut without = plan;
    without.base.detectors.retain(|detector| detector.id.as_str() != "hall");
    let home = derived(&without);
    assert!(home.alarms().outside_bedrooms[1..].iter().all(|outside| outside.smoke.is_none()));
}

#[test]
fn a_door_through_the_mate_line_is_measured_from_the_nearer_face() {
    for degrees in [0.0, 8.0] {
        let plan = Sketch::at_angle(degrees)
            .outside(&[(0, 0), (240, 0), (240, 248), (0, 248)])
            .mate_walls("mate", (0, 124), (240, 124))
            .room("hall", Hall, (100, 60))
            .room("bath", Bath, (100, 200))
            .door("bath-door", "mate", 100)
            .detector("hall-side", Photoelectric, Point::inches(116, 84))
            .detector("bath-side", Photoelectric, Point::inches(116, 164))
            .plan();
        let home = derived(&plan);
        for detector in ["hall-side", "bath-side"] {
            // The walls take y 120 to 128: 36 in from either face.
            let distance = bath_door(&home, detector).in_the_open.expect("the door").distance;
            assert!((distance.value - Length::inches(36)).abs() <= distance.slack, "{detector} at {degrees}");
        }
    }
}

#[test]
fn fuel_and_attached_garages_call_for_carbon_monoxide_alarms() {
    let plan = Sketch::new()
        .outside(&[(0, 0), (400, 0), (400, 200), (0, 200)])
        .partition("wall", (150, 0), (150, 200))
        .partition("garage-wall", (280, 0), (280, 200))
        .room("bedroom", Bedroom, (75, 50))
        .room("living", Living, (200, 50))
        .room("garage", Garage, (350, 50))
        .door("bedroom-door", "wall", 60)
        .door("garage-door", "garage-wall", 60)
        .door("overhead", "outside-1", 60)
        .fixture("fireplace", FixtureKind::Fireplace, (215, 200), Facing::DOWN, Some(Fuel::Gas))
        .fixture("electric", FixtureKind::WaterHeater, (75, 200), Facing::DOWN, None)
        .fixture("boiler", FixtureKind::Furnace, (350, 200), Facing::DOWN, Some(Fuel::Oil))
        .plan();
    let home = derived(&plan);
    let burning: Vec<(&str, Fuel, Option<&str>)> = home
        .alarms()
        .fuel_appliances
        .iter()
        .map(|appliance| (appliance.id.as_str(), appliance.fuel, appliance.room.as_ref().map(Id::as_str)))
        .collect();
    assert_eq!(burning, [("fireplace", Fuel::Gas, Some("living")), ("boiler", Fuel::Oil, Some("garage"))]);
    let garages = &home.alarms().attached_garages;
    assert_eq!(garages.len(), 1);
    assert_eq!(garages[0].openings.iter().map(Id::as_str).collect::<Vec<_>>(), ["garage-door"]);
    // With a door to outdoors only, it is no part of the house.
    let mut apart = plan;
    apart.base.doors.retain(|door| door.id.as_str() != "garage-door");
    assert_eq!(derived(&apart).alarms().attached_garages, []);
}

/// By hand from the drawing. The owner's door takes x 174.5 to 179, y 175 to 207; the great room's alarm stands at (236, 140)
/// in living, which lies open to the kitchen. Doors 2 and 3 take y 116.5 to 121, x 436 to 468 and 585 to 617; the hall's
/// alarm stands at (556, 141). The owner's bath door takes x 74 to 104, y 161 to 169, the hall bath's x 436 to 468. The range
/// takes x 179 to 205, y 228 to 258.
#[test]
fn alarms_of_the_demo_home() {
    let plan = file::read(DUNLIN).unwrap_or_else(|error| panic!("{error}"));
    let home = derive(&plan.home(&Selection::included(&plan)));
    let alarms = home.alarms();
    let rooms: Vec<&str> = alarms.detectors.iter().filter_map(|found| found.room.as_ref()).map(Id::as_str).collect();
    assert_eq!(rooms, ["owner-bedroom", "living", "hall", "bedroom-2", "bedroom-3"]);
    for (index, alarm, square) in [
        (0, "great-room-alarm", 57 * 57 + 35 * 35),
        (1, "hall-alarm", 88 * 88 + 20 * 20),
        (2, "hall-alarm", 29 * 29 + 20 * 20),
    ] {
        let outside = &alarms.outside_bedrooms[index];
        let found = outside.smoke.as_ref().expect("an alarm");
        assert_eq!(found.detector.as_str(), alarm, "{}", outside.doorway);
        assert!(is_root_of(found.distance.value, square), "{}", outside.doorway);
        assert_eq!(outside.carbon_monoxide, outside.smoke, "both alarms are combined");
    }
    let great = bath_door(&home, "great-room-alarm");
    let (straight, open) = (great.straight.expect("a door"), great.in_the_open.expect("a door"));
    assert_eq!((straight.to.as_str(), open.to.as_str()), ("owner-bath-door", "hall-bath-door"));
    assert!(is_root_of(straight.distance.value, 132 * 132 + 21 * 21));
    assert!(is_root_of(open.distance.value, 200 * 200 + 21 * 21));
    let range = cooking(&home, "great-room-alarm").in_the_open.expect("the range");
    assert!(is_root_of(range.distance.value, 31 * 31 + 88 * 88));
    let behind = cooking(&home, "owner-bedroom-alarm");
    assert!(is_root_of(behind.straight.expect("the range").distance.value, 89 * 89 + 42 * 42));
    assert_eq!(behind.in_the_open, None);
    assert!(alarms.fuel_appliances.is_empty() && alarms.attached_garages.is_empty());
    let measures = home.measures();
    let count = |name| measures.iter().filter(|measure| measure.name == name).count();
    assert_eq!(count(MeasureName::AlarmToBathDoor), 6, "five nearest, and one in the open that is another");
    assert_eq!((count(MeasureName::AlarmToCooking), count(MeasureName::BedroomDoorToSmokeAlarm)), (5, 3));
    let any = measures.iter().find(|measure| measure.name == MeasureName::AlarmToCooking).expect("told");
    assert!(matches!(any.amount, Amount::Length(_)) && any.marks.len() == 1);
}
