//! Laws that hold for every home: the same home drawn elsewhere keeps every figure, areas add up, what is moved and moved
//! back is as it was, and adding a wall never widens a passage.

use std::sync::Arc;

use plan_edit::{Command, Document, apply};
use plan_geometry::{Area, Derived, derive};
use plan_model::elements::{Column, ColumnKind, Room, RoomUse, Wall, WallKind};
use plan_model::{AlternateRef, Id, Length, Plan, Point, Selection, Units, file};
use plan_testkit::{Transform, cased_unit, doorway, empty_plan, room_with_outline};
use proptest::prelude::*;

const DUNLIN: &str = include_str!("../sample-plans/dunlin-58.json");

/// Every figure of a home that does not say where the home is drawn.
#[derive(Debug, PartialEq)]
pub(crate) struct Figures {
    heated: Option<Area>,
    problems: Vec<String>,
    rooms: Vec<String>,
    openings: Vec<String>,
    measures: Vec<String>,
    sweeps: Vec<[Id; 2]>,
}

/// Every measure but its marks. A mirror makes left of right, and lists that follow from places change their order.
fn measures(derived: &Derived) -> Vec<String> {
    let told = |measure: plan_geometry::Measure| {
        let mut of: Vec<&str> = measure.of.iter().map(plan_model::Id::as_str).collect();
        of.sort_unstable();
        let name = measure.name.word().replace("left", "side").replace("right", "side");
        format!("{name} {of:?} {:?}", measure.amount)
    };
    let mut measures: Vec<String> = derived.measures().iter().cloned().map(told).collect();
    measures.sort_unstable();
    measures
}

pub(crate) fn figures(derived: &Derived) -> Figures {
    let room = |room: &plan_geometry::RoomFigures| {
        let clear = room.sizes.rectangle();
        let space = &derived.spaces[room.space];
        let required = Area::from_square_steps(70 * Area::SQUARE_FOOT.square_steps());
        let passages: Vec<_> = room.passages().iter().map(|p| (&p.between, p.clear_width)).collect();
        let qualifying: Vec<_> = [36, 60, 84, 120].map(|side| space.sizes.qualifying_area(Length::inches(side))).into();
        let least = space.sizes.least_dimension(required);
        let (square, lowest) = (room.sizes.largest_square(), room.ceiling.lowest);
        format!(
            "{} {:?} {:?} {:?} {square:?} {qualifying:?} {least:?} {lowest:?} {passages:?}",
            room.id, room.floor_area, clear.width, clear.length
        )
    };
    let door = |door: &plan_geometry::DoorFigures| {
        let sides = [&door.sides[0].room, &door.sides[1].room];
        let mut sides: Vec<_> = sides.iter().map(|room| format!("{room:?}")).collect();
        sides.sort();
        let stopped = door.leaf.as_ref().map(|leaf| &leaf.stopped_by);
        let glass = &door.glazed_area;
        format!(
            "{} {sides:?} {} {stopped:?} {:?} {:?} {glass:?}",
            door.id, door.is_exterior, door.clear_width, door.clear_height
        )
    };
    let window = |window: &plan_geometry::WindowFigures| {
        let openable = &window.openable_area;
        format!("{} {:?} {:?} {:?} {openable:?}", window.id, window.clear_area, window.sill, window.glazed_area)
    };
    Figures {
        heated: derived.heated_area,
        problems: derived.problems.iter().map(|problem| problem.kind.to_string()).collect(),
        rooms: derived.rooms.iter().map(room).collect(),
        openings: derived.doors.iter().map(door).chain(derived.windows.iter().map(window)).collect(),
        measures: measures(derived),
        sweeps: derived
            .sweep_crossings()
            .iter()
            .map(|crossing| crossing.doors.clone())
            .chain(derived.swept_doorways().iter().map(|swept| [swept.door.clone(), swept.doorway.clone()]))
            .collect(),
    }
}

pub(crate) fn dunlin() -> Plan {
    file::read(DUNLIN).unwrap_or_else(|error| panic!("{error}"))
}

/// A selection of the demo home by one number for each choice.
pub(crate) fn selection(plan: &Plan, picks: &[usize]) -> Selection {
    plan.choices.iter().zip(picks).fold(Selection::included(plan), |selection, (choice, pick)| {
        let alternate = &choice.alternates[pick % choice.alternates.len()];
        let answer = AlternateRef { choice: choice.id.clone(), alternate: alternate.id.clone() };
        selection.with(plan, &answer).unwrap_or_else(|error| panic!("{error}"))
    })
}

pub(crate) fn picks() -> impl Strategy<Value = Vec<usize>> {
    prop::collection::vec(0..12_usize, 12)
}

/// A home of rooms side by side, each with its own width, divided by walls that run from front to back or half of it.
fn row_of_rooms() -> impl Strategy<Value = Plan> {
    prop::collection::vec((40..220_i64, prop::bool::ANY, 20..120_i64), 1..7).prop_map(|rooms| {
        let depth = 160;
        let total: i64 = rooms.iter().map(|(width, ..)| width + 5).sum::<i64>() - 5;
        let outline = [(0, 0), (total, 0), (total, depth), (0, depth)].map(|(x, y)| Point::inches(x, y));
        let mut plan = room_with_outline(&outline, Length::inches(6), RoomUse::Living, Point::inches(1, 1));
        plan.base.rooms.clear();
        let mut x = 0;
        for (index, (width, split, at)) in rooms.iter().enumerate() {
            let mut room = |part: &str, y: i64| {
                let id = format!("room-{index}{part}");
                plan.base.rooms.push(Room {
                    name: id.clone(),
                    id: id.into(),
                    usage: if index % 3 == 2 { RoomUse::Garage } else { RoomUse::Bedroom },
                    at: Point::inches(x + width / 2, y),
                });
            };
            room("a", 5);
            if *split {
                room("b", depth - 5);
            }
            let mut wall = |part: &str, from: (i64, i64), to: (i64, i64)| {
                plan.base.walls.push(Wall {
                    id: format!("partition-{index}{part}").into(),
                    kind: WallKind::Partition,
                    from: Point::inches(from.0, from.1),
                    to: Point::inches(to.0, to.1),
                    thickness: Length::inches(5),
                    placed_by: plan_model::elements::PlacedBy::LeftFace,
                    movable: true,
                });
            };
            if *split {
                wall("s", (x + width, 20 + at), (x, 20 + at));
            }
            if index + 1 < rooms.len() {
                wall("e", (x + width, 0), (x + width, depth));
            }
            x += width + 5;
        }
        plan
    })
}

fn assert_adds_up(derived: &Derived) {
    let rooms: Area = derived.rooms.iter().map(|room| room.floor_area).sum();
    let walls: Area = derived.wall_regions.iter().map(plan_geometry::Region::area).sum();
    let inside: Area = derived.footprint.iter().map(plan_geometry::Region::area).sum();
    assert_eq!(rooms + walls, inside, "rooms and walls fill the footprint");
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(48))]

    #[test]
    fn the_demo_home_drawn_elsewhere_keeps_its_figures(picks in picks(), x in -90_000_i64..90_000, y in -90_000_i64..90_000) {
        let plan = dunlin();
        let selection = selection(&plan, &picks);
        let here = derive(&plan.home(&selection));
        let by = Point::new(Length::from_steps(x), Length::from_steps(y));
        for transform in [Transform::Moved(by), Transform::QuarterTurned, Transform::Mirrored] {
            let elsewhere = transform.plan(&plan);
            let there = derive(&elsewhere.home(&selection));
            let (here, there) = (figures(&here), figures(&there));
            let differing: Vec<_> = here.measures.iter().zip(&there.measures).filter(|(one, other)| one != other).collect();
            prop_assert!(differing.is_empty(), "{:?}: {:#?}", transform, differing);
            prop_assert_eq!(here, there, "{:?}", transform);
        }
        assert_adds_up(&here);
    }

    #[test]
    fn units_do_not_matter(picks in picks()) {
        let plan = dunlin();
        let mut metric = plan.clone();
        metric.units = Units::Mm;
        let metric = file::read(&file::write(&metric)).unwrap_or_else(|error| panic!("{error}"));
        let selection = selection(&plan, &picks);
        prop_assert_eq!(&plan.base, &metric.base);
        prop_assert_eq!(figures(&derive(&plan.home(&selection))), figures(&derive(&metric.home(&selection))));
    }

    #[test]
    fn rows_of_rooms_drawn_elsewhere_keep_their_figures(plan in row_of_rooms()) {
        let here = derive(&plan.home(&Selection::default()));
        prop_assert_eq!(&here.problems, &[]);
        assert_adds_up(&here);
        for transform in [Transform::Moved(Point::inches(-777, 3)), Transform::QuarterTurned, Transform::Mirrored] {
            let elsewhere = transform.plan(&plan);
            prop_assert_eq!(figures(&here), figures(&derive(&elsewhere.home(&Selection::default()))), "{:?}", transform);
        }
    }

    /// By strips across the house: every warm column with the partitions beside it and the outer walls before and behind
    /// it; a cold column takes out its floor and the outer walls along it, the one at its end included.
    #[test]
    fn heated_area_is_the_sum_of_warm_strips(plan in row_of_rooms()) {
        let derived = derive(&plan.home(&Selection::default()));
        let is_cold = |room: &&plan_geometry::RoomFigures| !room.usage.is_heated();
        let columns = derived.rooms.iter().filter(|room| room.id.as_str().ends_with('a'));
        let across = |room: &plan_geometry::RoomFigures| {
            let xs = || room.region.outer.iter().map(|corner| corner.x);
            xs().max().unwrap_or_default() - xs().min().unwrap_or_default()
        };
        let cold: Length = columns.clone().filter(is_cold).map(across).sum();
        let cold_end = columns.max_by_key(|room| room.region.outer.iter().map(|c| c.x).max()).filter(is_cold).map_or(Length::ZERO, |_| Length::inches(6));
        let outside = derived.footprint.iter().flat_map(|region| &region.outer).map(|corner| corner.x);
        let whole = outside.clone().max().unwrap_or_default() - outside.min().unwrap_or_default();
        let expected = Area::of_rectangle(whole - cold - cold_end, Length::inches(160 + 2 * 6));
        prop_assert_eq!(derived.heated_area, Some(expected));
    }

    /// As long as the wall meets nothing new on its way and passes over no room's point: 10 in, in the demo home.
    #[test]
    fn a_wall_moved_and_moved_back_restores_everything(wall in 0..16_usize, halves in -20..20_i64, picks in picks()) {
        let plan = dunlin();
        let selection = selection(&plan, &picks);
        let movable: Vec<_> = plan.home(&selection).elements.walls.iter().filter(|w| w.movable).map(|w| w.id.clone()).collect();
        let wall = movable[wall % movable.len()].clone();
        let by = Length::from_steps(halves * Length::INCH.steps() / 2);
        let start = Document { plan: Arc::new(plan), selection };
        let before = figures(&derive(&start.home()));
        let there = apply(&start, &Command::MoveWall { wall: wall.clone(), by });
        prop_assume!(there.is_ok());
        let there = there.unwrap_or_else(|error| panic!("{error}"));
        let back = apply(&there, &Command::MoveWall { wall, by: -by }).unwrap_or_else(|error| panic!("{error}"));
        prop_assert_eq!(file::write(&start.plan), file::write(&back.plan));
        prop_assert_eq!(before, figures(&derive(&back.home())));
    }

    #[test]
    fn adding_a_wall_never_widens_a_passage(
        posts in prop::collection::vec((0..380_i64, 0..280_i64, 1..40_i64, 1..40_i64), 1..5),
        door in 0..350_i64,
    ) {
        let mut plan = hall(door);
        let mut before = width(&plan);
        for (index, (x, y, w, h)) in posts.into_iter().enumerate() {
            plan.base.columns.push(Column {
                id: format!("post-{index}").into(),
                kind: ColumnKind::Column,
                from: Point::inches(x, y),
                to: Point::inches(x + w, y + h),
            });
            let after = width(&plan);
            if let (Some(before), Some(after)) = (before, after) {
                prop_assert!(after <= before, "{} then {}", before.steps(), after.steps());
            }
            before = after.or(before);
        }
    }
}

/// An L-shaped hall, 100 in and 60 in wide, with a doorway at the end of one leg and one in the side of the other.
fn hall(door: i64) -> Plan {
    let outline = [(0, 0), (400, 0), (400, 100), (60, 100), (60, 300), (0, 300)].map(|(x, y)| Point::inches(x, y));
    let mut plan = room_with_outline(&outline, Length::inches(5), RoomUse::Hall, Point::inches(399, 99));
    plan.catalogue.doors.push(cased_unit("opening", Length::inches(30), Length::inches(80)));
    for (id, wall, at) in [("side", "wall-0", door), ("end", "wall-4", 15)] {
        plan.base.doors.push(doorway(id, "opening", wall, Length::inches(at)));
    }
    plan
}

/// None while a post covers the hall's point.
fn width(plan: &Plan) -> Option<Length> {
    let derived = derive(&plan.home(&Selection::default()));
    let hall = derived.room(&"room".into())?;
    hall.passages().first().map(|passage| passage.clear_width.value)
}

#[test]
fn a_plan_with_nothing_in_it_has_no_heated_area() {
    let derived = derive(&empty_plan().home(&Selection::default()));
    assert_eq!((derived.heated_area, derived.rooms.len()), (None, 0));
}
