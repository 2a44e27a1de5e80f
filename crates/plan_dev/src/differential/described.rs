//! A plan as the other program is told of it: what was drawn, and what we make of it.

use plan_geometry::{Area, Derived, ProblemKind, Region, RoomFigures, derive};
use plan_model::{Length, Plan, Point, Selection, elements::PlacedBy};
use serde_json::{Value, json};

/// Sides at which qualifying areas are compared, as rule books have them: 5 ft and 7 ft.
const QUALIFYING: [Length; 2] = [Length::inches(60), Length::inches(84)];
/// The square of which it is compared where it can stand.
const STANDING: Length = Length::inches(36);

/// One line for the other program. Lengths in grid steps, areas in square steps.
pub(super) struct Described(pub(super) Value);

impl Described {
    /// Derives a plan and describes both.
    pub(super) fn of(plan: &Plan) -> Self {
        let home = plan.home(&Selection::default());
        let derived = derive(&home);
        let base = &plan.base;
        let walls = base.walls.iter().map(|wall| {
            let placed_by = match wall.placed_by {
                PlacedBy::Centre => "centre",
                PlacedBy::LeftFace => "left",
                PlacedBy::RightFace => "right",
            };
            json!({ "ends": [point(wall.from), point(wall.to)], "thickness": wall.thickness.steps(), "by": placed_by })
        });
        let columns = base.columns.iter().map(|column| json!([point(column.from), point(column.to)]));
        let boundaries = base.open_boundaries.iter().map(|boundary| json!([point(boundary.from), point(boundary.to)]));
        let rooms = base.rooms.iter().map(|room| json!({ "id": room.id, "at": point(room.at) }));
        Self(json!({
            "walls": walls.collect::<Value>(),
            "columns": columns.collect::<Value>(),
            "boundaries": boundaries.collect::<Value>(),
            "rooms": rooms.collect::<Value>(),
            "derived": figures(&derived),
        }))
    }
}

fn figures(derived: &Derived) -> Value {
    let unnamed = derived.problems.iter().filter(|problem| problem.kind == ProblemKind::SpaceWithoutRoom).count();
    let problems: Vec<String> = derived.problems.iter().map(|problem| problem.kind.to_string()).collect();
    json!({
        "rooms": derived.rooms.iter().map(room).collect::<Value>(),
        "unnamed": unnamed,
        "footprint": area(derived.footprint.iter().map(Region::area).sum()),
        "walls": area(derived.wall_regions.iter().map(Region::area).sum()),
        "problems": problems,
    })
}

fn room(room: &RoomFigures) -> Value {
    json!({
        "id": room.id,
        "outline": room.region.boundaries().map(|b| b.iter().map(|p| point(*p)).collect()).collect::<Vec<Value>>(),
        "area": area(room.floor_area),
        "qualifying": QUALIFYING.map(|side| area(room.sizes.qualifying_area(side))),
        "standing": area(room.sizes.inset(STANDING).area),
    })
}

fn point(point: Point) -> Value {
    json!([point.x.steps(), point.y.steps()])
}

/// No plan is larger than 200 m by 200 m: its area fits.
fn area(area: Area) -> i64 {
    i64::try_from(area.square_steps()).unwrap_or(i64::MAX)
}
