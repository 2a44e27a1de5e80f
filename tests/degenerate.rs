//! Degenerate drawings end in problems with places, or in the right rooms: never in a panic or a wrong room.
//!
//! Expected floors are reckoned by hand from the drawn lines.

use plan_geometry::{Derived, ProblemKind, Region, derive};
use plan_model::elements::{Column, ColumnKind, OpenBoundary};
use plan_model::{Length, Plan, Point, Selection, file};
use plan_testkit::Random;

use crate::joints::{a_box, derived, p, plan};

type Drawn = (Point, Point, i64);

fn box_and(more: &[Drawn]) -> Vec<Drawn> {
    [a_box().as_slice(), more].concat()
}

/// The problems with their places, after every measure was worked out.
fn told(derived: &Derived) -> Vec<(ProblemKind, Point)> {
    assert!(!derived.measures().is_empty());
    derived.problems.iter().map(|problem| (problem.kind.clone(), problem.at)).collect()
}

/// The floor of the one room, without a problem.
fn floor(walls: &[Drawn], at: Point) -> f64 {
    let figures = derived(walls, &[at]);
    assert_eq!(told(&figures), []);
    assert_eq!(figures.rooms.len(), 1);
    square_inches_of(&figures, 0)
}

#[expect(clippy::cast_precision_loss, reason = "compared to a hundredth of a square inch")]
fn square_inches_of(figures: &Derived, room: usize) -> f64 {
    let inch = Length::INCH.steps() as f64;
    figures.rooms[room].floor_area.square_steps() as f64 / (inch * inch)
}

/// 94 x 74 in between the faces of the box.
const INSIDE: f64 = 6956.0;

#[test]
fn walls_on_top_of_each_other_are_one_wall() {
    let [front, ..] = a_box();
    for (what, wall) in [
        ("the same", front),
        ("drawn the other way", (front.1, front.0, 6)),
        ("part of it", (p(20, 0), p(60, 0), 6)),
        ("part of it the other way", (p(60, 0), p(20, 0), 6)),
        ("part of it and beyond", (p(60, 0), p(140, 0), 6)),
        ("all of it and beyond on both sides", (p(-40, 0), p(140, 0), 6)),
        ("a thinner one within", (p(20, 0), p(60, 0), 4)),
        ("none of it: no length", (p(50, 0), p(50, 0), 6)),
        ("a corner: no length", (p(0, 0), p(0, 0), 6)),
    ] {
        let found = floor(&box_and(&[wall]), p(50, 40));
        assert!((found - INSIDE).abs() < 1e-9, "{what}: {found}");
    }
}

/// A pilaster: 40 in of the front wall are 4 in thicker, 2 in of that inside.
#[test]
fn a_thicker_wall_on_top_takes_its_part_of_the_floor() {
    assert!((floor(&box_and(&[(p(20, 0), p(60, 0), 10)]), p(50, 40)) - (INSIDE - 80.0)).abs() < 1e-9);
}

#[test]
fn a_wall_without_length_stands_for_nothing() {
    assert!((floor(&box_and(&[(p(50, 40), p(50, 40), 6)]), p(20, 20)) - INSIDE).abs() < 1e-9);
}

#[test]
fn a_room_without_floor_is_no_room() {
    // The inner faces of front and back lie on each other.
    let flat = |depth: i64| {
        [
            (p(0, 0), p(100, 0), 6),
            (p(100, 0), p(100, depth), 6),
            (p(100, depth), p(0, depth), 6),
            (p(0, depth), p(0, 0), 6),
        ]
    };
    let figures = derived(&flat(6), &[p(50, 3)]);
    assert_eq!(told(&figures), [(ProblemKind::AnchorInWall { room: "room-0".into() }, p(50, 3))]);
    assert!(figures.rooms.is_empty());
    // A grid step more is floor, however little.
    let mut walls = flat(6);
    let up = Point::new(Length::ZERO, Length::from_steps(2));
    walls[1].1 = walls[1].1 + up;
    (walls[2].0, walls[2].1) = (walls[2].0 + up, walls[2].1 + up);
    walls[3].0 = walls[3].0 + up;
    let figures = derived(&walls, &[p(50, 3) + Point::new(Length::ZERO, Length::from_steps(1))]);
    assert_eq!(told(&figures), []);
    assert_eq!(figures.rooms[0].floor_area.square_steps(), i128::from(Length::inches(94).steps()) * 2);
}

#[test]
fn a_plan_of_nothing_has_nothing() {
    assert_eq!(told(&derived(&[], &[])), []);
    let unclosed = |at| vec![(ProblemKind::RoomNotClosed { room: "room-0".into() }, at)];
    assert_eq!(told(&derived(&[], &[p(7, 9)])), unclosed(p(7, 9)));
    assert_eq!(told(&derived(&[(p(0, 0), p(0, 0), 6)], &[p(50, 9)])), unclosed(p(50, 9)));
}

/// Walls that cross at 0.1 degree: their faces meet anywhere but where their lines do.
#[test]
fn walls_crossing_at_a_tenth_of_a_degree() {
    // Rises 100 in x tan 0.1 degree = 0.174533 in. Half a wall 4 in thick stands 2 in / cos 0.1 degree over its line.
    let rise = Length::from_steps(2837);
    let (slope, over) = (0.001_745_2, 2.000_003);
    let raised = |x: i64| Point::new(Length::inches(x), Length::inches(38) + rise);
    let (rising, falling, flat) = ((p(0, 38), raised(100), 4), (raised(0), p(100, 38), 4), (p(0, 38), p(100, 38), 4));
    let anchors = [p(50, 20), p(50, 60)];
    // Below: 94 x (36 - 3). Above, from 3 to 97 in along: down to the higher of the two upper faces, on average.
    let above = |mean_line: f64| 94.0 * (77.0 - over - mean_line);
    for (walls, mean_line) in [
        (vec![rising, flat], 38.0 + slope * 50.0),
        (vec![rising, falling, flat], 38.0 + slope * (50.0 + 23.5)),
        (vec![falling, rising], 38.0 + slope * (50.0 + 23.5)),
    ] {
        let figures = derived(&box_and(&walls), &anchors);
        assert_eq!(told(&figures), []);
        let found = [square_inches_of(&figures, 0), square_inches_of(&figures, 1)];
        let mean_below = if walls.contains(&flat) { 0.0 } else { slope * (50.0 - 23.5) };
        let below = 94.0 * (36.0 - 3.0 + mean_below);
        assert!((found[0] - below).abs() < 0.02, "{found:?}, {below} below");
        assert!((found[1] - above(mean_line)).abs() < 0.02, "{found:?}, {} above", above(mean_line));
    }
}

#[test]
fn points_of_rooms_in_the_wrong_place() {
    let in_wall = |at| {
        vec![(ProblemKind::SpaceWithoutRoom, p(50, 40)), (ProblemKind::AnchorInWall { room: "room-0".into() }, at)]
    };
    for at in [p(50, 0), p(50, 3), p(3, 3)] {
        assert_eq!(told(&derived(&a_box(), &[at])), in_wall(at));
    }
    let two = |at| vec![(ProblemKind::TwoAnchors { first: "room-0".into(), second: "room-1".into() }, at)];
    for at in [p(60, 40), p(50, 40)] {
        assert_eq!(told(&derived(&a_box(), &[p(50, 40), at])), two(at));
    }
}

#[test]
fn boundaries_that_divide_nothing() {
    let mut drawn = plan(&a_box(), &[p(50, 20)]);
    let lines = [
        ("outside", p(200, 0), p(200, 80)),
        ("in a wall", p(10, 0), p(90, 0)),
        ("short", p(20, 40), p(60, 40)),
        ("no length", p(50, 60), p(50, 60)),
    ];
    for (id, from, to) in lines {
        drawn.base.open_boundaries.push(OpenBoundary { id: id.into(), from, to });
    }
    let figures = derive(&drawn.home(&Selection::default()));
    let loose = |id: &str, at| (ProblemKind::LooseBoundary { boundary: id.into() }, at);
    let expected = [
        loose("outside", p(200, 40)),
        loose("in a wall", p(50, 0)),
        loose("short", p(40, 40)),
        loose("no length", p(50, 60)),
    ];
    assert_eq!(told(&figures), expected);
    assert!((square_inches_of(&figures, 0) - INSIDE).abs() < 1e-9);
}

#[test]
fn a_column_as_large_as_the_room_leaves_no_room() {
    let mut drawn = plan(&a_box(), &[p(50, 40)]);
    let column = |from, to| Column { id: "column".into(), kind: ColumnKind::Chase, from, to };
    drawn.base.columns.push(column(p(-10, -10), p(110, 90)));
    let figures = derive(&drawn.home(&Selection::default()));
    assert!(figures.rooms.is_empty());
    assert!(told(&figures).contains(&(ProblemKind::AnchorInWall { room: "room-0".into() }, p(50, 40))));
}

/// 200 m is the largest coordinate of a plan: twice that, as slanted shapes need it, and differences of such places fit in
/// 32 bits, which the union of walls works in. At 1 km they would not, and so a file with such a place is refused.
#[test]
fn places_far_away() {
    let text = |x: &str| {
        format!(
            r#"{{"mateline_plan": 1, "name": "Far", "maker": "Nobody", "units": "mm", "base_price": "0", "currency": "USD",
            "home": {{"legal_kind": "state-label"}}, "modules": [],
            "base": {{"walls": [{{"id": "far", "kind": "partition", "from": ["{x}", "0"], "to": ["0", "0"], "thickness": "100"}}]}}}}"#
        )
    };
    let refusal = file::read(&text("1000000")).expect_err("a kilometre away").to_string();
    assert!(refusal.contains("200 m") && refusal.contains("line 3"), "{refusal}");
    assert!(
        file::read(&text("199000")).is_ok(),
        "{:?}",
        file::read(&text("199000")).err().map(|error| error.to_string())
    );
    for corner in [-190_000, 190_000] {
        let away = Point::new(Length::from_steps(corner * 640), Length::from_steps(-corner * 640));
        let moved = a_box().map(|(from, to, thickness)| (from + away, to + away, thickness));
        assert!((floor(&moved, p(50, 40) + away) - INSIDE).abs() < 1e-9);
    }
}

/// Lines on a raster of 10 in, so that ends, faces and whole walls fall on each other all the time.
fn scribble(seed: u64) -> Plan {
    let mut random = Random::for_plan(seed, 0);
    let mut place = |most: i64| p(10 * random.whole(0, most), 10 * random.whole(0, most));
    let mut walls: Vec<Drawn> = (0..6).map(|_| (place(8), place(8), 0)).collect();
    let anchors: Vec<Point> = (0..4).map(|_| place(8) + p(3, 4)).collect();
    let lines: Vec<[Point; 2]> = (0..3).map(|_| [place(8), place(8)]).collect();
    let columns: Vec<[Point; 2]> = (0..2).map(|_| [place(8), place(8)]).collect();
    for (at, wall) in walls.iter_mut().enumerate() {
        wall.2 = [4, 6, 20, 3][random.whole(0, 3).unsigned_abs() as usize % 4];
        // Most are square to the axes, as in plans.
        if at % 3 != 0 {
            wall.1.y = wall.0.y;
        } else if at % 2 == 0 {
            wall.1.x = wall.0.x;
        }
    }
    // Within a frame, so that there are floors to be cut up.
    let corners = [p(0, 0), p(80, 0), p(80, 80), p(0, 80)];
    walls.extend([0, 1, 2, 3].map(|at| (corners[at], corners[(at + 1) % 4], 6)));
    let mut drawn = plan(&walls, &anchors);
    for (at, [from, to]) in lines.into_iter().enumerate() {
        drawn.base.open_boundaries.push(OpenBoundary { id: format!("line-{at}").into(), from, to });
    }
    for (at, [from, to]) in columns.into_iter().enumerate() {
        drawn.base.columns.push(Column { id: format!("column-{at}").into(), kind: ColumnKind::Chase, from, to });
    }
    drawn
}

#[test]
fn scribbled_walls_end_in_rooms_or_problems() {
    let mut closed = 0;
    for seed in 0..if cfg!(debug_assertions) { 200 } else { 4000 } {
        let drawn = scribble(seed);
        let figures = derive(&drawn.home(&Selection::default()));
        let _ = figures.measures();
        closed += figures.rooms.len();
        for room in &drawn.base.rooms {
            let is_told = figures.problems.iter().any(|problem| problem.kind.ids().contains(&&room.id));
            assert!(figures.room(&room.id).is_some() || is_told, "seed {seed}: {} is neither", room.id);
        }
        let area = |regions: &[Region]| regions.iter().map(Region::area).sum::<plan_geometry::Area>();
        let rooms = figures.rooms.iter().map(|room| room.floor_area).sum::<plan_geometry::Area>();
        assert!(rooms <= area(&figures.footprint), "seed {seed}: rooms larger than the house");
    }
    assert!(closed > 100, "{closed} rooms closed: the scribbles are too loose to say anything");
}
