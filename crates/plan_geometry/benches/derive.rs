//! How long homes take to derive, with every measure.

use criterion::{BenchmarkId, Criterion, criterion_group, criterion_main};
use plan_geometry::{Enclosure, derive, derive_after};
use plan_model::elements::{PlacedBy, Wall, WallKind};
use plan_model::{Length, Plan, Point, Selection, file};
use plan_testkit::block_of_rooms;
use std::hint::black_box;

/// The allocator of the program.
#[global_allocator]
static ALLOCATOR: mimalloc::MiMalloc = mimalloc::MiMalloc;

const DUNLIN: &str = include_str!("../../../sample-plans/dunlin-58.json");
/// The walls that the outside program is timed with as well.
const WALLS: &str = include_str!("../../plan_dev/bench/walls_60.json");

/// A wall of the demo home that a designer drags, and how far.
const DRAGGED: (&str, Length) = ("bedroom-2-closet-wall", Length::INCH);

/// Columns and rows of rooms for about 60, 200, 600, 2,000 and 6,000 walls.
const BLOCKS: [(usize, usize); 5] = [(5, 5), (10, 9), (17, 17), (31, 31), (54, 55)];

fn dunlin() -> Plan {
    file::read(DUNLIN).unwrap_or_else(|error| panic!("{error}"))
}

fn dragged(mut plan: Plan) -> Plan {
    let wall = plan.all_elements_mut().flat_map(|e| &mut e.walls).find(|wall| wall.id.as_str() == DRAGGED.0);
    // Without the wall nothing would change, and the bench would time that.
    let Some(wall) = wall else { panic!("the demo home has no wall {}", DRAGGED.0) };
    (wall.from.x, wall.to.x) = (wall.from.x + DRAGGED.1, wall.to.x + DRAGGED.1);
    plan
}

/// The demo home from nothing: laid out from the plan, then every measure of it.
fn derive_home(criterion: &mut Criterion) {
    let plan = dragged(dunlin());
    let selection = Selection::included(&plan);
    criterion.bench_function("derive_home", |bencher| {
        bencher.iter(|| derive(&black_box(&plan).home(&selection)).measures().clone());
    });
}

/// One step of a drag: the demo home laid out from the plan with one wall moved, then every measure of it, with what was
/// derived before the step at hand.
fn derive_after_move(criterion: &mut Criterion) {
    let (plan, moved) = (dunlin(), dragged(dunlin()));
    let selection = Selection::included(&plan);
    let before = derive(&plan.home(&selection));
    let _ = before.measures();
    criterion.bench_function("derive_after_move", |bencher| {
        bencher.iter(|| derive_after(&before, &black_box(&moved).home(&selection)).measures().clone());
    });
}

fn rooms_60_walls(criterion: &mut Criterion) {
    let walls = sixty_walls();
    assert_eq!(walls.len(), 60, "the file holds sixty walls");
    criterion.bench_function("rooms_60_walls", |bencher| {
        bencher.iter(|| Enclosure::of(black_box(&walls), &[]).floors);
    });
}

fn sixty_walls() -> Vec<Wall> {
    let listed: Vec<serde_json::Value> = serde_json::from_str(WALLS).unwrap_or_default();
    let inches = |value: &serde_json::Value| Length::nearest_to_inches(value.as_f64().unwrap_or_default());
    let point = |value: &serde_json::Value| Point::new(inches(&value[0]), inches(&value[1]));
    let wall = |(index, wall): (usize, &serde_json::Value)| Wall {
        id: format!("wall-{index}").into(),
        kind: WallKind::Partition,
        from: point(&wall["from"]),
        to: point(&wall["to"]),
        thickness: inches(&wall["thickness"]),
        placed_by: PlacedBy::Centre,
        movable: false,
    };
    listed.iter().enumerate().map(wall).collect()
}

/// Rooms and their areas alone, and every measure, of blocks of ever more rooms.
fn by_walls(criterion: &mut Criterion) {
    for (name, every_measure) in [("rooms", false), ("derive", true)] {
        let mut group = criterion.benchmark_group(format!("{name}_by_walls"));
        group.sample_size(10);
        for (columns, rows) in BLOCKS {
            let plan = block_of_rooms(columns, rows);
            let home = plan.home(&Selection::included(&plan));
            let walls = plan.base.walls.len();
            if every_measure {
                let run =
                    |bencher: &mut criterion::Bencher<'_>| bencher.iter(|| derive(black_box(&home)).measures().clone());
                group.bench_function(BenchmarkId::from_parameter(walls), run);
            } else {
                let areas = || {
                    let floors = Enclosure::of(black_box(&plan.base.walls), &[]).floors;
                    floors.iter().map(plan_geometry::Region::area).collect::<Vec<_>>()
                };
                group.bench_function(BenchmarkId::from_parameter(walls), |bencher| bencher.iter(areas));
            }
        }
        group.finish();
    }
}

criterion_group!(benches, derive_home, derive_after_move, rooms_60_walls, by_walls);
criterion_main!(benches);
