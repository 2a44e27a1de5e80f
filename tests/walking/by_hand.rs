//! Ways reckoned by hand: the sums of hypotenuses, written out beside each.

use plan_geometry::{Amount, Mark, Measure, MeasureName, Measured, OFF_AXIS_SLACK, derive};
use plan_model::elements::{Column, ColumnKind, Hinge, PlacedBy, RoomUse, Swing, Wall, WallKind};
use plan_model::{AlternateRef, Exact, ExactLength, Id, Length, Plan, Point, PublishedClear, Selection, file};
use plan_testkit::{Transform, empty_plan, hung_door, turned, with_door};

use super::{cabinet, derived, legs, named, opening, p, room, walk, wall};

const DUNLIN: &str = include_str!("../../sample-plans/dunlin-58.json");

/// An L of two legs 100 in wide: x 0 to 300 and y 0 to 300, with its corner at (100, 100). Doors at both ends, 36 in wide.
fn an_l() -> Plan {
    let mut plan = room(&[(0, 0), (300, 0), (300, 100), (100, 100), (100, 300), (0, 300)], (50, 50));
    opening(&mut plan, "right", "wall-1", Length::inches(40), Length::inches(36)); // x 300 to 304, y 40 to 76
    opening(&mut plan, "back", "wall-4", Length::inches(40), Length::inches(36)); // y 300 to 304, x 60 to 24
    plan
}

/// From the middle of one opening (302, 58) around the corner (100, 100) to the other's (42, 302).
#[test]
fn around_the_corner_of_an_l() {
    let way = walk(&an_l(), "right", "back").expect("one room");
    assert_eq!(way.path, [p(302, 58), p(100, 100), p(42, 302)]);
    assert_eq!(way.length, Measured::exact(legs(&[(302.0, 58.0), (100.0, 100.0), (42.0, 302.0)])));
}

/// The turn at (100, 100) is halved by the diagonal; 12 in along it to the outside is (100 - 8.485, 100 - 8.485). Both
/// legs are alike here: the doors are mirrored about the diagonal.
#[test]
fn twelve_inches_off_the_corner_of_an_l() {
    let mut plan = room(&[(0, 0), (300, 0), (300, 100), (100, 100), (100, 300), (0, 300)], (50, 50));
    opening(&mut plan, "right", "wall-1", Length::inches(40), Length::inches(36)); // middle (302, 58)
    opening(&mut plan, "back", "wall-4", Length::inches(24), Length::inches(36)); // x 76 to 40, middle (58, 302)
    let way = walk(&plan, "right", "back").expect("one room");
    let off = 100.0 - 12.0 / 2.0_f64.sqrt();
    let expected = legs(&[(302.0, 58.0), (off, off), (58.0, 302.0)]);
    let found = way.off_corners(Length::inches(12)).length.value;
    assert!((found - expected).abs() <= Length::from_steps(2), "the point lies on the grid to within a step");
    assert_eq!(way.off_corners(Length::ZERO), way);
    assert!(found > way.length.value);
}

/// A T: a bar x 0 to 300, y 200 to 300, on a stem x 100 to 200, y 0 to 200. From the foot of the stem around the corner
/// (100, 200) to the left end of the bar, and straight along the bar.
#[test]
fn in_a_t() {
    let outline = [(100, 0), (200, 0), (200, 200), (300, 200), (300, 300), (0, 300), (0, 200), (100, 200)];
    let mut plan = room(&outline, (150, 250));
    opening(&mut plan, "foot", "wall-0", Length::inches(32), Length::inches(36)); // middle (150, -2)
    opening(&mut plan, "right", "wall-3", Length::inches(32), Length::inches(36)); // middle (302, 250)
    opening(&mut plan, "left", "wall-5", Length::inches(32), Length::inches(36)); // middle (-2, 250)
    let figures = derived(&plan);
    let way = figures.walk(&"foot".into(), &"left".into()).expect("one room");
    assert_eq!(way.path, [p(150, -2), p(100, 200), p(-2, 250)]);
    // 50 and 202, then 102 and 50.
    assert_eq!(way.length.value, legs(&[(150.0, -2.0), (100.0, 200.0), (-2.0, 250.0)]));
    let straight = figures.walk(&"left".into(), &"right".into()).expect("one room");
    assert_eq!((straight.length, straight.path.len()), (Measured::exact(Length::inches(304)), 2));
}

/// The same T turned by angles that lie on no axis has the same ways, to within what its corners are rounded by.
#[test]
fn at_any_angle() {
    let outline = [(100, 0), (200, 0), (200, 200), (300, 200), (300, 300), (0, 300), (0, 200), (100, 200)];
    let square: Vec<Point> = outline.iter().map(|(x, y)| p(*x, *y)).collect();
    for degrees in [7.0, 30.0, 45.0, 101.3, 200.0, 333.0] {
        let anchor = turned(&[p(150, 250)], degrees)[0];
        let mut plan =
            plan_testkit::room_with_outline(&turned(&square, degrees), Length::inches(4), RoomUse::Living, anchor);
        opening(&mut plan, "foot", "wall-0", Length::inches(32), Length::inches(36));
        opening(&mut plan, "left", "wall-5", Length::inches(32), Length::inches(36));
        let way = walk(&plan, "foot", "left").expect("one room");
        assert_eq!((way.path.len(), way.length.slack), (3, OFF_AXIS_SLACK * 4), "{degrees}: two legs");
        let expected = legs(&[(150.0, -2.0), (100.0, 200.0), (-2.0, 250.0)]);
        // Two legs, each between two places that are rounded.
        assert!((way.length.value - expected).abs() <= way.length.slack, "{degrees}");
    }
}

/// Rooms 200 x 150 in on both sides of a mate line, each module with its own wall, 4 in thick: an opening through both is one
/// door. Its middle is on the mate line, and a way along the wall turns around all four jambs.
fn across_the_mate_line() -> Plan {
    let mut plan = empty_plan();
    let mut module = |name: &str, corners: [(i64, i64); 4]| {
        for (at, (from, to)) in corners.iter().zip(corners.iter().cycle().skip(1)).enumerate() {
            plan.base.walls.push(Wall {
                id: format!("{name}-{at}").into(),
                kind: WallKind::Exterior,
                from: p(from.0, from.1),
                to: p(to.0, to.1),
                thickness: Length::inches(4),
                placed_by: PlacedBy::LeftFace,
                movable: false,
            });
        }
    };
    module("front", [(0, 0), (200, 0), (200, 150), (0, 150)]);
    module("back", [(0, 158), (200, 158), (200, 308), (0, 308)]);
    named(&mut plan, "living", RoomUse::Living, p(100, 75));
    named(&mut plan, "bedroom", RoomUse::Bedroom, p(100, 230));
    // The back module's front wall runs from x 0: the opening is at x 100 to 136, y 150 to 158.
    opening(&mut plan, "through", "back-0", Length::inches(100), Length::inches(36));
    if let Some(door) = plan.base.doors.last_mut() {
        door.through = Some("front-2".into());
    }
    opening(&mut plan, "front-door", "front-3", Length::inches(4), Length::inches(36)); // x -4 to 0, y 146 to 110
    opening(&mut plan, "back-door", "back-3", Length::inches(110), Length::inches(36)); // y 198 to 162
    plan
}

#[test]
fn through_the_mate_line() {
    let figures = derived(&across_the_mate_line());
    assert_eq!(figures.problems, []);
    let way = figures.walk(&"back-door".into(), &"front-door".into()).expect("through the mate line");
    // (-2, 180) to the jamb (100, 158), down it to (100, 150), then to (-2, 128): 102 and 22, 8, 102 and 22.
    assert_eq!(way.path, [p(-2, 180), p(100, 158), p(100, 150), p(-2, 128)]);
    assert_eq!(way.length.value, legs(&[(-2.0, 180.0), (100.0, 158.0), (100.0, 150.0), (-2.0, 128.0)]));
    let to_middle = figures.walk(&"back-door".into(), &"through".into()).expect("the middle of the opening");
    // From the jamb (100, 158) to (118, 154): 18 and 4.
    assert_eq!(to_middle.length.value, legs(&[(-2.0, 180.0), (100.0, 158.0), (118.0, 154.0)]));
}

#[test]
fn the_way_out_of_each_room() {
    let figures = derived(&across_the_mate_line());
    let told: Vec<_> = figures
        .ways_out()
        .iter()
        .map(|out| (out.room.as_str(), out.doorway.as_str(), out.exit.as_str(), out.walk.length.value))
        .collect();
    let zero = Length::ZERO;
    assert_eq!(told, [("living", "front-door", "front-door", zero), ("bedroom", "back-door", "back-door", zero)]);
    // By the other door: from the middle of the opening (118, 154) around the jamb (100, 150) to (-2, 128).
    let by_front = figures.ways_out_by(&"front-door".into());
    assert_eq!((by_front[1].room.as_str(), by_front[1].doorway.as_str()), ("bedroom", "through"));
    assert_eq!(by_front[1].walk.length.value, legs(&[(118.0, 154.0), (100.0, 150.0), (-2.0, 128.0)]));
    let [pair] = figures.exit_pairs() else { panic!("two exterior doors make one pair") };
    assert_eq!(pair.exits, ["front-door".into(), "back-door".into()]);
    assert_eq!(pair.straight, Measured::exact(Length::inches(180 - 128)), "24 CFR 3280.105: whatever the way between");
    assert_eq!(pair.walk, figures.walk(&"front-door".into(), &"back-door".into()));
}

#[test]
fn every_way_is_in_the_list_of_measures() {
    let figures = derived(&across_the_mate_line());
    let count = |name| figures.measures().iter().filter(|measure| measure.name == name).count();
    assert_eq!([MeasureName::WayOut, MeasureName::ExitSeparation, MeasureName::ExitWalk].map(count), [2, 1, 1]);
    let measures = figures.measures();
    let walk = measures.iter().find(|measure| measure.name == MeasureName::ExitWalk).expect("one pair");
    let pair = &figures.exit_pairs()[0];
    let way = pair.walk.as_ref().expect("through the mate line");
    assert_eq!((&walk.amount, &walk.marks), (&Amount::Length(way.length), &vec![Mark::Way(way.path.clone())]));
}

/// A corridor-like room 400 x 100 in, doors in the middle of both ends, (-2, 50) and (402, 50).
fn straight_room() -> Plan {
    let mut plan = room(&[(0, 0), (400, 0), (400, 100), (0, 100)], (5, 95));
    opening(&mut plan, "right", "wall-1", Length::inches(32), Length::inches(36));
    opening(&mut plan, "left", "wall-3", Length::inches(32), Length::inches(36));
    plan
}

/// An island x 150 to 250, y 20 to 60, 40 in from the back wall: around its back corners.
#[test]
fn around_an_island() {
    let mut plan = straight_room();
    cabinet(&mut plan, p(150, 20), p(250, 60));
    let way = walk(&plan, "left", "right").expect("40 in behind it");
    assert_eq!(way.path, [p(-2, 50), p(150, 60), p(250, 60), p(402, 50)]);
    assert_eq!(way.length.value, legs(&[(-2.0, 50.0), (150.0, 60.0), (250.0, 60.0), (402.0, 50.0)]));
}

/// A gap of 18 in is open, one of 17-63/64 in is closed: common practice, no source.
#[test]
fn a_gap_is_closed_under_eighteen_inches() {
    let sixty_fourth = Length::from_steps(Length::INCH.steps() / 64);
    let behind = |gap: Length| {
        let mut plan = straight_room();
        cabinet(&mut plan, p(150, 0), Point::new(Length::inches(200), Length::inches(100) - gap));
        walk(&plan, "left", "right")
    };
    let way = behind(Length::inches(18)).expect("18 in behind it");
    assert_eq!(way.length.value, legs(&[(-2.0, 50.0), (150.0, 82.0), (200.0, 82.0), (402.0, 50.0)]));
    assert_eq!(behind(Length::inches(18) - sixty_fourth), None);
    // A closed gap on one side leaves the longer way around on the other.
    let mut plan = straight_room();
    cabinet(&mut plan, p(150, 30), Point::new(Length::inches(200), Length::inches(82) + sixty_fourth));
    let way = walk(&plan, "left", "right").expect("30 in before it");
    assert_eq!(way.path, [p(-2, 50), p(150, 30), p(200, 30), p(402, 50)]);
}

/// Two cabinets whose corners are 17 in and 20 in apart on the slant: (8, 15) closes, (12, 16) does not.
#[test]
fn between_two_corners() {
    let between = |(x, y): (i64, i64)| {
        let mut plan = straight_room();
        cabinet(&mut plan, p(100, 0), p(150, 45));
        cabinet(&mut plan, p(150 + x, 45 + y), p(250, 100));
        walk(&plan, "left", "right")
    };
    assert_eq!(between((8, 15)), None, "17 in");
    let way = between((12, 16)).expect("20 in");
    // Over the corner (150, 45) and under (162, 61): (-2, 50), then (402, 50) past the other cabinet's end at (250, 61).
    assert_eq!(way.path, [p(-2, 50), p(402, 50)], "straight between them");
}

/// Along two cabinets with a closed gap of 10 in between: one walks by, and not in.
#[test]
fn past_a_closed_gap() {
    let mut plan = straight_room();
    cabinet(&mut plan, p(100, 0), p(150, 70));
    cabinet(&mut plan, p(160, 0), p(210, 70));
    let way = walk(&plan, "left", "right").expect("30 in behind them");
    assert_eq!(way.path, [p(-2, 50), p(100, 70), p(210, 70), p(402, 50)]);
}

/// A doorway narrower than a gap that is walked is closed; one just as wide is open.
#[test]
fn a_doorway_is_closed_under_eighteen_inches() {
    let sixty_fourth = Length::from_steps(Length::INCH.steps() / 64);
    let through = |width: Length| {
        let mut plan = straight_room();
        wall(&mut plan, "across", p(200, 0), p(200, 100));
        named(&mut plan, "bedroom", RoomUse::Bedroom, p(395, 95));
        opening(&mut plan, "between", "across", Length::inches(41), width);
        walk(&plan, "left", "right")
    };
    assert_eq!(through(Length::inches(18)).expect("open").length, Measured::exact(Length::inches(404)));
    assert_eq!(through(Length::inches(18) - sixty_fourth), None);
}

/// A leaf 50 in wide, hinged at (198, 25), meets the face x 158 of a chase with its free edge, 40 in out and 30 along: 3, 4, 5
/// times 10. It covers 30 in of what the maker says is clear at 90 degrees, and is a way where it leaves 18 in.
#[test]
fn a_stopped_leaf_is_no_way_under_eighteen_inches() {
    let sixty_fourth = Length::from_steps(Length::INCH.steps() / 64);
    let through = |clear: Option<Length>, chase: bool| {
        let mut plan = straight_room();
        wall(&mut plan, "across", p(200, 0), p(200, 100));
        named(&mut plan, "bedroom", RoomUse::Bedroom, p(395, 95));
        if chase {
            let (from, to) = (p(150, 50), p(158, 60));
            plan.base.columns.push(Column { id: "chase".into(), kind: ColumnKind::Chase, from, to });
        }
        let door = hung_door("between", "across", Length::inches(25), Hinge::Near, Swing::Left);
        let mut plan = with_door(plan, Length::inches(50), door);
        let unit = plan.catalogue.doors.last_mut().expect("the leaf");
        let exact = |length: Length| ExactLength::from_steps(Exact::from(i128::from(length.steps())));
        unit.clear = clear.map(|width| PublishedClear { width: exact(width), height: exact(Length::inches(79)) });
        if unit.clear.is_none() {
            plan.catalogue.deductions.clear();
        }
        let figures = derived(&plan);
        let stopped = figures.door(&"between".into()).and_then(|door| door.leaf.as_ref()?.stopped_by.clone());
        assert_eq!(stopped.is_some(), chase);
        figures.walk(&"left".into(), &"right".into())
    };
    let leaves_eighteen = Length::inches(48);
    assert!(through(Some(leaves_eighteen + sixty_fourth), true).is_some());
    assert_eq!(through(Some(leaves_eighteen - sixty_fourth), true), None);
    assert!(through(Some(leaves_eighteen - sixty_fourth), false).is_some(), "nothing stops the leaf");
    assert!(through(None, true).is_some(), "what it leaves is unknown, but not more than 50 - 30");
}

/// Cabinets on both sides of a doorway, each standing free of the wall by 6 in: the gap between their corners (190, 52) and
/// (210, 46) is wider than 18 in, the gaps between each and the jambs are not.
#[test]
fn before_a_doorway() {
    let with = |x: i64| {
        let mut plan = straight_room();
        wall(&mut plan, "across", p(200, 0), p(200, 100));
        named(&mut plan, "bedroom", RoomUse::Bedroom, p(395, 95));
        opening(&mut plan, "between", "across", Length::inches(30), Length::inches(40)); // x 198 to 202, y 30 to 70
        cabinet(&mut plan, p(100, 0), p(x, 60));
        walk(&plan, "left", "right")
    };
    // From the cabinet's corner (x, 60) to the jamb (198, 70): 17 and 10 make 19.7 in, 14 and 10 make 17.2.
    assert!(with(181).is_some());
    assert_eq!(with(184), None);
}

/// A gap through a doorway from a cabinet in one room to one in the other is a gap like any other: here 12 and 12 in, 16.97.
#[test]
fn across_a_doorway() {
    let with = |y: i64| {
        let mut plan = straight_room();
        wall(&mut plan, "across", p(200, 0), p(200, 100));
        named(&mut plan, "bedroom", RoomUse::Bedroom, p(395, 95));
        opening(&mut plan, "between", "across", Length::inches(10), Length::inches(80)); // y 10 to 90
        cabinet(&mut plan, p(100, 0), p(194, 44));
        cabinet(&mut plan, p(206, y), p(300, 100));
        walk(&plan, "left", "right")
    };
    assert_eq!(with(56), None);
    assert!(with(58).is_some(), "12 and 14 in make 18.4");
}

#[test]
fn no_way_is_none() {
    let mut plan = straight_room();
    wall(&mut plan, "across", p(200, 0), p(200, 100));
    named(&mut plan, "bedroom", RoomUse::Bedroom, p(395, 95));
    assert_eq!(walk(&plan, "left", "right"), None);
    assert_eq!(walk(&plan, "left", "no-such-door"), None);
    let figures = derived(&plan);
    assert_eq!(figures.exit_pairs()[0].straight.value, Length::inches(404), "straight, whatever stands between");
    assert_eq!(figures.exit_pairs()[0].walk, None);
    assert_eq!(figures.walk(&"left".into(), &"left".into()).map(|way| way.length.value), Some(Length::ZERO));
}

/// What the list of measures tells of rooms and pairs of doors without a way: that it is unknown, and why.
#[test]
fn a_room_without_a_way_out_is_listed_with_the_reason() {
    let listed = |plan: &Plan, name: MeasureName, of: &[&str]| {
        let measures = derived(plan).measures().clone();
        let is_it =
            |measure: &&Measure| measure.name == name && measure.of.iter().map(Id::as_str).eq(of.iter().copied());
        let [measure] = measures.iter().filter(is_it).collect::<Vec<_>>()[..] else { panic!("one {name:?} of {of:?}") };
        assert!(!measure.marks.is_empty(), "the room, or the doors, are shown");
        measure.amount.clone()
    };
    // A bedroom that nothing leads into, behind a wall of its own in the corner.
    let mut plan = straight_room();
    wall(&mut plan, "across", p(300, 0), p(300, 30));
    wall(&mut plan, "along", p(300, 30), p(400, 30));
    named(&mut plan, "bedroom", RoomUse::Bedroom, p(350, 15));
    // And a wall without a door between the two outside doors.
    wall(&mut plan, "between", p(200, 0), p(200, 100));
    named(&mut plan, "study", RoomUse::Study, p(250, 80));
    let no_way = |why: &str| Amount::Unknown(why.to_owned());
    let none = no_way("no way leads from here to an outside door");
    assert_eq!(listed(&plan, MeasureName::WayOut, &["bedroom"]), none);
    let between = listed(&plan, MeasureName::ExitWalk, &["right", "left"]);
    assert_eq!(between, no_way("no way leads indoors from the one door to the other"));
    plan.base.doors.clear();
    assert_eq!(listed(&plan, MeasureName::WayOut, &["bedroom"]), no_way("no door leads outdoors"));
}

/// The demo home, from the wall faces of its plan: the owner's bedroom door is in x 174.5 to 179, y 175 to 207, the opening
/// through the mate line between the posts begins at x 199.5, y 161 to 169, and the front door is at x 200 to 236.
#[test]
fn ways_of_the_demo_home() {
    let plan = file::read(DUNLIN).unwrap_or_else(|error| panic!("{error}"));
    let figures = derive(&plan.home(&Selection::included(&plan)));
    let out = figures.ways_out().iter().find(|out| out.room.as_str() == "owner-bedroom").expect("a way out");
    assert_eq!((out.doorway.as_str(), out.exit.as_str()), ("owner-bedroom-door", "front-door"));
    assert_eq!(out.walk.length.value, legs(&[(176.75, 191.0), (199.5, 169.0), (218.0, 3.25)]));
    // Between the centres of the front door (218, 3.25) and the back door of dining (360, 326.75): 142 and 323.5.
    let pair = figures.exit_pairs().iter().find(|pair| pair.exits[1].as_str() == "back-hinged-door");
    assert_eq!(pair.expect("a pair").straight.value, legs(&[(218.0, 3.25), (360.0, 326.75)]));
    // 35 ft for each bedroom (24 CFR 3280.105), with 1 ft off corners.
    for bedroom in ["owner-bedroom", "bedroom-2", "bedroom-3"] {
        let out = figures.ways_out().iter().find(|out| out.room.as_str() == bedroom).expect("a way out");
        assert!(out.walk.off_corners(Length::inches(12)).length.value < Length::inches(35 * 12), "{bedroom}");
    }
}

/// Every room of the demo home has a way out, whatever is chosen alone, and drawn elsewhere it is as long; but for the linen
/// closet, whose door is 16 in wide: nobody walks into that.
#[test]
fn every_room_of_the_demo_home_has_a_way_out() {
    let plan = file::read(DUNLIN).unwrap_or_else(|error| panic!("{error}"));
    let turned = Transform::QuarterTurned.plan(&plan);
    for choice in &plan.choices {
        for alternate in &choice.alternates {
            let answer = AlternateRef { choice: choice.id.clone(), alternate: alternate.id.clone() };
            let selection = Selection::included(&plan).with(&plan, &answer).unwrap_or_else(|error| panic!("{error}"));
            let lengths = |plan: &Plan| -> Vec<_> {
                let figures = derive(&plan.home(&selection));
                let rooms = figures.rooms.iter().map(|room| room.id.clone());
                let rooms: Vec<_> = rooms.filter(|room| room.as_str() != "linen").collect();
                let out: Vec<_> = figures.ways_out().iter().map(|out| out.room.clone()).collect();
                assert_eq!(out, rooms, "{answer}");
                figures.ways_out().iter().map(|out| out.walk.length).collect()
            };
            assert_eq!(lengths(&plan), lengths(&turned), "{answer}");
        }
    }
}
