//! Doors and windows as they stand, and what of them is clear.

mod clear;
mod contact;
mod door;
mod headroom;
mod leaf;
mod place;
mod sector;
mod sweep;
mod tell;
mod window;

use plan_model::Home;

use crate::Problem;
use crate::conflict::Solids;
use crate::walls::WallSolid;
use leaf::Obstacles;
use place::{AllTaken, Walls};

pub use door::DoorFigures;
pub(crate) use headroom::lower as lower_doors;
pub use leaf::{Leaf, Stop};
pub(crate) use place::House;
pub use place::Side;
pub use sweep::{SweepCrossing, SweptDoorway};
pub(crate) use sweep::{Sweeps, ground};
pub(crate) use tell::measures;
pub use window::WindowFigures;

/// All openings of a home.
pub(crate) struct Openings {
    pub(crate) doors: Vec<DoorFigures>,
    pub(crate) windows: Vec<WindowFigures>,
}

/// Places every opening in its wall and works out what of it is clear.
pub(crate) fn openings(
    home: &Home<'_>,
    solid_walls: &[WallSolid],
    house: &House<'_>,
    solids: &Solids<'_>,
    problems: &mut Vec<Problem>,
) -> Openings {
    let elements = &home.elements;
    let catalogue = &home.plan.catalogue;
    let mut taken = AllTaken::default();
    let walls = Walls::of(&elements.walls, solid_walls);
    let obstacles = Obstacles { walls: &walls, solids };
    let mut doors = Vec::new();
    for (index, door) in elements.doors.iter().enumerate() {
        let Some(unit) = catalogue.door(&door.unit) else { continue };
        let Some(host) = walls.host(&door.id, &door.wall, problems) else { continue };
        let Some(mut cut) = host.cut(&door.id, door.at, unit.width, &mut taken, problems) else { continue };
        let leaf_wall_outline = cut.outline();
        if let Some(through) = &door.through {
            cut = place::through_other(&walls, door, through, cut, &mut taken, problems);
        }
        let sides = cut.sides(&door.id, &elements.rooms, &walls, house, problems);
        let leaf = leaf::leaf(door, unit.width, &host, leaf_wall_outline, &obstacles);
        doors.push(DoorFigures {
            id: door.id.clone(),
            index,
            outline: cut.outline(),
            leaf_wall_outline,
            is_exterior: leads_outdoors(&sides),
            sides,
            clear_width: door::clear_width(catalogue, unit, leaf.as_ref()),
            clear_height: door::clear_height(catalogue, unit),
            glazed_area: door::glazed_area(unit),
            leaf,
        });
    }
    let mut windows = Vec::new();
    for (index, window) in elements.windows.iter().enumerate() {
        let Some(unit) = catalogue.window(&window.unit) else { continue };
        let Some(host) = walls.host(&window.id, &window.wall, problems) else {
            continue;
        };
        let Some(cut) = host.cut(&window.id, window.at, unit.width, &mut taken, problems) else { continue };
        let sides = cut.sides(&window.id, &elements.rooms, &walls, house, problems);
        windows.push(window::figures(window, index, unit, catalogue, cut.outline(), sides));
    }
    place::walls_in_openings(&walls, &taken, problems);
    place::columns_at_openings(&elements.columns, &taken, problems);
    Openings { doors, windows }
}

fn leads_outdoors([left, right]: &[Side; 2]) -> bool {
    left.room.is_some() && right.is_outdoors || left.is_outdoors && right.room.is_some()
}
