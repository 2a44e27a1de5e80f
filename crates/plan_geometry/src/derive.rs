use std::sync::Arc;

use plan_model::elements::RoomUse;
use plan_model::{Home, Id, Point};

use crate::openings::Openings;
use crate::rooms::{Named, NamedFloor};
use crate::{
    Area, CeilingFigures, ClearSizes, DoorFigures, Doorway, Enclosure, Problem, Region, RoomFigures, Space, WallSolid,
    WindowFigures, conflict, heated, openings, passage, rooms, walls,
};

/// Every figure of a home that follows from its drawing.
#[derive(Clone, Debug)]
pub struct Derived {
    /// Each wall as it stands.
    pub walls: Vec<WallSolid>,
    /// The union of all walls and columns, for drawing.
    pub wall_regions: Vec<Region>,
    /// The outer boundary of the house.
    pub footprint: Vec<Region>,
    /// The rooms that closed, in the order of the file.
    pub rooms: Vec<RoomFigures>,
    /// The open spaces, each once.
    pub spaces: Vec<Space>,
    /// Doors that stand in a wall.
    pub doors: Vec<DoorFigures>,
    /// Windows that stand in a wall.
    pub windows: Vec<WindowFigures>,
    /// Heated area to the exterior finished face; unknown while a space has no room or a room does not close.
    pub heated_area: Option<Area>,
    /// What kept figures from being derived, and what conflicts in space.
    pub problems: Vec<Problem>,
}

impl Derived {
    /// The figures of a room, if it closed.
    #[must_use]
    pub fn room(&self, id: &Id) -> Option<&RoomFigures> {
        self.rooms.iter().find(|room| room.id == *id)
    }

    /// The figures of a door, if it stands in a wall.
    #[must_use]
    pub fn door(&self, id: &Id) -> Option<&DoorFigures> {
        self.doors.iter().find(|door| door.id == *id)
    }

    /// The figures of a window, if it stands in a wall.
    #[must_use]
    pub fn window(&self, id: &Id) -> Option<&WindowFigures> {
        self.windows.iter().find(|window| window.id == *id)
    }
}

/// Derives every figure of a home.
#[must_use]
pub fn derive(home: &Home<'_>) -> Derived {
    let elements = &home.elements;
    let mut problems = Vec::new();
    let Enclosure { walls, wall_regions, footprint, floors } = Enclosure::of(&elements.walls, &elements.columns);
    let named = rooms::name(floors, elements, &walls, &wall_regions, &mut problems);
    problems.extend(walls::gaps(&walls));
    let is_heated = |floor: &NamedFloor| elements.rooms[floor.room].usage.is_heated();
    let heated: Vec<bool> = named.floors.iter().map(is_heated).collect();
    let heated_area = named.complete.then(|| heated::area(&footprint, &named.floors, &heated, &walls));
    let solids = conflict::solids(elements, &walls);
    let openings = openings::openings(home, &walls, &named.floors, &solids, &mut problems);
    conflict::conflicts(home, &solids, &mut problems);
    let (rooms, spaces) = figures(home, named, &openings);
    Derived {
        wall_regions,
        footprint,
        rooms,
        spaces,
        doors: openings.doors,
        windows: openings.windows,
        heated_area,
        problems,
        walls,
    }
}

fn figures(home: &Home<'_>, named: Named, openings: &Openings) -> (Vec<RoomFigures>, Vec<Space>) {
    let elements = &home.elements;
    let mate_line = home.plan.mate_line.map(|line| line.to - line.from);
    let spaces: Vec<Space> = named
        .spaces
        .into_iter()
        .map(|space| Space {
            rooms: space.rooms.iter().map(|room| elements.rooms[*room].id.clone()).collect(),
            floor_area: space.region.area(),
            sizes: ClearSizes::of(space.region.clone(), mate_line),
            region: space.region,
        })
        .collect();
    let rooms = named
        .floors
        .into_iter()
        .map(|floor| {
            let room = &elements.rooms[floor.room];
            let space = &spaces[floor.space];
            let is_whole = Arc::ptr_eq(&space.region, &floor.region);
            RoomFigures {
                id: room.id.clone(),
                usage: room.usage,
                space: floor.space,
                floor_area: if is_whole { space.floor_area } else { floor.region.area() },
                sizes: if is_whole { space.sizes.clone() } else { ClearSizes::of(floor.region.clone(), mate_line) },
                ceiling: CeilingFigures::of(&room.id, &floor.region, elements),
                passages: if room.usage == RoomUse::Hall {
                    passage::passages(&floor.region, &doorways(home, &room.id, &floor.region, openings))
                } else {
                    Vec::new()
                },
                region: floor.region,
            }
        })
        .collect();
    (rooms, spaces)
}

/// The doorways of a room: its doors, and the open boundaries on its edge.
fn doorways(home: &Home<'_>, room: &Id, region: &Region, openings: &Openings) -> Vec<Doorway> {
    let doors = openings.doors.iter().flat_map(|door| {
        let sides = door.sides.iter().filter(|side| side.room.as_ref() == Some(room));
        sides.map(|side| Doorway { id: door.id.clone(), line: side.line })
    });
    let on_edge = |line: [Point; 2]| {
        let middle = rooms::middle(line[0], line[1]);
        region.contains(middle) && !region.contains_inside(middle)
    };
    let boundaries = home
        .elements
        .open_boundaries
        .iter()
        .map(|boundary| Doorway { id: boundary.id.clone(), line: [boundary.from, boundary.to] })
        .filter(|doorway| on_edge(doorway.line));
    doors.chain(boundaries).collect()
}
