//! Ceilings over a floor, and heated area where not everything is heated, both worked out by hand.

use plan_geometry::{Area, ProblemKind, derive};
use plan_model::elements::{Ceiling, PlacedBy, Room, RoomUse, Slope, Soffit, Wall, WallKind};
use plan_model::{Length, Plan, Point, Selection};
use plan_testkit::{Transform, room_with_outline};

fn feet(x: i64, y: i64) -> Point {
    Point::inches(12 * x, 12 * y)
}

fn square_feet(area: i128) -> Area {
    Area::from_square_steps(area * Area::SQUARE_FOOT.square_steps())
}

fn box_room(width: i64, depth: i64) -> Plan {
    let outline = [feet(0, 0), feet(width, 0), feet(width, depth), feet(0, depth)];
    room_with_outline(&outline, Length::inches(6), RoomUse::Bedroom, feet(1, 1))
}

/// Vector W29 of the project's table of figures (arithmetic): a room of 140 sq ft with 40 at 7 ft and above, 60 between 5
/// and 7 ft, 40 below 5 ft. Here 10 ft wide and 14 ft deep, rising 4 in a foot from 3'-8" at the front.
fn sloped_room() -> Plan {
    let mut plan = box_room(10, 14);
    plan.base.ceilings.push(Ceiling {
        id: "roof".into(),
        rooms: Vec::new(),
        height: Length::inches(44),
        slope: Some(Slope { from: feet(0, 0), to: feet(10, 0), rise_per_foot: Length::inches(4), highest: None }),
    });
    plan
}

#[test]
fn a_slope_divides_the_floor_where_its_height_is_reached() {
    let mut plan = sloped_room();
    for _ in 0..4 {
        let derived = derive(&plan.home(&Selection::default()));
        let ceiling = &derived.rooms[0].ceiling;
        assert_eq!(ceiling.area_at_or_above(Length::inches(84)), Some(square_feet(40)));
        assert_eq!(ceiling.area_at_or_above(Length::inches(60)), Some(square_feet(100)));
        assert_eq!(ceiling.area_at_or_above(Length::inches(44)), Some(square_feet(140)));
        assert_eq!(ceiling.area_at_or_above(Length::inches(101)), Some(square_feet(0)));
        assert_eq!((ceiling.lowest, ceiling.is_flat), (Some(Length::inches(44)), false));
        plan = Transform::QuarterTurned.plan(&plan);
    }
}

#[test]
fn a_slope_that_becomes_flat_never_reaches_more() {
    let mut plan = sloped_room();
    if let Some(slope) = &mut plan.base.ceilings[0].slope {
        slope.highest = Some(Length::inches(83));
    }
    let derived = derive(&plan.home(&Selection::default()));
    assert_eq!(derived.rooms[0].ceiling.area_at_or_above(Length::inches(84)), Some(Area::ZERO));
    assert_eq!(derived.rooms[0].ceiling.area_at_or_above(Length::inches(60)), Some(square_feet(100)));
}

#[test]
fn a_lowered_part_counts_below_its_height_only() {
    let mut plan = box_room(10, 14);
    plan.base.ceilings.push(Ceiling { id: "flat".into(), rooms: Vec::new(), height: Length::inches(96), slope: None });
    plan.base.soffits.push(Soffit {
        id: "duct".into(),
        from: feet(-2, 10),
        to: feet(4, 13),
        height: Length::inches(80),
        beam: false,
    });
    let derived = derive(&plan.home(&Selection::default()));
    let ceiling = &derived.rooms[0].ceiling;
    assert_eq!(ceiling.lowest, Some(Length::inches(80)));
    assert_eq!(ceiling.area_at_or_above(Length::inches(84)), Some(square_feet(140 - 4 * 3)));
    assert_eq!(ceiling.area_at_or_above(Length::inches(80)), Some(square_feet(140)));
    assert_eq!(ceiling.area_at_or_above(Length::inches(97)), Some(Area::ZERO));
}

#[test]
fn a_room_without_a_ceiling_is_unknown() {
    let derived = derive(&box_room(10, 14).home(&Selection::default()));
    assert_eq!(derived.rooms[0].ceiling.area_at_or_above(Length::inches(1)), None);
    assert_eq!(derived.rooms[0].ceiling.lowest, None);
}

/// A house 20 ft x 14 ft inside 6 in walls, the right part a garage of 8 ft behind a 6 in wall. Heated: the room of 11.5 ft
/// x 14 ft, the wall between (it has a heated floor on one side), and the outer walls along both, corners on the left
/// included: from x -0.5 to 12 ft, 15 ft deep.
#[test]
fn the_wall_between_a_heated_and_an_unheated_room_is_heated() {
    let mut plan = box_room(20, 14);
    plan.base.walls.push(Wall {
        id: "between".into(),
        kind: WallKind::Partition,
        from: feet(12, 0),
        to: feet(12, 14),
        thickness: Length::inches(6),
        placed_by: PlacedBy::RightFace,
        movable: false,
    });
    plan.base.rooms.push(Room { id: "garage".into(), name: "Garage".into(), usage: RoomUse::Garage, at: feet(18, 7) });
    for turn in [0, 1, 2, 3] {
        let plan = (0..turn).fold(plan.clone(), |plan, _| Transform::QuarterTurned.plan(&plan));
        let derived = derive(&plan.home(&Selection::default()));
        assert_eq!(derived.problems, []);
        let half_feet = |halves: i64| Length::inches(6 * halves);
        assert_eq!(derived.heated_area, Some(Area::of_rectangle(half_feet(25), half_feet(30))), "12.5 ft x 15 ft");
    }
}

/// A room of 8 ft x 8 ft within 6 in walls, in the middle of a room of 30 ft x 30 ft.
fn ring(plan: &mut Plan, id: &str, usage: RoomUse) {
    let corners = [((11, 11), (19, 11)), ((19, 11), (19, 19)), ((19, 19), (11, 19)), ((11, 19), (11, 11))];
    for (index, (from, to)) in corners.iter().enumerate() {
        plan.base.walls.push(Wall {
            id: format!("{id}-{index}").into(),
            kind: WallKind::Partition,
            from: feet(from.0, from.1),
            to: feet(to.0, to.1),
            thickness: Length::inches(6),
            placed_by: PlacedBy::LeftFace,
            movable: false,
        });
    }
    plan.base.rooms.push(Room { id: id.into(), name: id.into(), usage, at: feet(15, 15) });
}

/// An unheated store of 8 ft x 8 ft in the middle of a heated room of 30 ft x 30 ft is out; its walls, which have a heated
/// floor on one side, are in: 31 ft x 31 ft outside, less 64 sq ft.
#[test]
fn an_unheated_room_within_a_heated_one_is_out() {
    let mut plan = box_room(30, 30);
    ring(&mut plan, "store", RoomUse::UnheatedStore);
    let derived = derive(&plan.home(&Selection::default()));
    assert_eq!(derived.problems, []);
    assert_eq!(derived.heated_area, Some(square_feet(31 * 31 - 64)));
}

/// The other way round: of a garage of 30 ft x 30 ft with a heated room of 8 ft x 8 ft in its middle, the room and its walls
/// are in.
#[test]
fn a_heated_room_within_an_unheated_one_is_in() {
    let mut plan = box_room(30, 30);
    plan.base.rooms[0].usage = RoomUse::Garage;
    ring(&mut plan, "office", RoomUse::Study);
    let derived = derive(&plan.home(&Selection::default()));
    assert_eq!(derived.problems, []);
    assert_eq!(derived.heated_area, Some(square_feet(9 * 9)));
}

/// Two ceilings for one room are an error with a place, not a guess.
#[test]
fn two_ceilings_for_a_room_are_a_conflict() {
    let mut plan = box_room(10, 14);
    for (id, height) in [("high", 96), ("low", 80)] {
        plan.base.ceilings.push(Ceiling {
            id: id.into(),
            rooms: Vec::new(),
            height: Length::inches(height),
            slope: None,
        });
    }
    let kinds: Vec<_> = derive(&plan.home(&Selection::default())).problems.into_iter().map(|p| p.kind).collect();
    assert_eq!(kinds, [ProblemKind::TwoCeilings { first: "high".into(), second: "low".into() }]);
    assert!(kinds[0].is_conflict());
}

/// ANSI Z765 examples of whole square feet (vectors W44 and W46): 26'-8" x 56'-0" is 1,493.33, 27'-4" x 60'-0" is 1,640.
#[test]
fn whole_square_feet() {
    let whole =
        |inches: [i64; 2]| Area::of_rectangle(Length::inches(inches[0]), Length::inches(inches[1])).whole_square_feet();
    assert_eq!(whole([320, 672]), 1493);
    assert_eq!(whole([328, 720]), 1640);
    assert_eq!(whole([12, 18]), 2, "half a foot more is rounded up");
}
