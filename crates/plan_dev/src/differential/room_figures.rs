//! Our rooms and areas, for the other program.

use plan_geometry::{Area, Derived, ProblemKind, Region, RoomFigures};
use plan_model::Length;
use serde_json::{Value, json};

use super::described::point;

/// Sides at which qualifying areas are compared, as rule books have them: 5 ft and 7 ft.
const QUALIFYING: [Length; 2] = [Length::inches(60), Length::inches(84)];
/// The square of which it is compared where it can stand.
const STANDING: Length = Length::inches(36);

pub(super) fn of(derived: &Derived) -> Value {
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

/// No plan is larger than 200 m by 200 m: its area fits.
fn area(area: Area) -> i64 {
    i64::try_from(area.square_steps()).unwrap_or(i64::MAX)
}
