//! A plan as the other program is told of it: what was drawn, and what we make of it.

use plan_geometry::{Derived, derive};
use plan_model::{Plan, Point, Selection, elements::PlacedBy};
use serde_json::{Value, json};

use super::{room_figures, way_figures};

/// One line for the other program. Lengths in grid steps, areas in square steps.
pub(super) struct Described(pub(super) Value);

impl Described {
    /// What was drawn, with our rooms.
    pub(super) fn with_rooms(plan: &Plan) -> Self {
        Self::with(plan, room_figures::of)
    }

    /// What was drawn, with our ways.
    pub(super) fn with_ways(plan: &Plan) -> Self {
        Self::with(plan, way_figures::of)
    }

    fn with(plan: &Plan, figures: impl FnOnce(&Derived) -> Value) -> Self {
        let mut described = drawn(plan);
        described["derived"] = figures(&derive(&plan.home(&Selection::default())));
        Self(described)
    }
}

/// The base of a plan in plain numbers: nothing here is worked out.
fn drawn(plan: &Plan) -> Value {
    let base = &plan.base;
    let walls = base.walls.iter().map(|wall| {
        let placed_by = match wall.placed_by {
            PlacedBy::Centre => "centre",
            PlacedBy::LeftFace => "left",
            PlacedBy::RightFace => "right",
        };
        json!({
            "id": wall.id,
            "ends": [point(wall.from), point(wall.to)],
            "thickness": wall.thickness.steps(),
            "by": placed_by,
        })
    });
    let columns = base.columns.iter().map(|column| json!([point(column.from), point(column.to)]));
    let boundaries = base.open_boundaries.iter().map(|boundary| json!([point(boundary.from), point(boundary.to)]));
    let rooms = base.rooms.iter().map(|room| json!({ "id": room.id, "at": point(room.at) }));
    let doors = base.doors.iter().map(|door| {
        let width = plan.catalogue.door(&door.unit).map(|unit| unit.width.steps());
        json!({ "id": door.id, "wall": door.wall, "at": door.at.steps(), "width": width })
    });
    let fixtures = base.fixtures.iter().map(|fixture| {
        json!({
            "kind": fixture.kind,
            "at": point(fixture.at),
            "faces": fixture.faces.direction(),
            "size": [fixture.width.steps(), fixture.depth.steps()],
        })
    });
    json!({
        "walls": walls.collect::<Value>(),
        "columns": columns.collect::<Value>(),
        "boundaries": boundaries.collect::<Value>(),
        "rooms": rooms.collect::<Value>(),
        "doors": doors.collect::<Value>(),
        "fixtures": fixtures.collect::<Value>(),
    })
}

pub(super) fn point(point: Point) -> Value {
    json!([point.x.steps(), point.y.steps()])
}
