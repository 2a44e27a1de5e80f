use std::sync::Arc;

use plan_model::elements::RoomUse;
use plan_model::{Exact, Home, Id, Point};

use crate::kernel::union;
use crate::openings::{House, Openings};
use crate::passage::{Passages, side_of};
use crate::rooms::{Named, NamedFloor};
use crate::{
    Area, CeilingFigures, ClearSizes, DoorFigures, Doorway, Enclosure, Figure, Problem, Region, RoomFigures, Space,
    WallSolid, WindowFigures, conflict, heated, openings, overhead, rooms, walls,
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
    /// Heated area to the exterior finished face; unknown while a space has no room, a room does not close, or there is no
    /// room at all.
    pub heated_area: Option<Area>,
    /// What kept figures from being derived, and what conflicts in space.
    pub problems: Vec<Problem>,
    /// The direction of the mate line, which decides between equal directions of a room.
    mate_line: Option<Point>,
}

impl Derived {
    /// The figures of a room, if it closed.
    #[must_use]
    pub fn room(&self, id: &Id) -> Option<&RoomFigures> {
        self.rooms.iter().find(|room| room.id == *id)
    }

    /// The open spaces without the rooms whose use does not count: a study that is open to a hall is no larger for it.
    /// What is left of a space may fall into several.
    #[must_use]
    pub fn spaces_of(&self, counts: impl Fn(RoomUse) -> bool) -> Vec<Space> {
        let mut counted = Vec::new();
        for (index, space) in self.spaces.iter().enumerate() {
            let (parts, others): (Vec<&RoomFigures>, Vec<_>) =
                self.rooms.iter().filter(|room| room.space == index).partition(|room| counts(room.usage));
            if parts.is_empty() {
                continue;
            }
            if others.is_empty() {
                counted.push(space.clone());
                continue;
            }
            let boundaries = parts.iter().flat_map(|room| room.region.boundaries()).map(Vec::as_slice);
            for region in union(boundaries).into_iter().map(Arc::new) {
                let inside = |room: &&&RoomFigures| region.contains_inside(rooms::some_point(&room.region));
                counted.push(Space {
                    rooms: parts.iter().filter(inside).map(|room| room.id.clone()).collect(),
                    floor_area: region.area(),
                    sizes: ClearSizes::of(region.clone(), self.mate_line),
                    region,
                });
            }
        }
        counted
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
    let heated_area = (named.complete && !named.floors.is_empty())
        .then(|| heated::area(&footprint, &named.floors, &heated, &walls, &elements.columns));
    let solids = conflict::solids(elements, &walls);
    let house = House { footprint: &footprint, floors: &named.floors };
    let mut openings = openings::openings(home, &walls, &house, &solids, &mut problems);
    conflict::conflicts(home, &solids, &mut problems);
    overhead::rivals(elements, &mut problems);
    let (rooms, spaces) = figures(home, named, &openings);
    doors_under_ceilings(&mut openings.doors, &rooms);
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
        mate_line: home.plan.mate_line.map(|line| line.to - line.from),
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
                passages: Passages::between(doorways(home, &room.id, &floor.region, openings)),
                region: floor.region,
            }
        })
        .collect();
    (rooms, spaces)
}

/// A door that is higher than a ceiling beside it cannot be as high as its unit: how high it is, the plan does not say.
fn doors_under_ceilings(doors: &mut [DoorFigures], rooms: &[RoomFigures]) {
    for door in doors {
        let beside = door.sides.iter().filter_map(|side| side.room.as_ref());
        let ceilings = beside.filter_map(|id| rooms.iter().find(|room| room.id == *id)?.ceiling.lowest);
        let Some(lowest) = ceilings.min() else { continue };
        if door.clear_height.value().is_some_and(|height| height > Exact::from(i128::from(lowest.steps()))) {
            door.clear_height = Figure::Unknown("a ceiling beside the door is lower than its unit".to_owned());
        }
    }
}

/// The doorways of a room: its doors, and the open boundaries on its edge.
fn doorways(home: &Home<'_>, room: &Id, region: &Region, openings: &Openings) -> Vec<Doorway> {
    let doors = openings.doors.iter().flat_map(|door| {
        let sides = door.sides.iter().filter(|side| side.room.as_ref() == Some(room));
        sides.map(|side| Doorway { id: door.id.clone(), line: side.line })
    });
    let boundaries = home
        .elements
        .open_boundaries
        .iter()
        .map(|boundary| Doorway { id: boundary.id.clone(), line: [boundary.from, boundary.to] })
        .filter(|doorway| side_of(region, doorway.line).is_some());
    doors.chain(boundaries).collect()
}
