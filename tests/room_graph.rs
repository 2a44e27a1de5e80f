//! Which rooms lead into which, ways in, private baths and sleeping areas.
//!
//! Source of what is asked: IRC R311.1 (the way out not through a garage), R302.5.1, R314.3 (separate sleeping areas);
//! IPMC 404.4.2 and 404.4.3 (bedrooms and toilets not through other bedrooms).

use plan_geometry::{Amount, ConnectionKind, Derived, Measure, MeasureName, Node, derive, derive_after};
use plan_model::elements::RoomUse::{Bath, Bedroom, Closet, Dining, Garage, Hall, Kitchen, Laundry, Living, Study};
use plan_model::elements::{OpenBoundary, Room, RoomUse};
use plan_model::{AlternateRef, Id, Length, Plan, Point, Selection, file};
use plan_testkit::{Sketch, Transform, room_with_outline, turned};

const DUNLIN: &str = include_str!("../sample-plans/dunlin-58.json");

fn derived(plan: &Plan) -> Derived {
    let derived = derive(&plan.home(&Selection::default()));
    assert_eq!(derived.problems, [], "the home is drawn without a fault");
    derived
}

fn names(ids: &[Id]) -> Vec<&str> {
    ids.iter().map(Id::as_str).collect()
}

fn areas(derived: &Derived) -> Vec<(Vec<&str>, Vec<&str>)> {
    derived.room_graph().sleeping_areas().iter().map(|area| (names(&area.bedrooms), names(&area.rooms))).collect()
}

fn route(derived: &Derived, room: &str, avoided: &[RoomUse]) -> Option<(Vec<String>, Vec<String>)> {
    let route = derived.room_graph().reached_from_outdoors_avoiding(&room.into(), |usage| avoided.contains(&usage))?;
    let owned = |ids: &[Id]| ids.iter().map(ToString::to_string).collect();
    Some((owned(&route.rooms), owned(&route.through)))
}

fn way(rooms: &[&str], through: &[&str]) -> Option<(Vec<String>, Vec<String>)> {
    let owned = |ids: &[&str]| ids.iter().map(ToString::to_string).collect();
    Some((owned(rooms), owned(through)))
}

/// Three bays of 160 x 240 in. Left: bedroom A in front, its bath behind. Middle: the hall. Right: the garage in front,
/// bedroom B behind. The walls between front and back meet those of the hall as a T.
fn two_bedrooms(degrees: f64) -> Sketch {
    Sketch::at_angle(degrees)
        .outside(&[(0, 0), (480, 0), (480, 240), (0, 240)])
        .partition("left", (160, 0), (160, 240))
        .partition("right", (320, 0), (320, 240))
        .partition("bath-wall", (0, 120), (160, 120))
        .partition("garage-wall", (320, 120), (480, 120))
        .room("bedroom-a", Bedroom, (80, 60))
        .room("bath", Bath, (80, 180))
        .room("hall", Hall, (240, 120))
        .room("garage", Garage, (400, 60))
        .room("bedroom-b", Bedroom, (400, 180))
        .door("a-door", "left", 40)
        .door("bath-door", "bath-wall", 40)
        .door("b-door", "right", 160)
        .door("garage-hall-door", "right", 40)
        .door("garage-door", "outside-0", 380)
}

#[test]
fn a_way_passes_the_fewest_doorways_and_none_of_the_rooms_to_be_avoided() {
    for degrees in [0.0, 17.0] {
        let plan = two_bedrooms(degrees).door("front-door", "outside-0", 220).plan();
        let home = derived(&plan);
        assert_eq!(route(&home, "bedroom-a", &[]), way(&["hall", "bedroom-a"], &["front-door", "a-door"]));
        assert_eq!(route(&home, "bedroom-a", &[Hall]), None);
        assert_eq!(route(&home, "bath", &[Bedroom]), None, "the bath is reached through bedroom A only");
        assert_eq!(route(&home, "garage", &[Garage]), way(&["garage"], &["garage-door"]), "it may be one itself");
        let across = home.room_graph().reached_avoiding(&"bedroom-b".into(), &"bath".into(), |_| false).expect("a way");
        assert_eq!(names(&across.rooms), ["hall", "bedroom-a", "bath"]);
        assert_eq!(names(&across.through), ["b-door", "a-door", "bath-door"]);
        let past_bedrooms = |usage| usage == Bedroom;
        assert_eq!(home.room_graph().reached_avoiding(&"bedroom-b".into(), &"bath".into(), past_bedrooms), None);

        // Without the front door every way leads through the garage.
        let home = derived(&two_bedrooms(degrees).plan());
        let through = ["garage-door", "garage-hall-door", "b-door"];
        assert_eq!(route(&home, "bedroom-b", &[Bedroom]), way(&["garage", "hall", "bedroom-b"], &through));
        assert_eq!(route(&home, "bedroom-b", &[Garage]), None);
        assert_eq!(route(&home, "nowhere", &[]), None);
    }
}

#[test]
fn a_room_is_entered_from_what_lies_beyond_its_doorways() {
    let home = derived(&two_bedrooms(0.0).door("front-door", "outside-0", 220).plan());
    let hall: Vec<(&str, Option<&str>)> = home
        .room_graph()
        .entered_from(&"hall".into())
        .map(|(connection, beyond)| {
            let room = match beyond {
                Node::Room(room) => Some(room.as_str()),
                Node::Outdoors => None,
            };
            (connection.id.as_str(), room)
        })
        .collect();
    let expected = [
        ("a-door", Some("bedroom-a")),
        ("b-door", Some("bedroom-b")),
        ("garage-hall-door", Some("garage")),
        ("front-door", None),
    ];
    assert_eq!(hall, expected);
    assert_eq!(home.room_graph().entered_from(&"nowhere".into()).count(), 0);
}

#[test]
fn a_bath_is_private_if_all_ways_out_of_it_lead_into_one_bedroom() {
    let private = |plan: Plan| derived(&plan).room_graph().private_to(&"bath".into()).map(ToString::to_string);
    let bedroom_a = Some("bedroom-a".to_owned());
    assert_eq!(private(two_bedrooms(0.0).plan()), bedroom_a);
    assert_eq!(private(two_bedrooms(0.0).door("hall-bath-door", "left", 180).plan()), None, "from the hall as well");
    assert_eq!(private(two_bedrooms(0.0).door("outer", "outside-2", 400).plan()), None, "to outdoors");
    assert_eq!(private(two_bedrooms(0.0).with(|plan| plan.base.doors.clear()).plan()), None, "no door at all");

    // A closet behind the bath, in the corner: an L of a bath around it.
    let closet = |sketch: Sketch| {
        let walls =
            sketch.partition("closet-side", (50, 180), (50, 240)).partition("closet-front", (0, 180), (50, 180));
        walls.room("closet", Closet, (25, 210)).door("closet-door", "closet-front", 10)
    };
    assert_eq!(private(closet(two_bedrooms(0.0)).plan()), bedroom_a, "a closet is no way out");
    assert_eq!(private(closet(two_bedrooms(0.0)).door("out", "outside-2", 440).plan()), None, "unless it has one");
}

/// The ends of a line, and the rooms that it joins.
type Line = ([(i64, i64); 2], &'static [[&'static str; 2]]);

/// The published house whose rooms meet along lines of no thickness (see `long_residence.rs`), in ft. Along most of the
/// lines lie more than two rooms, and where three of them meet, lines form a T.
#[test]
fn an_open_boundary_joins_every_two_rooms_that_share_a_stretch_of_it() {
    const ROOMS: [(&str, RoomUse, (i64, i64)); 11] = [
        ("laundry", Laundry, (3, 24)),
        ("kitchen", Kitchen, (10, 24)),
        ("bath-1", Bath, (20, 24)),
        ("bedroom-3", Bedroom, (30, 24)),
        ("bedroom-2", Bedroom, (40, 24)),
        ("dining", Dining, (3, 9)),
        ("living", Living, (15, 7)),
        ("hall-1", Hall, (32, 7)),
        ("hall-2", Hall, (20, 16)),
        ("bedroom-1", Bedroom, (45, 7)),
        ("bath-2", Bath, (48, 17)),
    ];
    /// Each line with the pairs that lie along it, read off the coordinates.
    const LINES: [Line; 10] = [
        (
            [(0, 18), (37, 18)],
            &[["laundry", "dining"], ["kitchen", "hall-2"], ["bath-1", "hall-2"], ["bedroom-3", "hall-2"]],
        ),
        ([(37, 19), (51, 19)], &[["bedroom-2", "hall-2"], ["bedroom-2", "bath-2"]]),
        (
            [(7, 14), (51, 14)],
            &[["living", "hall-2"], ["hall-1", "hall-2"], ["hall-2", "bedroom-1"], ["bedroom-1", "bath-2"]],
        ),
        ([(7, 0), (7, 29)], &[["laundry", "kitchen"], ["dining", "living"], ["dining", "hall-2"]]),
        ([(18, 18), (18, 29)], &[["kitchen", "bath-1"]]),
        ([(27, 18), (27, 29)], &[["bath-1", "bedroom-3"]]),
        ([(37, 18), (37, 29)], &[["bedroom-3", "bedroom-2"], ["bedroom-3", "hall-2"]]),
        ([(28, 0), (28, 14)], &[["living", "hall-1"]]),
        ([(36, 0), (36, 14)], &[["hall-1", "bedroom-1"]]),
        ([(46, 14), (46, 19)], &[["hall-2", "bath-2"]]),
    ];
    for degrees in [0.0, 31.0] {
        let place = |(x, y): (i64, i64)| {
            let at = Point::inches(12 * x, 12 * y);
            if degrees == 0.0 { at } else { turned(&[at], degrees)[0] }
        };
        let outline = [(0, 0), (51, 0), (51, 29), (0, 29)].map(place);
        let mut plan = room_with_outline(&outline, Length::inches(6), Living, place((1, 1)));
        let room = |(id, usage, at): &(&str, RoomUse, (i64, i64))| Room {
            id: (*id).into(),
            name: (*id).into(),
            usage: *usage,
            at: place(*at),
        };
        plan.base.rooms = ROOMS.iter().map(room).collect();
        let line = |(index, ([from, to], _)): (usize, &Line)| OpenBoundary {
            id: format!("line-{index}").into(),
            from: place(*from),
            to: place(*to),
        };
        plan.base.open_boundaries = LINES.iter().enumerate().map(line).collect();
        let derived = derive(&plan.home(&Selection::default()));
        if degrees == 0.0 {
            assert_eq!(derived.problems, []);
        }
        assert_eq!(derived.rooms.len(), ROOMS.len(), "at {degrees} degrees");
        let mut told: Vec<(String, Vec<String>)> = Vec::new();
        for connection in derived.room_graph().connections() {
            assert_eq!(connection.kind, ConnectionKind::OpenBoundary);
            let ends = connection.between.iter().map(|node| match node {
                Node::Room(room) => room.to_string(),
                Node::Outdoors => "outdoors".to_owned(),
            });
            told.push((connection.id.to_string(), ends.collect()));
        }
        let expected = LINES.iter().enumerate().flat_map(|(index, (_, pairs))| {
            pairs.iter().map(move |pair| (format!("line-{index}"), pair.map(str::to_owned).to_vec()))
        });
        assert_eq!(told, expected.collect::<Vec<_>>(), "at {degrees} degrees");
    }
}

/// W47: three bedrooms, two sleeping areas, one storey: five smoke alarms, and two for carbon monoxide if called for.
fn w47(degrees: f64) -> Sketch {
    Sketch::at_angle(degrees)
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
        .door("front-door", "outside-0", 220)
        .door("owner-door", "owner-wall", 100)
        .door("hall-door", "wing-wall", 100)
        .door("door-2", "hall-wall", 40)
        .door("door-3", "hall-wall", 160)
}

#[test]
fn w47_three_bedrooms_two_sleeping_areas() {
    for degrees in [0.0, 17.0] {
        let home = derived(&w47(degrees).plan());
        let areas = areas(&home);
        assert_eq!(areas, [(vec!["owner"], vec!["living"]), (vec!["bedroom-2", "bedroom-3"], vec!["hall"])]);
        let bedrooms: usize = areas.iter().map(|(bedrooms, _)| bedrooms.len()).sum();
        assert_eq!(bedrooms + areas.len(), 5, "smoke alarms of one storey: bedrooms and sleeping areas");
    }
}

/// Five rooms in a row, a door between every two: bedroom, living, bedroom, hall, bedroom.
#[test]
fn a_bedroom_that_opens_into_two_rooms_makes_their_bedrooms_one_area() {
    let mut row = Sketch::new().outside(&[(0, 0), (500, 0), (500, 120), (0, 120)]);
    let rooms = [("left", Bedroom), ("living", Living), ("middle", Bedroom), ("hall", Hall), ("right", Bedroom)];
    for (at, (id, usage)) in (0..).zip(rooms) {
        row = row.room(id, usage, (100 * at + 50, 60));
        if at > 0 {
            let wall = format!("wall-{at}");
            row = row.partition(&wall, (100 * at, 0), (100 * at, 120)).door(&format!("door-{at}"), &wall, 40);
        }
    }
    let all = vec!["left", "middle", "right"];
    assert_eq!(areas(&derived(&row.clone().plan())), [(all, vec!["living", "hall"])]);
    let parted = row.clone().with(|plan| plan.base.doors.retain(|door| door.id.as_str() != "door-2"));
    let expected = [(vec!["left"], vec!["living"]), (vec!["middle", "right"], vec!["hall"])];
    assert_eq!(areas(&derived(&parted.plan())), expected);
    // Two bedrooms with a door between them are one area, into whatever the first of them opens.
    let chained = row.with(|plan| plan.base.rooms[3].usage = Bedroom);
    let all = vec!["left", "middle", "hall", "right"];
    assert_eq!(areas(&derived(&chained.plan())), [(all, vec!["living"])]);
}

#[test]
fn baths_closets_and_outdoors_are_not_what_a_bedroom_opens_into() {
    // Of the sketch above: bedroom A opens into the hall and its bath, bedroom B into the hall.
    let both = [(vec!["bedroom-a", "bedroom-b"], vec!["hall"])];
    assert_eq!(areas(&derived(&two_bedrooms(0.0).plan())), both);
    let outside = two_bedrooms(0.0).door("b-outer-door", "outside-1", 180);
    assert_eq!(areas(&derived(&outside.plan())), both, "a door to outdoors changes nothing");
    // A bedroom that opens only into a bath belongs to the room beyond it.
    let through_bath = two_bedrooms(0.0).door("hall-bath-door", "left", 180);
    let through_bath = through_bath.with(|plan| plan.base.doors.retain(|door| door.id.as_str() != "a-door"));
    let home = derived(&through_bath.plan());
    assert_eq!(areas(&home), both);
    let doorways = &home.room_graph().sleeping_areas()[0].doorways;
    let told: Vec<[&str; 3]> =
        doorways.iter().map(|d| [d.bedroom.as_str(), d.doorway.as_str(), d.room.as_str()]).collect();
    assert_eq!(told, [["bedroom-a", "hall-bath-door", "hall"], ["bedroom-b", "b-door", "hall"]]);
    // One that opens only to outdoors, or into a garage, has a sleeping area of its own.
    let apart = two_bedrooms(0.0).door("b-outer-door", "outside-1", 180).door("b-garage-door", "garage-wall", 60);
    let apart = apart.with(|plan| plan.base.doors.retain(|door| door.id.as_str() != "b-door"));
    let expected = [(vec!["bedroom-a"], vec!["hall"]), (vec!["bedroom-b"], vec![])];
    assert_eq!(areas(&derived(&apart.plan())), expected);
}

#[test]
fn a_sitting_room_open_to_a_bedroom_is_what_it_opens_into() {
    let suite = Sketch::new()
        .outside(&[(0, 0), (300, 0), (300, 150), (0, 150)])
        .partition("wall", (200, 0), (200, 150))
        .boundary("line", (100, 0), (100, 150))
        .room("bedroom", Bedroom, (50, 75))
        .room("sitting", Study, (150, 75))
        .room("hall", Hall, (250, 75))
        .door("door", "wall", 60);
    assert_eq!(areas(&derived(&suite.plan())), [(vec!["bedroom"], vec!["sitting"])]);
}

fn dunlin(answers: &[&str]) -> Derived {
    let plan = file::read(DUNLIN).unwrap_or_else(|error| panic!("{error}"));
    let selection = answers.iter().fold(Selection::included(&plan), |selection, answer| {
        let answer: AlternateRef = answer.parse().unwrap_or_else(|error| panic!("{error}"));
        selection.with(&plan, &answer).unwrap_or_else(|error| panic!("{error}"))
    });
    derive(&plan.home(&selection))
}

/// By hand: the owner's bedroom opens into the kitchen (x 174.5 to 179, y 175 to 207), bedrooms 2 and 3 into the hall, and
/// so does the fourth bedroom through the mate wall.
#[test]
fn the_demo_home_has_two_sleeping_areas() {
    let owner = (vec!["owner-bedroom"], vec!["kitchen"]);
    assert_eq!(areas(&dunlin(&[])), [owner.clone(), (vec!["bedroom-2", "bedroom-3"], vec!["hall"])]);
    let four = dunlin(&["flex-room=fourth-bedroom"]);
    assert_eq!(areas(&four), [owner, (vec!["bedroom-2", "bedroom-3", "bedroom-4"], vec!["hall"])]);
}

/// By hand, through the doors of the drawing; the front door opens into living, and living, kitchen, dining and hall are
/// divided by open boundaries only. Owner's bath and closet, hall bath, utility and flex room lie behind the mate line.
#[test]
fn ways_in_the_demo_home() {
    let home = dunlin(&[]);
    let hall = ["front-door", "living-hall-line"];
    let through = |last: &[&'static str]| [&hall[..], last].concat();
    assert_eq!(route(&home, "hall", &[]), way(&["living", "hall"], &hall));
    assert_eq!(
        route(&home, "bedroom-3", &[Bedroom, Bath]),
        way(&["living", "hall", "bedroom-3"], &through(&["bedroom-3-door"]))
    );
    assert_eq!(
        route(&home, "hall-bath", &[Bedroom]),
        way(&["living", "hall", "hall-bath"], &through(&["hall-bath-door"])),
        "through the mate wall"
    );
    assert_eq!(route(&home, "study-utility", &[]), way(&["study-utility"], &["utility-back-door"]));
    let owner = ["back-hinged-door", "kitchen-dining-line", "owner-bedroom-door", "owner-bath-door"];
    assert_eq!(route(&home, "owner-bath", &[Bedroom]), None);
    // As many doorways from the front as from the back, but one line less to cross: the way through living crosses the mate
    // line straight into the kitchen.
    let way_in = route(&home, "owner-bath", &[]).expect("a way");
    assert_eq!(way_in.1.len(), owner.len());
    assert_eq!(&way_in.1[2..], &owner[2..]);
    let graph = home.room_graph();
    assert_eq!(graph.private_to(&"owner-bath".into()).map(Id::as_str), Some("owner-bedroom"));
    assert_eq!(graph.private_to(&"hall-bath".into()), None);
    let with_toilet = dunlin(&["water-closet-room=room-36x66"]);
    let toilet = with_toilet.room_graph().private_to(&"water-closet".into());
    assert_eq!(toilet.map(Id::as_str), Some("owner-bedroom"), "through the bath");
    assert!(graph.are_undivided(&"living".into(), &"hall".into()));
    assert!(!graph.are_undivided(&"living".into(), &"owner-bedroom".into()));
    let hobby = dunlin(&["flex-room=hobby-room"]);
    assert!(hobby.room_graph().are_undivided(&"hobby".into(), &"hobby-utility".into()), "by a cased opening");
}

#[test]
fn the_list_of_measures_tells_ways_private_baths_and_sleeping_areas() {
    let measures = dunlin(&[]).measures().clone();
    let of = |name: MeasureName, id: &str| -> Vec<Amount> {
        let named = measures.iter().filter(|measure| measure.name == name && measure.of[0].as_str() == id);
        named.map(|measure| measure.amount.clone()).collect()
    };
    assert_eq!(of(MeasureName::DoorwaysFromOutdoors, "living"), [Amount::Count(1)]);
    assert_eq!(of(MeasureName::DoorwaysFromOutdoors, "bedroom-3-closet"), [Amount::Count(3)]);
    assert_eq!(of(MeasureName::ReachedFromOutdoors, "mechanical"), [Amount::Possible(true)]);
    assert_eq!(of(MeasureName::PrivateToBedroom, "owner-bath"), [Amount::Possible(true)]);
    assert_eq!(of(MeasureName::PrivateToBedroom, "hall-bath"), [Amount::Possible(false)]);
    assert_eq!(of(MeasureName::BedroomsInSleepingArea, "bedroom-2"), [Amount::Count(2)]);
}

fn told(derived: &Derived) -> Vec<(MeasureName, Vec<Id>, Amount)> {
    let mine = |measure: &Measure| measure.name >= MeasureName::ReachedFromOutdoors;
    let last = MeasureName::BedroomDoorToCarbonMonoxideAlarm;
    let measures = derived.measures().iter().filter(|measure| mine(measure) && measure.name <= last);
    measures.map(|measure| (measure.name, measure.of.clone(), measure.amount.clone())).collect()
}

/// Ways, light and alarms of the same home drawn elsewhere.
#[test]
fn moved_turned_and_mirrored_homes_keep_their_ways_light_and_alarms() {
    let plan = file::read(DUNLIN).unwrap_or_else(|error| panic!("{error}"));
    for answer in ["flex-room=study", "flex-room=fourth-bedroom", "flex-room=hobby-room"] {
        let answer: AlternateRef = answer.parse().unwrap_or_else(|error| panic!("{error}"));
        let selection = Selection::included(&plan).with(&plan, &answer).unwrap_or_else(|error| panic!("{error}"));
        let here = told(&derive(&plan.home(&selection)));
        let by = Point::new(Length::from_steps(-12_345), Length::from_steps(67_891));
        for transform in [Transform::Moved(by), Transform::QuarterTurned, Transform::Mirrored] {
            let there = transform.plan(&plan);
            assert_eq!(told(&derive(&there.home(&selection))), here, "{transform:?}");
        }
    }
}

#[test]
fn derived_after_a_change_is_derived_from_nothing() {
    let plan = file::read(DUNLIN).unwrap_or_else(|error| panic!("{error}"));
    let selection = Selection::included(&plan);
    let mut derived = derive(&plan.home(&selection));
    let mut changed = plan;
    let changes: [fn(&mut Plan); 6] = [
        |plan| plan.base.walls[15].from.y += Length::INCH,
        |plan| plan.base.doors[6].at += Length::INCH,
        |plan| plan.base.rooms[7].usage = Study,
        |plan| plan.base.detectors[1].at.x += Length::INCH,
        |plan| plan.base.windows.truncate(4),
        |plan| plan.base.doors.truncate(5),
    ];
    for change in changes {
        change(&mut changed);
        let _ = derived.measures();
        let home = changed.home(&selection);
        derived = derive_after(&derived, &home);
        assert_eq!(told(&derived), told(&derive(&home)));
    }
}
