//! Free space at fixtures, appliances and beds, against figures worked out by hand.
//!
//! "W" numbers are cases of the published figures for fixture spacing and showers (IRC P2705.1, P2708.1); everything
//! else is arithmetic shown beside the case.

use plan_geometry::{
    Amount, Area, Clearance, Derived, FixtureSpace, Measure, MeasureName, Met, OFF_AXIS_SLACK, derive, derive_after,
};
use plan_model::elements::{
    Door, Fixture, FixtureKind, Hinge, OpenBoundary, PlacedBy, Room, RoomUse, Swing, Wall, WallKind,
};
use plan_model::{AlternateRef, DoorOperation, DoorUnit, Facing, Length, Plan, Point, Selection, file};
use plan_testkit::{Transform, bed, cased_unit, doorway, fixture, inches, room_with_outline, turned_plan};
use proptest::prelude::*;

const DUNLIN: &str = include_str!("../sample-plans/dunlin-58.json");
const SIXTY_FOURTH: f64 = 1.0 / 64.0;

fn room(corners: &[(i64, i64)], usage: RoomUse, anchor: (i64, i64)) -> Plan {
    let outline: Vec<Point> = corners.iter().map(|(x, y)| Point::inches(*x, *y)).collect();
    room_with_outline(&outline, Length::inches(5), usage, Point::inches(anchor.0, anchor.1))
}

fn rectangle(width: i64, length: i64, usage: RoomUse) -> Plan {
    room(&[(0, 0), (width, 0), (width, length), (0, length)], usage, (width / 2, length / 2))
}

fn with(mut plan: Plan, fixtures: impl IntoIterator<Item = Fixture>) -> Plan {
    plan.base.fixtures.extend(fixtures);
    plan
}

fn toilet(at: (f64, f64), faces: Facing) -> Fixture {
    fixture(FixtureKind::Toilet, "toilet", at, faces, (20.0, 28.0))
}

fn derived(plan: &Plan) -> Derived {
    derive(&plan.home(&Selection::default()))
}

/// Of the only open space.
fn space(plan: &Plan) -> FixtureSpace {
    let derived = derived(plan);
    let mut spaces = derived.fixture_spaces();
    let space = spaces.next().expect("the room closes").clone();
    assert!(spaces.next().is_none());
    space
}

/// The figure on the axes, and the same within rounding where the plan is turned by two odd angles.
fn assert_clear(plan: &Plan, what: fn(&FixtureSpace) -> Clearance, expected: f64) {
    let exact = what(&space(plan)).clear;
    assert_eq!((exact.value, exact.slack), (inches(expected), Length::ZERO), "{} in", exact.value.to_inches());
    // cos and sin of 43.6 and 157.4 degrees: 20^2 + 21^2 = 29^2, 12^2 + 5^2 = 13^2.
    for (cos, sin) in [(20, 21), (-12, 5)] {
        let turned = what(&space(&turned_plan(plan, cos, sin))).clear;
        let off = (turned.value - inches(expected)).abs();
        assert!(off <= OFF_AXIS_SLACK, "turned by {cos}, {sin}: {} in", turned.value.to_inches());
        assert_eq!(turned.slack, OFF_AXIS_SLACK);
    }
}

fn toilet_side(space: &FixtureSpace) -> Clearance {
    space.toilets[0].side().clone()
}

fn toilet_front(space: &FixtureSpace) -> Clearance {
    space.toilets[0].front.clone()
}

/// W38: an alcove 30 in clear with the bowl in its middle has 15 in on both sides; 29-3/4 in has 14-7/8 in.
#[test]
fn a_toilet_in_an_alcove() {
    for (width, side) in [(30.0, 15.0), (29.75, 14.875)] {
        let mut plan = rectangle(60, 60, RoomUse::Toilet);
        let right = plan.base.walls.iter_mut().find(|wall| wall.id.as_str() == "wall-1").expect("on the right");
        (right.from.x, right.to.x) = (inches(width), inches(width));
        for wall in ["wall-0", "wall-2"] {
            let wall = plan.base.walls.iter_mut().find(|other| other.id.as_str() == wall).expect("front and back");
            let end = if wall.id.as_str() == "wall-0" { &mut wall.to } else { &mut wall.from };
            end.x = inches(width);
        }
        plan.base.rooms[0].at = Point::inches(10, 10);
        let plan = with(plan, [toilet((side, 60.0), Facing::DOWN)]);
        let space = space(&plan);
        let [toilet] = space.toilets.as_slice() else { panic!("one toilet") };
        assert_eq!((toilet.left.clear.value, toilet.right.clear.value), (inches(side), inches(side)));
        assert_clear(&plan, toilet_side, side);
        // 60 deep, 28 of them the toilet's.
        assert_clear(&plan, toilet_front, 32.0);
    }
}

/// W39: 20 in from the rim to a closed leaf. The floor under the door belongs to no room.
#[test]
fn a_door_ahead_of_a_toilet_counts_as_closed() {
    let mut plan = with(rectangle(60, 48, RoomUse::Toilet), [toilet((30.0, 48.0), Facing::DOWN)]);
    assert_clear(&plan, toilet_front, 20.0);
    hinged_door(&mut plan, "wall-0", 15, 30, Hinge::Near, Swing::Right);
    let space = space(&plan);
    assert_eq!(space.toilets[0].front.clear.value, inches(20.0));
    assert_eq!(space.toilets[0].front.met, Met::Wall);
}

/// ```text
/// +--+        36 x 66 leg with the toilet at its end
/// |  |
/// |  +----+   100 x 60
/// +-------+
/// ```
#[test]
fn a_toilet_in_an_l_shaped_bath() {
    let l = [(0, 0), (100, 0), (100, 60), (36, 60), (36, 126), (0, 126)];
    let plan = with(room(&l, RoomUse::Bath, (50, 30)), [toilet((18.0, 126.0), Facing::DOWN)]);
    assert_clear(&plan, toilet_side, 18.0);
    assert_clear(&plan, toilet_front, 126.0 - 28.0);
    // On the long wall, facing the leg's mouth and the wall beyond it: 18 to the wall, or past the corner of the leg.
    let plan = with(room(&l, RoomUse::Bath, (50, 30)), [toilet((18.0, 0.0), Facing::UP)]);
    assert_clear(&plan, toilet_front, 126.0 - 28.0);
    assert_clear(&plan, toilet_side, 18.0);
    // As seen from its front, which looks up, x grows to the left.
    let toilet = &space(&plan).toilets[0];
    assert_eq!((toilet.left.clear.value, toilet.right.clear.value), (inches(82.0), inches(18.0)));
}

/// ```text
/// +----------+   bar 120 x 40
/// +--+    +--+
///    |    |      stem 40 x 60
///    +----+
/// ```
#[test]
fn a_toilet_before_the_stem_of_a_t() {
    let t = [(40, 0), (80, 0), (80, 60), (120, 60), (120, 100), (0, 100), (0, 60), (40, 60)];
    let at = |x: f64| with(room(&t, RoomUse::Bath, (60, 30)), [toilet((x, 100.0), Facing::DOWN)]);
    assert_clear(&at(60.0), toilet_front, 72.0);
    assert_clear(&at(60.0), toilet_side, 60.0);
    // The strip from x 40 to 60 only touches the corner at x 40; a little more to the left it stands before the shoulder.
    assert_clear(&at(50.0), toilet_front, 72.0);
    assert_clear(&at(50.0 - SIXTY_FOURTH), toilet_front, 12.0);
    assert_clear(&at(50.0), toilet_side, 50.0);
}

/// A corner cut at 45 degrees: over the strip from x 20 to 40 it comes nearest at x 40.
#[test]
fn a_slanted_wall_is_measured_square_to_the_front() {
    let cut = [(0, 0), (60, 0), (100, 40), (100, 100), (0, 100)];
    let plan = with(room(&cut, RoomUse::Bath, (50, 50)), [toilet((80.0, 100.0), Facing::DOWN)]);
    // The strip runs from x 70 to 90; at x 90 the cut stands at y 30: 72 - 30.
    let front = toilet_front(&space(&plan)).clear;
    assert!((front.value - inches(42.0)).abs() <= OFF_AXIS_SLACK, "{}", front.value.to_inches());
    assert_eq!(front.slack, OFF_AXIS_SLACK);
}

#[test]
fn a_column_in_the_strip_counts_and_one_beside_or_behind_it_does_not() {
    let post = |x: i64, y: i64| {
        let mut plan = with(rectangle(100, 100, RoomUse::Bath), [toilet((50.0, 90.0), Facing::DOWN)]);
        plan.base.columns.push(plan_model::elements::Column {
            id: "post".into(),
            kind: plan_model::elements::ColumnKind::Column,
            from: Point::inches(x, y),
            to: Point::inches(x + 4, y + 4),
        });
        toilet_front(&space(&plan)).clear.value
    };
    // The rim is at y 62, the strip from x 40 to 60.
    assert_eq!(post(48, 20), inches(62.0 - 24.0));
    assert_eq!(post(36, 20), inches(62.0), "touches the edge of the strip");
    assert_eq!(post(60, 20), inches(62.0));
    assert_eq!(post(57, 20), inches(38.0));
    assert_eq!(post(48, 94), inches(62.0), "behind");
    assert_eq!(post(48, 60), Length::ZERO, "stands on the rim");
}

#[test]
fn what_stands_on_a_fixture_leaves_nothing_and_what_hangs_on_a_wall_takes_nothing() {
    let base = || with(rectangle(100, 100, RoomUse::Bath), [toilet((50.0, 100.0), Facing::DOWN)]);
    let shelf = |kind, at| with(base(), [fixture(kind, "other", at, Facing::DOWN, (30.0, 12.0))]);
    assert_clear(&shelf(FixtureKind::TallCabinet, (50.0, 80.0)), toilet_front, 0.0);
    assert_clear(&shelf(FixtureKind::TallCabinet, (50.0, 70.0)), toilet_front, 2.0);
    assert_clear(&shelf(FixtureKind::TallCabinet, (50.0, 72.0)), toilet_front, 0.0);
    assert_clear(&shelf(FixtureKind::WallCabinet, (50.0, 70.0)), toilet_front, 72.0);
    let space = space(&shelf(FixtureKind::TallCabinet, (50.0, 70.0)));
    assert_eq!(space.toilets[0].front.met, Met::Fixture("other".into()));
}

/// Two modules 100 in deep, their mate walls 4 in each, with an opening through both.
fn two_modules() -> Plan {
    let mut plan = rectangle(200, 208, RoomUse::Utility);
    plan.base.rooms[0].at = Point::inches(10, 90);
    plan.base.rooms.push(Room {
        id: "back-room".into(),
        name: "Back".into(),
        usage: RoomUse::Bath,
        at: Point::inches(10, 190),
    });
    for (id, y, placed_by) in [("mate-a", 104, PlacedBy::LeftFace), ("mate-b", 104, PlacedBy::RightFace)] {
        plan.base.walls.push(Wall {
            id: id.into(),
            kind: WallKind::Mate,
            from: Point::inches(0, y),
            to: Point::inches(200, y),
            thickness: Length::inches(4),
            placed_by,
            movable: false,
        });
    }
    plan.catalogue.doors.push(cased_unit("cased", Length::inches(40), Length::inches(80)));
    let opening = doorway("opening", "cased", "mate-a", Length::inches(80));
    plan.base.doors.push(Door { through: Some("mate-b".into()), ..opening });
    plan
}

#[test]
fn free_space_ends_at_the_mate_line_before_an_opening_as_well() {
    let washer = fixture(FixtureKind::Washer, "washer", (100.0, 0.0), Facing::UP, (27.0, 30.0));
    let plan = with(two_modules(), [washer, toilet((60.0, 108.0), Facing::UP)]);
    let derived = derived(&plan);
    assert_eq!(derived.problems, []);
    let [front, back] = derived.fixture_spaces().collect::<Vec<_>>()[..] else { panic!("two spaces") };
    // 100 deep less the washer's 30, straight before the opening.
    assert_eq!(front.appliances[0].front.clear.value, inches(70.0));
    // Backed on the mate wall at y 108: 208 - 108 - 28.
    assert_eq!(back.toilets[0].front.clear.value, inches(72.0));
    assert_eq!(back.toilets[0].side().clear.value, inches(60.0));
    let wall = derived.wall_at(front.appliances[0].front.span[1]).expect("a wall is met");
    assert_eq!(wall.id.as_str(), "mate-a");
}

/// W32 to W37: least side, and area in square inches.
#[test]
fn showers_are_told_by_their_finished_inside() {
    let cases = [
        ("W32", 30, 30, 30, 900),
        ("W33", 28, 34, 28, 952),
        ("W34", 25, 52, 25, 1300),
        ("W35", 48, 26, 26, 1248),
        ("W36", 32, 32, 32, 1024),
        ("W37", 34, 30, 30, 1020),
    ];
    for (case, width, depth, least, square_inches) in cases {
        let size = (f64::from(width), f64::from(depth));
        let shower = fixture(FixtureKind::Shower, "shower", (60.0, 120.0), Facing::DOWN, size);
        let space = space(&with(rectangle(120, 120, RoomUse::Bath), [shower]));
        let square_inch = Area::of_rectangle(Length::INCH, Length::INCH).square_steps();
        let [shower] = space.showers.as_slice() else { panic!("one shower") };
        assert_eq!(shower.least_side, Length::inches(least), "{case}");
        assert_eq!(shower.area, Area::from_square_steps(square_inches * square_inch), "{case}");
        assert_eq!((shower.entry.value(), &shower.front), (None, &None), "{case}");
    }
}

/// A shower 60 wide with an entry of 28 in the middle of its front, 40 in before a wall. What stands before the rest of
/// the front, from x 74 on, takes nothing from it.
#[test]
fn the_front_of_a_shower_is_as_wide_as_its_entry() {
    let mut shower = fixture(FixtureKind::Shower, "shower", (60.0, 80.0), Facing::DOWN, (60.0, 40.0));
    shower.entry = Some(Length::inches(28));
    let vanity = |x: f64| fixture(FixtureKind::Vanity, "vanity", (x, 0.0), Facing::UP, (24.0, 21.0));
    let front = |space: &FixtureSpace| space.showers[0].front.clone().expect("the entry is stated");
    let plan = |x: f64| with(rectangle(120, 80, RoomUse::Bath), [shower.clone(), vanity(x)]);
    assert_clear(&plan(86.0), front, 40.0);
    assert_clear(&plan(86.0 - SIXTY_FOURTH), front, 19.0);
    let without = measures_of(&derived(&with(
        rectangle(120, 80, RoomUse::Bath),
        [vanity(86.0), {
            let mut shower = shower.clone();
            shower.entry = None;
            shower
        }],
    )));
    let unknown = without.iter().filter(|measure| matches!(measure.amount, Amount::Unknown(_)));
    assert_eq!(unknown.map(|measure| measure.name).collect::<Vec<_>>(), [MeasureName::ShowerFront]);
}

/// A vanity 60 wide from wall to wall with bowls at 15 and 45: 15 from wall to bowl, 30 from bowl to bowl.
#[test]
fn bowls_of_a_vanity() {
    let mut vanity = fixture(FixtureKind::Vanity, "vanity", (30.0, 0.0), Facing::UP, (60.0, 21.0));
    vanity.bowls = vec![Length::inches(45), Length::inches(15)];
    let plan = with(rectangle(60, 60, RoomUse::Bath), [vanity]);
    assert_clear(&plan, |space| space.lavatories[0].side().clone(), 15.0);
    assert_clear(&plan, |space| space.lavatories[1].side().clone(), 15.0);
    assert_clear(&plan, |space| space.lavatories[0].front.clone(), 39.0);
    let space = space(&plan);
    let [apart] = space.bowls_apart.as_slice() else { panic!("one pair") };
    assert_eq!(apart.centre_to_centre.value, inches(30.0));
    assert_eq!(space.lavatories[0].assumed_width, Length::inches(20));
    // From the left end as seen from the front: facing up, that is from the right on the drawing.
    assert_eq!(space.lavatories[0].left.clear.value, inches(15.0));
    assert_eq!(space.lavatories[0].right.clear.value, inches(45.0));
}

/// The strip before a bowl is 20 wide, or what fits about the bowl into a smaller vanity.
#[test]
fn the_strip_before_a_lavatory_is_as_wide_as_its_bowl() {
    let vanity = |width: f64| fixture(FixtureKind::Vanity, "vanity", (50.0, 0.0), Facing::UP, (width, 21.0));
    let tall = |x: f64| fixture(FixtureKind::TallCabinet, "tall", (x, 80.0), Facing::DOWN, (20.0, 24.0));
    let plan = |width: f64, x: f64| with(rectangle(100, 80, RoomUse::Bath), [vanity(width), tall(x)]);
    let front = |space: &FixtureSpace| space.lavatories[0].front.clone();
    // The cabinet stands from x - 10 to x + 10; the bowl from 40 to 60.
    assert_clear(&plan(36.0, 70.0), front, 59.0);
    assert_clear(&plan(36.0, 70.0 - SIXTY_FOURTH), front, 35.0);
    // A vanity 18 wide has a bowl of 18, from 41 to 59.
    assert_clear(&plan(18.0, 69.0), front, 59.0);
    assert_clear(&plan(18.0, 69.0 - SIXTY_FOURTH), front, 35.0);
}

/// A vanity 24 wide with a base cabinet of 12 on its right and a toilet on its left, on a wall 100 long:
/// the cabinet is what the bowl stands in; 50 from the bowl to the wall, 12 + 6 to the toilet.
#[test]
fn a_counter_beside_a_bowl_is_no_obstruction() {
    let vanity = fixture(FixtureKind::Vanity, "vanity", (50.0, 80.0), Facing::DOWN, (24.0, 21.0));
    let base = fixture(FixtureKind::BaseCabinet, "base", (32.0, 80.0), Facing::DOWN, (12.0, 21.0));
    let plan = with(rectangle(100, 80, RoomUse::Bath), [vanity, base, toilet((78.0, 80.0), Facing::DOWN)]);
    assert_clear(&plan, |space| space.lavatories[0].left.clone(), 50.0);
    assert_clear(&plan, |space| space.lavatories[0].right.clone(), 18.0);
    let space = space(&plan);
    assert_eq!(space.lavatories[0].right.met, Met::Fixture("toilet".into()));
    // The toilet stands 16 from its centre to the vanity's side: there the cabinet counts.
    assert_eq!(
        (space.toilets[0].left.clear.value, &space.toilets[0].left.met),
        (inches(16.0), &Met::Fixture("vanity".into()))
    );
    let [apart] = space.bowls_apart.as_slice() else { panic!("one pair") };
    assert_eq!((apart.centre_to_centre.value, apart.between[0].as_str()), (inches(28.0), "toilet"));
}

/// With a wall between them, or looking another way, bowls do not stand beside each other.
#[test]
fn bowls_apart_stand_beside_each_other() {
    let vanity = |faces, at| fixture(FixtureKind::Vanity, "vanity", at, faces, (24.0, 21.0));
    let apart = |fixtures: Vec<Fixture>| space(&with(rectangle(100, 80, RoomUse::Bath), fixtures)).bowls_apart.len();
    let toilet = || toilet((78.0, 80.0), Facing::DOWN);
    assert_eq!(apart(vec![toilet(), vanity(Facing::DOWN, (40.0, 80.0))]), 1);
    assert_eq!(apart(vec![toilet(), vanity(Facing::RIGHT, (0.0, 66.0))]), 0);
    assert_eq!(apart(vec![toilet(), vanity(Facing::DOWN, (40.0, 30.0))]), 0, "not beside it");
    let tall = fixture(FixtureKind::TallCabinet, "tall", (60.0, 80.0), Facing::DOWN, (10.0, 24.0));
    assert_eq!(apart(vec![toilet(), vanity(Facing::DOWN, (40.0, 80.0)), tall]), 0);
}

/// A tub 60 long against the left wall of a room 100 x 60, its open side 32 off that wall, 68 before the other one. A
/// toilet stands on that other wall: what is left beside it decides.
#[test]
fn a_toilet_beside_the_free_floor_before_a_tub_takes_nothing() {
    let tub = fixture(FixtureKind::Tub, "tub", (0.0, 30.0), Facing::RIGHT, (60.0, 32.0));
    let plan = |y: f64| {
        let toilet = fixture(FixtureKind::Toilet, "toilet", (100.0, y), Facing::LEFT, (20.0, 28.0));
        with(rectangle(100, 60, RoomUse::Bath), [tub.clone(), toilet])
    };
    let front = |space: &FixtureSpace| space.tubs[0].front(Length::inches(24)).expect("a tub has a front");
    // The toilet takes y - 10 to y + 10: 24 left below it at y 34, but not at 1/64 less; the rim is at x 72, 40 off.
    assert_clear(&plan(34.0), front, 68.0);
    assert_clear(&plan(34.0 - SIXTY_FOURTH), front, 40.0);
    assert_clear(&plan(30.0), |space| space.tubs[0].front(Length::inches(20)).expect("a tub has a front"), 68.0);
    // A tub shorter than the width asked for: over its whole length.
    assert_clear(&plan(34.0), |space| space.tubs[0].front(Length::inches(99)).expect("a tub has a front"), 40.0);
}

/// Between two slanted walls the deepest rectangle of a width is where they have come together to that width.
#[test]
fn the_free_floor_before_a_tub_between_slanted_walls() {
    // A triangle's top: sides from (0, 40) and (80, 40) meet above (40, 80), cut off at y 70 by a wall from x 30 to 50.
    let outline = [(0, 0), (80, 0), (80, 40), (50, 70), (30, 70), (0, 40)];
    let tub = fixture(FixtureKind::Tub, "tub", (40.0, 0.0), Facing::UP, (60.0, 32.0));
    let plan = with(room(&outline, RoomUse::Bath, (40, 36)), [tub]);
    let front = space(&plan).tubs[0].front(Length::inches(24)).expect("a tub has a front").clear;
    // 24 wide at y 68 (x 28 to 52): 68 - 32.
    assert!((front.value - inches(36.0)).abs() <= OFF_AXIS_SLACK, "{}", front.value.to_inches());
}

fn base(id: &str, at: (f64, f64), faces: Facing, width: f64) -> Fixture {
    fixture(FixtureKind::BaseCabinet, id, at, faces, (width, 24.0))
}

/// Widths in inches with what they lie before.
type Ways = Vec<(String, f64)>;

/// The aisles of a kitchen, by the first of each front, and the walkways.
fn aisles(plan: &Plan) -> (Ways, Ways) {
    let space = space(plan);
    let aisle = |aisle: &plan_geometry::WorkAisle| {
        (format!("{}/{}", aisle.fronts[0][0], aisle.fronts[1][0]), aisle.clear.value.to_inches())
    };
    let walkway = |way: &plan_geometry::Walkway| (way.front[0].to_string(), way.clear.value.to_inches());
    (space.work_aisles.iter().map(aisle).collect(), space.walkways.iter().map(walkway).collect())
}

fn named(name: &str, clear: f64) -> (String, f64) {
    (name.to_owned(), clear)
}

/// Two runs 24 deep in a kitchen 90 wide: 42 between them. Cabinets side by side make one front.
#[test]
fn a_kitchen_of_two_runs_has_one_aisle() {
    let run = |side: &str, x: f64, faces| {
        [0.0, 1.0, 2.0].map(|n| base(&format!("{side}-{n}"), (x, 15.0 + 30.0 * n), faces, 30.0))
    };
    let plan = with(rectangle(90, 120, RoomUse::Kitchen), run("left", 0.0, Facing::RIGHT));
    assert_eq!(aisles(&plan), (vec![], vec![named("left-0", 66.0)]), "a kitchen along one wall");
    let plan = with(plan, run("right", 90.0, Facing::LEFT));
    assert_eq!(aisles(&plan), (vec![named("left-0/right-0", 42.0)], vec![]));
    let aisle = &space(&plan).work_aisles[0];
    assert_eq!(aisle.fronts[0].len(), 3);
    assert_eq!(aisle.span, [Point::inches(24, 45), Point::inches(66, 45)]);
    for (cos, sin) in [(20, 21), (-12, 5)] {
        let turned = space(&turned_plan(&plan, cos, sin));
        let [aisle] = turned.work_aisles.as_slice() else { panic!("one aisle: {:?}", turned.work_aisles) };
        assert!((aisle.clear.value - inches(42.0)).abs() <= OFF_AXIS_SLACK);
        assert_eq!((aisle.clear.slack, aisle.fronts[0].len(), aisle.fronts[1].len()), (OFF_AXIS_SLACK, 3, 3));
        assert_eq!(turned.walkways, []);
    }
}

/// Fronts face each other from 12 in of common length on.
#[test]
fn fronts_that_face_each_other_over_less_than_12_in_make_no_aisle() {
    let plan = |y: f64| {
        let left = base("left", (0.0, 30.0), Facing::RIGHT, 30.0);
        let right = base("right", (90.0, y), Facing::LEFT, 30.0);
        with(rectangle(90, 120, RoomUse::Kitchen), [left, right])
    };
    // The left front ends at y 45; the right one begins at y - 15.
    assert_eq!(aisles(&plan(48.0)).0, [named("left/right", 42.0)]);
    assert_eq!(aisles(&plan(48.0 + SIXTY_FOURTH)).0, []);
    // What is left of each looks at the wall beyond, 66 off, over 18 in.
    assert_eq!(aisles(&plan(48.0)).1, [named("left", 66.0), named("right", 66.0)]);
}

/// An island between two runs: an aisle on each side of it, none between the runs that it hides from each other.
#[test]
fn an_island_has_a_front_on_every_side_and_hides_what_is_behind_it() {
    let left = base("left", (0.0, 60.0), Facing::RIGHT, 60.0);
    let right = base("right", (160.0, 60.0), Facing::LEFT, 60.0);
    let island = fixture(FixtureKind::Island, "island", (66.0, 60.0), Facing::RIGHT, (60.0, 36.0));
    let plan = with(rectangle(160, 120, RoomUse::Kitchen), [left, right, island]);
    let (between, walkways) = aisles(&plan);
    // 66 - 24; 136 - (66 + 36). The ends of the island look at the walls 30 off.
    assert_eq!(between, [named("left/island", 42.0), named("right/island", 34.0)]);
    assert_eq!(walkways, [named("island", 30.0), named("island", 30.0)]);
    let turned = space(&turned_plan(&plan, 20, 21));
    assert_eq!((turned.work_aisles.len(), turned.walkways.len()), (2, 2));
}

/// Something that stands between over all but 12 in of the fronts leaves an aisle; over a little more, none.
#[test]
fn what_stands_between_two_fronts_parts_them() {
    let plan = |y: f64| {
        let left = base("left", (0.0, 30.0), Facing::RIGHT, 60.0);
        let right = base("right", (90.0, 30.0), Facing::LEFT, 60.0);
        let heater = fixture(FixtureKind::WaterHeater, "heater", (45.0, y), Facing::DOWN, (18.0, 48.0));
        with(rectangle(90, 120, RoomUse::Kitchen), [left, right, heater])
    };
    // It takes y - 48 to y, of 0 to 60.
    assert_eq!(aisles(&plan(60.0)).0, [named("left/right", 42.0)], "12 below it");
    assert_eq!(aisles(&plan(54.0)).0, [], "6 on either side");
}

/// An island whose end touches the wall, or a run: a peninsula. Nobody walks between things that touch.
#[test]
fn what_touches_leaves_no_way() {
    let island = fixture(FixtureKind::Island, "island", (48.0, 24.0), Facing::UP, (48.0, 36.0));
    let run = fixture(FixtureKind::BaseCabinet, "run", (0.0, 60.0), Facing::RIGHT, (120.0, 24.0));
    let plan = with(rectangle(160, 120, RoomUse::Kitchen), [island, run]);
    let (between, ways) = aisles(&plan);
    assert_eq!(between, []);
    // The run past the island: 160 - 24. The island's far end: 160 - 72. Its front: 120 - 60. Its back: 24 off the wall.
    let mut widths: Vec<f64> = ways.into_iter().map(|(_, clear)| clear).collect();
    widths.sort_by(f64::total_cmp);
    assert_eq!(widths, [24.0, 60.0, 88.0, 136.0]);
}

/// A wall beyond an open boundary belongs to another room; a front beyond it as well.
#[test]
fn a_kitchen_ends_where_another_room_begins() {
    let mut plan = with(rectangle(200, 120, RoomUse::Kitchen), [base("run", (0.0, 60.0), Facing::RIGHT, 120.0)]);
    assert_eq!(aisles(&plan).1, [named("run", 176.0)]);
    plan.base.rooms.push(Room {
        id: "living".into(),
        name: "Living".into(),
        usage: RoomUse::Living,
        at: Point::inches(190, 60),
    });
    plan.base.open_boundaries.push(OpenBoundary {
        id: "boundary".into(),
        from: Point::inches(130, 0),
        to: Point::inches(130, 120),
    });
    assert_eq!(aisles(&plan), (vec![], vec![]));
    let plan = with(plan, [base("shelf", (200.0, 60.0), Facing::LEFT, 60.0)]);
    assert_eq!(aisles(&plan), (vec![], vec![]));
}

/// A bed 60 x 80 in an L-shaped bedroom; a night stand is furniture and takes nothing.
#[test]
fn free_space_beside_a_bed() {
    let l = [(0, 0), (140, 0), (140, 120), (70, 120), (70, 180), (0, 180)];
    let mut plan = room(&l, RoomUse::Bedroom, (20, 170));
    plan.base.furniture.push(bed("bed", (140.0, 60.0), Facing::LEFT, (60.0, 80.0)));
    let mut stand = bed("stand", (140.0, 20.0), Facing::LEFT, (18.0, 16.0));
    stand.kind = plan_model::elements::FurnitureKind::Chest;
    plan.base.furniture.push(stand);
    assert_clear(&plan, |space| space.beds[0].foot.clone(), 60.0);
    // Seen from the foot, y grows to the left: 120 - 90 over the length from x 60 to 140, all but 10 of it below y 120.
    assert_clear(&plan, |space| space.beds[0].left.clone(), 30.0);
    assert_clear(&plan, |space| space.beds[0].right.clone(), 30.0);
    let mirrored = Transform::Mirrored.plan(&plan);
    let space = space(&mirrored);
    assert_eq!(space.beds[0].foot.clear.value, inches(60.0));
}

fn hinged_door(plan: &mut Plan, wall: &str, at: i64, width: i64, hinge: Hinge, swing: Swing) {
    plan.catalogue.doors.push(DoorUnit {
        id: "hinged".into(),
        operation: DoorOperation::Hinged,
        width: Length::inches(width),
        height: Length::inches(80),
        clear: None,
        glass: None,
    });
    plan.base.doors.push(Door {
        id: "door".into(),
        unit: "hinged".into(),
        wall: wall.into(),
        through: None,
        at: Length::inches(at),
        hinge: Some(hinge),
        swing: Some(swing),
        lock: None,
    });
}

/// A leaf 30 wide that swings into the room from the front wall, hinged at x 20.
#[test]
fn a_leaf_that_passes_before_a_front() {
    let sweeps = |fixture: Fixture, hinge, swing| {
        let mut plan = with(rectangle(120, 100, RoomUse::Bath), [fixture]);
        hinged_door(&mut plan, "wall-0", 20, 30, hinge, swing);
        let derived = derived(&plan);
        derived.sweeps_across().map(|sweep| sweep.ahead.value.to_inches()).collect::<Vec<f64>>()
    };
    let toilet = |x: f64, y: f64| toilet((x, y), Facing::DOWN);
    // The rim at y 72; at 90 degrees the leaf stands at x 20 up to y 30.
    assert_eq!(sweeps(toilet(20.0, 100.0), Hinge::Near, Swing::Left), [42.0]);
    assert_eq!(sweeps(toilet(20.0, 100.0), Hinge::Near, Swing::Right), [0.0; 0], "swings out");
    // The strip from x 38 on, 18 from the hinge: 30^2 - 18^2 = 24^2.
    assert_eq!(sweeps(toilet(48.0, 100.0), Hinge::Near, Swing::Left), [48.0]);
    // The strip from x 50 on is out of reach.
    assert_eq!(sweeps(toilet(60.0, 100.0), Hinge::Near, Swing::Left), [0.0; 0]);
    // Hinged at x 50 it stands there.
    assert_eq!(sweeps(toilet(60.0, 100.0), Hinge::Far, Swing::Left), [0.0; 0], "touches the edge of the strip");
    assert_eq!(sweeps(toilet(59.0, 100.0), Hinge::Far, Swing::Left), [42.0]);
    // Seen from the left wall: the rim at x 28, the strip from y 0 to 20 and from y 24 to 44; it stands at x 20 at last.
    let from_left = |y: f64| fixture(FixtureKind::Toilet, "toilet", (0.0, y), Facing::RIGHT, (20.0, 15.0));
    assert_eq!(sweeps(from_left(10.0), Hinge::Near, Swing::Left), [5.0]);
    assert_eq!(sweeps(from_left(34.0), Hinge::Near, Swing::Left), [5.0]);
    assert_eq!(sweeps(from_left(41.0), Hinge::Near, Swing::Left), [0.0; 0]);
    // From the right wall: hinged at x 20 its edge comes to x 50 only on the floor line, at y 18 to x 44.
    let from_right = |y: f64| fixture(FixtureKind::Toilet, "toilet", (120.0, y), Facing::LEFT, (20.0, 28.0));
    assert_eq!(sweeps(from_right(10.0), Hinge::Near, Swing::Left), [42.0]);
    assert_eq!(sweeps(from_right(28.0), Hinge::Near, Swing::Left), [48.0]);
}

/// The arc of a leaf in a turned wall bulges towards a front that is not turned: the nearest place is on the arc.
#[test]
fn the_arc_of_a_slanted_leaf_is_measured_where_it_is_nearest() {
    // The wall from (0, 0) to (120, 90) slants by 3 in 4; hinged 25 along it, at (20, 15), the leaf of 30 swings left.
    let outline = [(0, 0), (120, 90), (120, 150), (0, 150)];
    let mut plan = with(room(&outline, RoomUse::Bath, (60, 120)), [toilet((20.0, 150.0), Facing::DOWN)]);
    hinged_door(&mut plan, "wall-0", 25, 30, Hinge::Near, Swing::Left);
    let derived = derived(&plan);
    let sweeps: Vec<_> = derived.sweeps_across().collect();
    let [sweep] = sweeps[..] else { panic!("one leaf") };
    // Straight above the hinge the arc is 30 away, at y 45; the rim at y 122.
    assert!((sweep.ahead.value - inches(77.0)).abs() <= OFF_AXIS_SLACK, "{}", sweep.ahead.value.to_inches());
}

fn dunlin() -> Plan {
    file::read(DUNLIN).unwrap_or_else(|error| panic!("{error}"))
}

fn dunlin_with(plan: &Plan, answers: &[&str]) -> Derived {
    let selection = answers.iter().fold(Selection::included(plan), |selection, answer| {
        let answer: AlternateRef = answer.parse().unwrap_or_else(|error| panic!("{error}"));
        selection.with(plan, &answer).unwrap_or_else(|error| panic!("{error}"))
    });
    derive(&plan.home(&selection))
}

/// Every measure of this family, with lengths in inches.
fn told(derived: &Derived, name: MeasureName, of: &str) -> Vec<f64> {
    let length = |measure: Measure| match measure.amount {
        Amount::Length(length) => Some(length.value.to_inches()),
        _ => None,
    };
    let measures = measures_of(derived).into_iter();
    measures.filter(|measure| measure.name == name && measure.of[0].as_str() == of).filter_map(length).collect()
}

/// To the left as seen from the front, then to the right.
fn sides(derived: &Derived, of: &str) -> Vec<f64> {
    use MeasureName::{BedLeft, BedRight, LavatoryLeft, LavatoryRight, ToiletLeft, ToiletRight};
    let names = [ToiletLeft, ToiletRight, LavatoryLeft, LavatoryRight, BedLeft, BedRight];
    names.into_iter().flat_map(|name| told(derived, name, of)).collect()
}

fn measures_of(derived: &Derived) -> Vec<Measure> {
    let own = MeasureName::ToiletLeft..=MeasureName::ClosetDepth;
    derived.measures().iter().filter(|measure| own.contains(&measure.name)).cloned().collect()
}

/// By hand from the wall faces and fixtures of the plan.
#[test]
fn the_baths_of_the_demo_home() {
    use MeasureName::{BowlsApart, LavatoryFront, ShowerFront, ToiletFront, TubFront};
    let plan = dunlin();
    let base = dunlin_with(&plan, &[]);
    // The water closet at x 24.5 backs on the mate wall, y 161: 24.5 - 6.5 to the wall, 108 - 24.5 to the closet's.
    assert_eq!(sides(&base, "owner-toilet"), [18.0, 83.5]);
    // 161 - 28 = 133, to the linen closet's face at 95.
    assert_eq!(told(&base, ToiletFront, "owner-toilet"), [38.0]);
    // Bowls 18 from both ends of 72; the front at x 87, the linen closet at x 40.5 before both.
    assert_eq!(told(&base, BowlsApart, "owner-vanity"), [36.0]);
    assert_eq!(told(&base, LavatoryFront, "owner-vanity"), [46.5, 46.5]);
    // Vanity y 50 to 122, shower entry y 22.5 to 50.5: the vanity's end stands before half an inch of it.
    assert_eq!(told(&base, ShowerFront, "shower-60x34"), [46.5]);
    // Hall bath, 60 wide from x 432 to 492: the vanity y 169 to 199, the toilet at y 217, the tub from y 237.
    assert_eq!(sides(&base, "hall-bath-toilet"), [20.0, 18.0]);
    assert_eq!(told(&base, ToiletFront, "hall-bath-toilet"), [32.0]);
    assert_eq!(sides(&base, "hall-bath-vanity"), [23.0, 15.0]);
    assert_eq!(told(&base, BowlsApart, "hall-bath-toilet"), [33.0]);
    // Beside the toilet's rim at x 464, 32 are left from x 432: 237 - 169.
    assert_eq!(told(&base, TubFront, "hall-bath-tub"), [68.0]);
    // 36 x 66: 18 on both sides, 66 - 28 in front.
    let closed = dunlin_with(&plan, &["water-closet-room=room-36x66"]);
    assert_eq!(sides(&closed, "owner-toilet"), [18.0, 18.0]);
    assert_eq!(told(&closed, ToiletFront, "owner-toilet"), [38.0]);
    // The soaking tub's front at y 38.5; from x 48 to the vanity at x 87 there are 39 free up to the mate wall.
    let soaking = dunlin_with(&plan, &["owner-bath-layout=soaking-tub"]);
    assert_eq!(told(&soaking, TubFront, "soaking-tub-60x32"), [122.5]);
}

#[test]
fn kitchen_laundry_beds_and_closets_of_the_demo_home() {
    use MeasureName::{ApplianceFront, BedFoot, ClosetDepth, FrontToSweep, WorkAisle};
    let plan = dunlin();
    let base = dunlin_with(&plan, &[]);
    // The island takes x 248 to 314, y 213 to 249. Fronts: base 203, range 205, back run y 299.5, refrigerator y 292.5.
    assert_eq!(told(&base, WorkAisle, "kitchen"), [45.0, 43.0, 50.5, 43.5]);
    assert_eq!(told(&base, ApplianceFront, "kitchen-range"), [43.0]);
    // 502 + 30 = 532 to the flex room's wall at 568.5.
    assert_eq!(told(&base, ApplianceFront, "study-washer"), [36.5]);
    // Bed 76 x 80 at y 246: 208 to the mate wall at 169, 284 to 323.5, 86.5 to 174.5.
    assert_eq!(sides(&base, "owner-bed"), [39.0, 39.5]);
    assert_eq!(told(&base, BedFoot, "owner-bed"), [88.0]);
    assert_eq!(told(&base, ClosetDepth, "bedroom-2-closet"), [24.0]);
    assert_eq!(told(&base, ClosetDepth, "bedroom-3-closet"), [24.0]);
    // The leaf of 32 from x 436 at y 169 ends at y 201: 237 - 201 before the tub.
    assert_eq!(told(&base, FrontToSweep, "hall-bath-tub"), [36.0]);
}

/// Every measure as text that does not say where the home is drawn, nor what is to the left of what.
fn figures(derived: &Derived) -> Vec<String> {
    let figure = |measure: &Measure| {
        let mut of = measure.of.clone();
        of[usize::from(measure.name != MeasureName::BowlsApart)..].sort();
        let name = measure.name.word().replace("left", "side").replace("right", "side");
        format!("{name} {of:?} {:?}", measure.amount)
    };
    let mut figures: Vec<String> = measures_of(derived).iter().map(figure).collect();
    figures.sort();
    figures
}

/// A fixture of any kind anywhere, in steps of 1/4 in; in a wall and out of doors as well.
fn any_fixture() -> impl Strategy<Value = Fixture> {
    let kinds = [
        FixtureKind::Toilet,
        FixtureKind::Vanity,
        FixtureKind::Tub,
        FixtureKind::Shower,
        FixtureKind::Island,
        FixtureKind::BaseCabinet,
        FixtureKind::Range,
        FixtureKind::TallCabinet,
        FixtureKind::WallCabinet,
    ];
    let place = (-80..700_i32, -80..500_i32, 1..240_i32, 1..160_i32);
    (prop::sample::select(kinds.to_vec()), place, facing()).prop_map(|(kind, (x, y, width, depth), faces)| {
        let quarters = |quarters: i32| f64::from(quarters) / 4.0;
        let at = (quarters(x), quarters(y));
        let mut fixture = fixture(kind, "any", at, faces, (quarters(width), quarters(depth)));
        if kind == FixtureKind::Shower && width % 2 == 0 {
            fixture.entry = Some(Length::from_steps(fixture.width.steps() / 2));
        }
        fixture
    })
}

fn facing() -> impl Strategy<Value = Facing> {
    let square = prop::sample::select(vec![Facing::UP, Facing::DOWN, Facing::LEFT, Facing::RIGHT]);
    prop_oneof![3 => square, 1 => (-9..9_i32, 1..9_i32).prop_map(|(dx, dy)| Facing::new(dx, dy).unwrap_or(Facing::UP))]
}

/// A kitchen that is a bath and a bedroom as well, in an L.
fn crowded(fixtures: &[Fixture]) -> Plan {
    let l = [(0, 0), (160, 0), (160, 70), (90, 70), (90, 110), (0, 110)];
    let mut plan = room(&l, RoomUse::Kitchen, (1, 1));
    hinged_door(&mut plan, "wall-0", 20, 30, Hinge::Near, Swing::Left);
    plan.base.furniture.push(bed("bed", (0.0, 60.0), Facing::RIGHT, (40.0, 60.0)));
    for (index, fixture) in fixtures.iter().enumerate() {
        let id = format!("fixture-{index}").into();
        plan.base.fixtures.push(Fixture { id, ..fixture.clone() });
    }
    plan
}

/// Every free length that further obstructions can only shorten, by what it belongs to.
fn lengths(space: &FixtureSpace) -> Vec<(String, Length)> {
    let mut lengths = Vec::new();
    let mut tell = |of: String, clearance: &Clearance| lengths.push((of, clearance.clear.value));
    for toilet in &space.toilets {
        for (side, clearance) in [("left", &toilet.left), ("right", &toilet.right), ("front", &toilet.front)] {
            tell(format!("{} {side}", toilet.id), clearance);
        }
    }
    for bowl in &space.lavatories {
        for (side, clearance) in [("left", &bowl.left), ("right", &bowl.right), ("front", &bowl.front)] {
            tell(format!("{} {side}", bowl.id), clearance);
        }
    }
    for (id, front) in space.tubs.iter().filter_map(|tub| Some((&tub.id, tub.front(Length::inches(24))?))) {
        tell(id.to_string(), &front);
    }
    for (id, front) in space.showers.iter().filter_map(|shower| Some((&shower.id, shower.front.as_ref()?))) {
        tell(id.to_string(), front);
    }
    for appliance in &space.appliances {
        tell(appliance.id.to_string(), &appliance.front);
    }
    for bed in &space.beds {
        for (side, clearance) in [("left", &bed.left), ("right", &bed.right), ("foot", &bed.foot)] {
            tell(format!("{} {side}", bed.id), clearance);
        }
    }
    lengths
}

/// Sizes that a plan file can hold, and none at all, which it cannot.
#[test]
fn the_largest_and_the_smallest_things_have_figures_or_none() {
    let (step, largest) = (Length::from_steps(1), Length::LARGEST);
    for faces in [Facing::UP, Facing::LEFT, Facing::new(999, -1000).expect("a direction")] {
        for size in [Length::ZERO, step, Length::from_steps(3), largest] {
            for kind in
                [FixtureKind::Toilet, FixtureKind::Vanity, FixtureKind::Tub, FixtureKind::Shower, FixtureKind::Island]
            {
                let mut odd = toilet((30.0, 30.0), faces);
                (odd.kind, odd.width, odd.entry) = (kind, size, Some(size));
                let mut deep = Fixture { id: "deep".into(), depth: size, ..odd.clone() };
                deep.width = largest;
                let mut plan = with(rectangle(60, 60, RoomUse::Kitchen), [odd, deep]);
                plan.base.furniture.push(plan_model::elements::Furniture {
                    width: size,
                    ..bed("bed", (20.0, 20.0), faces, (1.0, 1.0))
                });
                let lengths = derived(&plan).fixture_spaces().flat_map(lengths).collect::<Vec<_>>();
                assert!(lengths.iter().all(|(_, length)| *length >= Length::ZERO && *length <= Length::inches(90)));
            }
        }
    }
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(96))]

    #[test]
    fn a_crowded_room_drawn_elsewhere_keeps_its_figures(fixtures in prop::collection::vec(any_fixture(), 1..7)) {
        let square = |fixture: &Fixture| { let (dx, dy) = fixture.faces.direction(); dx == 0 || dy == 0 };
        let plan = crowded(&fixtures.into_iter().filter(square).collect::<Vec<_>>());
        let here = figures(&derived(&plan));
        for transform in [Transform::Moved(Point::inches(-777, 3)), Transform::QuarterTurned, Transform::Mirrored] {
            let there = figures(&derived(&transform.plan(&plan)));
            prop_assert_eq!(&here, &there, "{:?}", transform);
        }
    }

    #[test]
    fn a_mirror_swaps_left_and_right(fixtures in prop::collection::vec(any_fixture(), 1..7)) {
        let square = |fixture: &Fixture| { let (dx, dy) = fixture.faces.direction(); dx == 0 || dy == 0 };
        let plan = crowded(&fixtures.into_iter().filter(square).collect::<Vec<_>>());
        let (here, there) = (space(&plan), space(&Transform::Mirrored.plan(&plan)));
        for (here, there) in here.toilets.iter().zip(&there.toilets) {
            prop_assert_eq!((here.left.clear, here.right.clear, here.front.clear), (there.right.clear, there.left.clear, there.front.clear));
        }
        for (here, there) in here.beds.iter().zip(&there.beds) {
            prop_assert_eq!((here.left.clear, here.right.clear, here.foot.clear), (there.right.clear, there.left.clear, there.foot.clear));
        }
    }

    #[test]
    fn adding_an_obstruction_never_increases_a_clearance(
        fixtures in prop::collection::vec(any_fixture(), 1..6),
        added in any_fixture(),
    ) {
        let before = lengths(&space(&crowded(&fixtures)));
        let all: Vec<Fixture> = fixtures.into_iter().chain([added]).collect();
        let after = lengths(&space(&crowded(&all)));
        for (of, length) in &before {
            let (_, now) = after.iter().find(|(other, _)| other == of).expect("it stands there still");
            prop_assert!(now <= length, "{}: {} then {}", of, length.to_inches(), now.to_inches());
        }
    }

    /// Whatever stands wherever, at any angle: no figure is negative, and none reaches beyond the room.
    #[test]
    fn every_figure_stays_within_the_room(fixtures in prop::collection::vec(any_fixture(), 1..8)) {
        let plan = crowded(&fixtures);
        for plan in [turned_plan(&plan, 20, 21), plan] {
            let derived = derived(&plan);
            for (of, length) in derived.fixture_spaces().flat_map(lengths) {
                prop_assert!(length >= Length::ZERO && length <= Length::inches(200), "{}: {}", of, length.to_inches());
            }
            let ways: Vec<_> = derived.fixture_spaces().flat_map(|space| space.work_aisles.iter().map(|aisle| aisle.clear.value).chain(space.walkways.iter().map(|way| way.clear.value))).collect();
            prop_assert!(ways.iter().all(|way| *way > Length::ZERO));
        }
    }

    #[test]
    fn derived_after_a_change_the_figures_are_those_of_the_whole(
        fixtures in prop::collection::vec(any_fixture(), 2..6),
        moved in any_fixture(),
    ) {
        let before = derived(&crowded(&fixtures));
        let _ = before.measures();
        let mut changed = fixtures;
        changed[0] = moved;
        let plan = crowded(&changed);
        let home = plan.home(&Selection::default());
        prop_assert_eq!(measures_of(&derive_after(&before, &home)), measures_of(&derive(&home)));
    }
}
