//! Doors and windows in their walls: where they stand, what they lead to, and what keeps a leaf from opening. By hand.

use plan_geometry::{Derived, ProblemKind, derive};
use plan_model::elements::{Door, Fixture, FixtureKind, Hinge, Room, RoomUse, Swing, Wall, WallKind};
use plan_model::{DoorOperation, DoorUnit, Facing, Length, Plan, Point, Selection};
use plan_testkit::room_with_outline;

fn p(x: i64, y: i64) -> Point {
    Point::inches(x, y)
}

/// A room of 120 x 100 in with a 30 in door in its front wall, hinged at its left jamb 10 in from the left wall, swinging
/// in: the open leaf reaches from the wall's inner face at y 0 to y 30, x 10 to 11-3/8.
fn plan() -> Plan {
    let outline = [p(0, 0), p(120, 0), p(120, 100), p(0, 100)];
    let mut plan = room_with_outline(&outline, Length::inches(6), RoomUse::Living, p(60, 50));
    plan.catalogue.doors.push(DoorUnit {
        id: "leaf-30".into(),
        operation: DoorOperation::Hinged,
        width: Length::inches(30),
        height: Length::inches(80),
        clear: Some(plan_model::PublishedClear {
            width: plan_model::ExactLength::parse("27.625", plan.units).expect("a decimal"),
            height: plan_model::ExactLength::parse("79", plan.units).expect("a decimal"),
        }),
        glass: None,
    });
    plan.base.doors.push(door("door", 10));
    plan
}

fn door(id: &str, at: i64) -> Door {
    Door {
        id: id.into(),
        unit: "leaf-30".into(),
        wall: "wall-0".into(),
        through: None,
        at: Length::inches(at),
        hinge: Some(Hinge::Near),
        swing: Some(Swing::Left),
        lock: None,
    }
}

fn cabinet(at: Point) -> Fixture {
    Fixture {
        id: "cabinet".into(),
        kind: FixtureKind::BaseCabinet,
        at,
        faces: Facing::UP,
        width: Length::inches(8),
        depth: Length::inches(20),
        entry: None,
        bowls: Vec::new(),
        drain: None,
        fuel: None,
        outdoor_air: false,
    }
}

fn derived(plan: &Plan) -> Derived {
    derive(&plan.home(&Selection::default()))
}

#[test]
fn a_leaf_stands_where_its_hinge_and_swing_say() {
    let figures = derived(&plan());
    assert_eq!(figures.problems, []);
    let door = &figures.doors[0];
    let leaf = door.leaf.as_ref().expect("hinged");
    assert_eq!((leaf.hinge, leaf.closed, leaf.open), (p(10, 0), p(40, 0), p(10, 30)));
    assert_eq!(door.sides[0].room.as_ref().map(plan_model::Id::as_str), Some("room"));
    assert_eq!(door.sides[1].room, None);
    assert!(door.is_exterior);
    assert_eq!(door.outline, [p(10, -6), p(40, -6), p(40, 0), p(10, 0)]);
}

#[test]
fn openings_that_share_wall_or_leave_it_are_conflicts() {
    let mut plan = plan();
    plan.base.doors.push(door("second", 39));
    let kinds = |plan: &Plan| derived(plan).problems.into_iter().map(|problem| problem.kind).collect::<Vec<_>>();
    let overlap = ProblemKind::OpeningsOverlap { first: "door".into(), second: "second".into() };
    assert_eq!(kinds(&plan), [overlap]);
    plan.base.doors[1].at = Length::inches(40);
    assert_eq!(kinds(&plan), [], "side by side");
    plan.base.doors[1].at = Length::inches(91);
    let leaves = ProblemKind::OpeningLeavesWall { opening: "second".into(), wall: "wall-0".into() };
    assert_eq!(kinds(&plan), [leaves]);
    plan.base.doors[1].at = Length::inches(90);
    assert_eq!(kinds(&plan), [], "up to the corner");
}

#[test]
fn a_wall_that_ends_in_an_opening_is_a_conflict() {
    let mut plan = plan();
    plan.base.walls.push(Wall {
        id: "partition".into(),
        kind: WallKind::Partition,
        from: p(30, 0),
        to: p(30, 100),
        thickness: Length::inches(4),
        placed_by: plan_model::elements::PlacedBy::Centre,
        movable: false,
    });
    plan.base.rooms.push(Room { id: "left".into(), name: "Left".into(), usage: RoomUse::Storage, at: p(5, 50) });
    let expected = ProblemKind::WallInOpening { wall: "partition".into(), opening: "door".into() };
    let kinds: Vec<_> = derived(&plan).problems.into_iter().map(|problem| problem.kind).collect();
    assert!(kinds.contains(&expected), "{kinds:?}");
    // Beside the jamb it may end.
    plan.base.walls[4].from.x = Length::inches(42);
    plan.base.walls[4].to.x = Length::inches(42);
    assert_eq!(derived(&plan).problems, []);
}

#[test]
fn a_fixture_against_a_wall_is_no_conflict_and_one_in_it_is() {
    for (y, conflict) in [(0, false), (-1, true), (80, false), (81, true)] {
        let mut plan = plan();
        plan.base.fixtures.push(cabinet(p(80, y)));
        let found = derived(&plan).problems;
        assert_eq!(found.iter().any(|problem| problem.kind.is_conflict()), conflict, "back at y {y}: {found:?}");
    }
}

/// Through a doubled wall an opening is one element that leads from the one room to the other.
#[test]
fn an_opening_through_the_mate_line_joins_the_rooms_on_both_sides() {
    let plan = plan_model::file::read(include_str!("../sample-plans/dunlin-58.json")).unwrap_or_else(|e| panic!("{e}"));
    let home = plan.home(&Selection::included(&plan));
    let figures = derive(&home);
    let door = figures.door(&"owner-bath-door".into()).expect("stands in its walls");
    let rooms: Vec<_> = door.sides.iter().filter_map(|side| side.room.as_ref()).map(plan_model::Id::as_str).collect();
    assert_eq!(rooms, ["owner-bedroom", "owner-bath"]);
    let depth = |outline: [Point; 4]| (outline[2].y - outline[0].y).abs();
    assert_eq!((depth(door.outline), depth(door.leaf_wall_outline)), (Length::inches(8), Length::inches(4)));
}

/// The problem holds the ground that both need: here the 1 in by which the cabinet stands in the wall.
#[test]
fn a_conflict_shows_the_ground_that_both_need() {
    let mut plan = plan();
    plan.base.fixtures.push(cabinet(p(80, -1)));
    let problem = &derived(&plan).problems[0];
    let mut corners = problem.outline.clone();
    corners.sort_unstable();
    assert_eq!(corners, [p(76, -1), p(76, 0), p(84, -1), p(84, 0)]);
}

/// A window in one half of the doubled mate wall looks into the other half, and not outdoors.
#[test]
fn an_opening_into_a_wall_is_a_conflict_and_leads_nowhere() {
    let text = include_str!("../sample-plans/dunlin-58.json");
    let plan = plan_model::file::read(text).unwrap_or_else(|e| panic!("{e}"));
    let mut moved = plan;
    let window =
        moved.base.windows.iter_mut().find(|window| window.id.as_str() == "owner-bath-window").expect("is there");
    (window.wall, window.at) = ("mate-wall-a-left".into(), Length::inches(8));
    let figures = derive(&moved.home(&Selection::included(&moved)));
    let expected = ProblemKind::OpensIntoWall { opening: "owner-bath-window".into(), wall: "mate-wall-b-left".into() };
    let kinds: Vec<_> = figures.problems.into_iter().map(|problem| problem.kind).collect();
    assert_eq!(kinds, [expected]);
    let window = figures.windows.iter().find(|window| window.id.as_str() == "owner-bath-window").expect("stands");
    assert!(window.sides.iter().all(|side| !side.is_outdoors));
}

#[test]
fn a_chase_in_an_opening_or_right_before_it_is_a_conflict() {
    for (from, to, conflict) in
        [((36, 0), (50, 10), true), ((36, 1), (50, 10), false), ((40, 0), (50, 10), false), ((30, -4), (32, -2), true)]
    {
        let mut plan = plan();
        plan.base.columns.push(plan_model::elements::Column {
            id: "chase".into(),
            kind: plan_model::elements::ColumnKind::Chase,
            from: p(from.0, from.1),
            to: p(to.0, to.1),
        });
        let kinds: Vec<_> = derived(&plan).problems.into_iter().map(|problem| problem.kind).collect();
        let expected = ProblemKind::ColumnAtOpening { column: "chase".into(), opening: "door".into() };
        assert_eq!(kinds.contains(&expected), conflict, "{from:?} to {to:?}: {kinds:?}");
    }
}
