//! Laws of all ways: adding what one has to walk around never shortens a way, there and back is the same, and the same home
//! drawn elsewhere has the same ways; and ways are as long as those found by trying every sight line of the plan.

use plan_geometry::derive_after;
use plan_model::elements::RoomUse;
use plan_model::{Facing, Length, Plan, Point, Selection};
use plan_testkit::Transform;
use proptest::prelude::*;

use super::sight_lines::SightLines;
use super::{cabinet, derived, named, opening, p, room, wall};

/// What stands on the floor: two corners in inches.
type Cabinets = Vec<(i64, i64, i64, i64)>;

fn cabinets() -> impl Strategy<Value = Cabinets> {
    let cabinet = (-10..300_i64, -10..200_i64, 4..90_i64, 4..60_i64);
    prop::collection::vec(cabinet.prop_map(|(x, y, w, h)| (x, y, x + w, y + h)), 0..7)
}

/// Where two walls that divide a room of 300 x 200 in stand, and where the doors in all of them are.
#[derive(Clone, Debug)]
struct Divided {
    x: i64,
    y: i64,
    /// From 0 to 99, of the length that is left.
    doors: [i64; 5],
    width: i64,
}

fn divided() -> impl Strategy<Value = Divided> {
    (70..230_i64, 60..140_i64, prop::array::uniform5(0..100_i64), 16..40_i64).prop_map(|(x, y, doors, width)| Divided {
        x,
        y,
        doors,
        width,
    })
}

/// Three rooms: x up to `x` below `y` and above it, and the rest. Doors lead from each to the next, and outdoors at both ends.
fn plan_of(home: &Divided, cabinets: &Cabinets) -> Plan {
    let Divided { x, y, doors, width } = *home;
    let mut plan = room(&[(0, 0), (300, 0), (300, 200), (0, 200)], (1, 1));
    wall(&mut plan, "across", p(x, 0), p(x, 200));
    wall(&mut plan, "along", p(0, y), p(x, y));
    named(&mut plan, "above", RoomUse::Bedroom, p(1, 199));
    named(&mut plan, "right", RoomUse::Living, p(299, 1));
    let inches = Length::inches;
    let at = |door: i64, from: i64, to: i64| inches(from + (to - from - width) * door / 100);
    opening(&mut plan, "front", "wall-0", at(doors[0], 2, x - 2), inches(width));
    opening(&mut plan, "right-door", "wall-1", at(doors[1], 2, 198), inches(width));
    opening(&mut plan, "low", "across", at(doors[2], 2, y - 2), inches(width));
    opening(&mut plan, "high", "across", at(doors[3], y + 2, 198), inches(width));
    opening(&mut plan, "between", "along", at(doors[4], 2, x - 2), inches(width));
    for (x, y, to_x, to_y) in cabinets {
        cabinet(&mut plan, p(*x, *y), p(*to_x, *to_y));
    }
    plan
}

/// The plan turned by the angle whose cosine is 4/5 and whose sine is 3/5, to the nearest step.
fn slanted(plan: &Plan) -> Plan {
    let mut plan = plan.clone();
    let turned = |point: Point| {
        let (x, y) = (point.x.steps(), point.y.steps());
        let nearest = |fifths: i64| Length::from_steps((fifths * 2 + 5).div_euclid(10));
        Point::new(nearest(4 * x - 3 * y), nearest(3 * x + 4 * y))
    };
    for wall in &mut plan.base.walls {
        (wall.from, wall.to) = (turned(wall.from), turned(wall.to));
    }
    for room in &mut plan.base.rooms {
        room.at = turned(room.at);
    }
    for fixture in &mut plan.base.fixtures {
        fixture.at = turned(fixture.at);
        fixture.faces = Facing::new(-3, 4).expect("a direction");
    }
    plan
}

const DOORS: [&str; 5] = ["front", "right-door", "low", "high", "between"];

fn pairs() -> impl Iterator<Item = (&'static str, &'static str)> {
    DOORS.into_iter().flat_map(|one| DOORS.into_iter().map(move |other| (one, other)))
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(96))]

    /// Two lengths rounded down are as long to within a step; a leg through a place of a door that lies on half a step is
    /// not met here, all is whole and half inches.
    #[test]
    #[cfg_attr(debug_assertions, ignore = "heavy: runs with optimisation")]
    fn ways_are_the_shortest_of_all_sight_lines(home in divided(), cabinets in cabinets()) {
        let plan = plan_of(&home, &cabinets);
        let figures = derived(&plan);
        let lines = SightLines::of(&figures);
        for (one, other) in pairs().filter(|(one, other)| one < other) {
            let found = figures.walk(&one.into(), &other.into()).map(|way| way.length.value);
            let expected = lines.shortest(one, other);
            let agree = match (found, expected) {
                (Some(found), Some(expected)) => (found - expected).abs() <= Length::from_steps(1),
                (found, expected) => found == expected,
            };
            prop_assert!(agree, "{one} to {other}: {found:?}, all sight lines: {expected:?}");
        }
    }

    #[test]
    fn something_more_to_walk_around_never_shortens_a_way(home in divided(), cabinets in cabinets()) {
        let (mut plan, mut before) = (plan_of(&home, &Vec::new()), None);
        for (x, y, to_x, to_y) in cabinets {
            cabinet(&mut plan, p(x, y), p(to_x, to_y));
            let selection = Selection::default();
            let figures = match &before {
                Some(before) => derive_after(before, &plan.home(&selection)),
                None => derived(&plan),
            };
            let anew = derived(&plan);
            for (one, other) in pairs() {
                let after = figures.walk(&one.into(), &other.into());
                prop_assert_eq!(&after, &anew.walk(&one.into(), &other.into()), "what is kept is what is worked out anew");
                let there = before.as_ref().map(|before| before.walk(&one.into(), &other.into()));
                let shorter = match (&there, &after) {
                    (Some(Some(there)), Some(after)) => after.length.value < there.length.value,
                    (Some(None), Some(_)) => true,
                    _ => false,
                };
                prop_assert!(!shorter, "{one} to {other}: {there:?} then {after:?}");
            }
            before = Some(figures);
        }
    }

    #[test]
    fn there_and_back_and_drawn_elsewhere_is_as_far(home in divided(), cabinets in cabinets()) {
        let plan = plan_of(&home, &cabinets);
        let here = derived(&plan);
        let by = Point::new(Length::from_steps(-77_777), Length::from_steps(123));
        let elsewhere = [Transform::Moved(by), Transform::QuarterTurned, Transform::Mirrored].map(|t| derived(&t.plan(&plan)));
        for (one, other) in pairs() {
            let way = here.walk(&one.into(), &other.into());
            let mut back = here.walk(&other.into(), &one.into());
            if let Some(back) = &mut back {
                back.path.reverse();
            }
            prop_assert_eq!(&way, &back);
            let length = way.map(|way| way.length);
            for there in &elsewhere {
                prop_assert_eq!(length, there.walk(&one.into(), &other.into()).map(|way| way.length));
            }
        }
    }

    /// To within what the corners of a way are rounded by. Every gap is between whole inches here, and so as wide as the least
    /// gap or clear of it by far more than that. What stands in a wall or a doorway is left out: to which space it belongs
    /// may hang on a step.
    #[test]
    fn off_the_axes_ways_are_as_long(home in divided(), cabinets in cabinets()) {
        let mut plan = plan_of(&home, &Vec::new());
        for (x, y, to_x, to_y) in cabinets {
            cabinet(&mut plan, p(x, y), p(to_x, to_y));
            if !derived(&plan).problems.is_empty() {
                plan.base.fixtures.pop();
            }
        }
        let (square, slanted) = (derived(&plan), derived(&slanted(&plan)));
        for (one, other) in pairs() {
            let [here, there] = [&square, &slanted].map(|figures| figures.walk(&one.into(), &other.into()));
            let agree = match (&here, &there) {
                (Some(here), Some(there)) => {
                    (here.length.value - there.length.value).abs() <= there.length.slack
                }
                (here, there) => here.is_none() == there.is_none(),
            };
            prop_assert!(agree, "{one} to {other}: {here:?}, slanted {there:?}");
        }
    }

    /// Whatever stands wherever, at any angle, and wherever openings overlap: ways are told or there are none.
    #[test]
    fn nothing_that_is_drawn_is_too_odd(
        home in divided(),
        things in prop::collection::vec((-20..320_i64, -20..220_i64, 0..60_i64, 0..60_i64, -9..9_i32, -9..9_i32), 0..9),
        openings in prop::collection::vec((0..6_usize, 0..200_i64, 0..90_i64), 0..6),
        is_slanted in prop::bool::ANY,
    ) {
        let mut plan = plan_of(&home, &Vec::new());
        if is_slanted {
            plan = slanted(&plan);
        }
        for (x, y, width, depth, dx, dy) in things {
            cabinet(&mut plan, p(x, y), p(x + width, y + depth));
            if let (Some(fixture), Some(faces)) = (plan.base.fixtures.last_mut(), Facing::new(dx, dy)) {
                fixture.faces = faces;
            }
        }
        for (index, (wall, at, width)) in openings.into_iter().enumerate() {
            let wall = ["wall-0", "wall-1", "wall-2", "wall-3", "across", "along"][wall];
            opening(&mut plan, &format!("more-{index}"), wall, Length::inches(at), Length::inches(width));
        }
        let figures = derived(&plan);
        let doors: Vec<_> = figures.doors.iter().map(|door| door.id.clone()).collect();
        for (one, other) in doors.iter().flat_map(|one| doors.iter().map(move |other| (one, other))) {
            if let Some(way) = figures.walk(one, other) {
                let [from, to] = [one, other].map(|id| figures.door(id).expect("it is there").outline);
                // No way is shorter than the straight line.
                let middle = |outline: [Point; 4]| {
                    let half = |a: Length, b: Length| Length::from_steps((a.steps() + b.steps()).div_euclid(2));
                    Point::new(half(outline[0].x, outline[2].x), half(outline[0].y, outline[2].y))
                };
                let apart = middle(from) - middle(to);
                let across = apart.x.abs().max(apart.y.abs());
                prop_assert!(way.length.value + Length::from_steps(4) >= across);
            }
        }
        prop_assert!(figures.measures().len() >= figures.ways_out().len());
    }
}
