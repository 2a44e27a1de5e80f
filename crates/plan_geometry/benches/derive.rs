//! How long a home takes to derive.

use criterion::{Criterion, criterion_group, criterion_main};
use plan_geometry::{Enclosure, derive};
use plan_model::elements::{PlacedBy, Wall, WallKind};
use plan_model::{Length, Plan, Point, Selection, file};
use std::hint::black_box;

const DUNLIN: &str = include_str!("../../../sample-plans/dunlin-58.json");
/// The walls that the outside program is timed with as well.
const WALLS: &str = include_str!("../../plan_dev/bench/walls_60.json");

/// A wall of the demo home that a designer drags, and how far.
const DRAGGED: (&str, Length) = ("flex-closet-wall", Length::INCH);

fn dunlin() -> Plan {
    file::read(DUNLIN).unwrap_or_else(|error| panic!("{error}"))
}

/// Everything that one step of a drag needs: the home laid out from the plan with one wall moved, then all its figures.
fn derive_home(criterion: &mut Criterion) {
    let mut plan = dunlin();
    let dragged = plan.all_elements_mut().flat_map(|e| &mut e.walls).find(|wall| wall.id.as_str() == DRAGGED.0);
    if let Some(wall) = dragged {
        wall.from.x += DRAGGED.1;
        wall.to.x += DRAGGED.1;
    }
    let selection = Selection::included(&plan);
    criterion.bench_function("derive_home", |bencher| {
        bencher.iter(|| derive(&black_box(&plan).home(&selection)));
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

criterion_group!(benches, derive_home, rooms_60_walls);
criterion_main!(benches);
