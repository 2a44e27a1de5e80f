//! Homes whose rooms have a given outline, to the finished faces.

use plan_model::elements::{Elements, PlacedBy, Room, RoomUse, Wall, WallKind};
use plan_model::{Catalogue, HomeFacts, LegalKind, Length, Money, Plan, Point, Units};

/// A plan with nothing in it.
#[must_use]
pub fn empty_plan() -> Plan {
    Plan {
        mateline_plan: Plan::VERSION,
        name: "Test home".into(),
        maker: "Quillback Homes".into(),
        units: Units::In,
        currency: "USD".into(),
        base_price: Money::ZERO,
        prices: None,
        home: HomeFacts {
            legal_kind: LegalKind::StateLabel,
            floor_above_grade: None,
            whole_house_ventilation: None,
            up_bearing: None,
            eaves: Vec::new(),
        },
        modules: Vec::new(),
        mate_line: None,
        catalogue: Catalogue::default(),
        base: Elements::default(),
        choices: Vec::new(),
        counts: Vec::new(),
    }
}

/// A home of one room with this outline, counter-clockwise, to the finished faces, between walls of one thickness.
/// The room's id is `room`.
#[must_use]
pub fn room_with_outline(outline: &[Point], thickness: Length, usage: RoomUse, anchor: Point) -> Plan {
    let mut plan = empty_plan();
    let ends = outline.iter().zip(outline.iter().cycle().skip(1));
    let wall = |(index, (from, to)): (usize, (&Point, &Point))| Wall {
        id: format!("wall-{index}").into(),
        kind: WallKind::Exterior,
        from: *from,
        to: *to,
        thickness,
        placed_by: PlacedBy::LeftFace,
        movable: false,
    };
    plan.base.walls = ends.enumerate().map(wall).collect();
    plan.base.rooms.push(Room { id: "room".into(), name: "Room".into(), usage, at: anchor });
    plan
}
