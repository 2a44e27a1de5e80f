use std::collections::HashMap;
use std::sync::{Arc, OnceLock};

use plan_model::elements::RoomUse;
use plan_model::{Home, Id, Point};

use crate::alarms::AlarmsOf;
use crate::asked::Asked;
use crate::conflict::Solids;
use crate::daylight::DaylightOf;
use crate::free_floor::{FreeFloor, Standing};
use crate::heated::HeatedGround;
use crate::kernel::{Bounds, Whereabouts, union};
use crate::modules::Modules;
use crate::openings::{House, Openings, SweepCrossing, Sweeps, SweptDoorway};
use crate::passage::{PassagesOf, side_of};
use crate::room_graph::RoomGraphOf;
use crate::rooms::{Enclosing, Named, NamedFloor, NamedSpace};
use crate::walking::Walking;
use crate::{
    Area, CeilingFigures, ClearSizes, DoorFigures, Doorway, Enclosure, LandingFigures, Measure, Problem, Reach, Region,
    RoomFigures, Space, WallSolid, WindowFigures, alarms, daylight, fixture_space, heated, landings, measure, modules,
    openings, overhead, reach, room_graph, rooms, walking, walls,
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
    pub(crate) reach: Reach,
    enclosure: Asked<Enclosing>,
    pub(crate) room_graph: Asked<RoomGraphOf>,
    /// Of each room, in their order.
    pub(crate) daylight: Vec<Asked<DaylightOf>>,
    pub(crate) alarms: Asked<AlarmsOf>,
    pub(crate) fixture_space: Vec<fixture_space::Questions>,
    pub(crate) heated_ground: Option<Asked<HeatedGround>>,
    pub(crate) modules: Modules,
    sweeps: Asked<Sweeps>,
    pub(crate) walking: Walking,
    pub(crate) landings: Vec<LandingFigures>,
    /// The list of all measures, once somebody has asked for it.
    listed: OnceLock<Arc<[Measure]>>,
}

impl Derived {
    /// Every measure, in the order in which they are told; works out all that nobody has asked for yet. The list is kept:
    /// whoever holds on to it, or asks again, takes no copy.
    #[must_use]
    pub fn measures(&self) -> &Arc<[Measure]> {
        self.listed.get_or_init(|| self.list_measures().into())
    }

    fn list_measures(&self) -> Vec<Measure> {
        let families = [
            rooms::measures(self),
            overhead::measures(self),
            openings::measures(self),
            landings::measures(self),
            fixture_space::measures(self),
            reach::measures(self),
            walking::measures(self),
            room_graph::measures(self),
            daylight::measures(self),
            alarms::measures(self),
            modules::measures(self),
            heated::measures(self),
        ];
        let mut measures = Vec::with_capacity(families.iter().map(Vec::len).sum());
        for mut family in families {
            measures.append(&mut family);
        }
        measure::tell_apart(&mut measures);
        measures
    }

    /// What can be placed in rooms and led through them.
    #[must_use]
    pub const fn reach(&self) -> &Reach {
        &self.reach
    }

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
                let standing = space
                    .obstructions()
                    .iter()
                    .filter(|standing| region.contains(rooms::middle(standing.outline[0], standing.outline[2])));
                counted.push(Space {
                    ceilings: parts.iter().filter(inside).map(|room| room.ceiling.clone()).collect(),
                    rooms: parts.iter().filter(inside).map(|room| room.id.clone()).collect(),
                    floor_area: region.area(),
                    sizes: ClearSizes::of(region.clone(), self.mate_line),
                    free_floor: Asked::of(FreeFloor {
                        obstructions: standing.cloned().collect(),
                        region: region.clone(),
                    }),
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

    /// Leaves that sweep the same ground; worked out when somebody first asks for what leaves sweep.
    #[must_use]
    pub fn sweep_crossings(&self) -> &[SweepCrossing] {
        &self.sweeps.get().crossings
    }

    /// Leaves that sweep right before another door.
    #[must_use]
    pub fn swept_doorways(&self) -> &[SweptDoorway] {
        &self.sweeps.get().doorways
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
    Derivation { home, earlier: None }.derived()
}

/// Derives every figure of a home that differs from one derived before: what rests on the same things is kept, all else is
/// worked out anew. The outcome is that of [`derive()`].
#[must_use]
pub fn derive_after(earlier: &Derived, home: &Home<'_>) -> Derived {
    Derivation { home, earlier: Some(earlier) }.derived()
}

/// A home to derive, and what was derived of it before its last change.
struct Derivation<'a> {
    home: &'a Home<'a>,
    earlier: Option<&'a Derived>,
}

impl Derivation<'_> {
    fn derived(&self) -> Derived {
        let elements = &self.home.elements;
        let mut problems = Vec::new();
        let enclosing = Enclosing { walls: elements.walls.clone(), columns: elements.columns.clone() };
        let enclosure = Asked::after(self.earlier.map(|earlier| &earlier.enclosure), enclosing);
        let Enclosure { walls, wall_regions, footprint, floors } = enclosure.get().clone();
        let named = rooms::name(floors, elements, &walls, &wall_regions, &mut problems);
        problems.extend(walls::gaps(&walls));
        let is_heated = |floor: &NamedFloor| elements.rooms[floor.room].usage.is_heated();
        let heated: Vec<bool> = named.floors.iter().map(is_heated).collect();
        let heated_ground = (named.complete && !named.floors.is_empty()).then(|| {
            let regions = heated::ground(&footprint, &named.floors, &heated, &walls, &elements.columns);
            let earlier = self.earlier.and_then(|earlier| earlier.heated_ground.as_ref());
            Asked::after(earlier, HeatedGround { regions, modules: modules::outlines(self.home) })
        });
        let heated_area = heated_ground.as_ref().map(|ground| ground.question().area());
        let solids = Solids::of(elements, &walls);
        let house = House::of(&footprint, &named.floors);
        let mut openings = openings::openings(self.home, &walls, &house, &solids, &mut problems);
        solids.conflicts(elements, &mut problems);
        overhead::rivals(elements, &mut problems);
        let (rooms, spaces) = self.figures(named, &openings);
        let beside: HashMap<&Id, &RoomFigures> = rooms.iter().map(|room| (&room.id, room)).collect();
        openings::lower_doors(&mut openings.doors, &beside, &elements.soffits);
        let sweeps = Sweeps::of(&openings.doors, |side| openings::ground(side, &beside));
        let sweeps = Asked::after(self.earlier.map(|earlier| &earlier.sweeps), sweeps);
        let reach_before = self.earlier.map(|earlier| &earlier.reach);
        let reach = Reach::after(reach_before, self.mate_line(), &rooms, &spaces, &openings.doors);
        let earlier = self.earlier;
        let room_graph = RoomGraphOf::of(self.home, &rooms, &spaces, &openings.doors);
        let room_graph = Asked::after(earlier.map(|earlier| &earlier.room_graph), room_graph);
        let alarms = AlarmsOf::of(self.home, &rooms, &openings.doors, &room_graph);
        let standing = earlier.map(|earlier| earlier.fixture_space.as_slice());
        let modules = Modules::of(self.home, &walls, &footprint, &openings, earlier.map(|earlier| &earlier.modules));
        let walking = Walking::after(self.earlier.map(|earlier| &earlier.walking), &spaces, &rooms, &openings.doors);
        Derived {
            listed: OnceLock::new(),
            landings: landings::landings(&elements.landings, &openings.doors),
            fixture_space: fixture_space::questions(elements, &rooms, &spaces, &openings.doors, standing),
            daylight: daylight::of_rooms(&rooms, &openings, earlier.map(|earlier| earlier.daylight.as_slice())),
            alarms: Asked::after(earlier.map(|earlier| &earlier.alarms), alarms),
            room_graph,
            walls,
            wall_regions,
            footprint,
            rooms,
            spaces,
            doors: openings.doors,
            windows: openings.windows,
            heated_area,
            problems,
            mate_line: self.mate_line(),
            reach,
            enclosure,
            heated_ground,
            modules,
            sweeps,
            walking,
        }
    }

    fn mate_line(&self) -> Option<Point> {
        self.home.plan.mate_line.map(|line| line.to - line.from)
    }

    fn figures(&self, named: Named, openings: &Openings) -> (Vec<RoomFigures>, Vec<Space>) {
        let standing = Standing::of(&self.home.elements);
        let spaces = named.spaces.into_iter().enumerate();
        let mut spaces: Vec<Space> = spaces.map(|(at, space)| self.space(at, space, &standing)).collect();
        let doorways = Doorways::of(named.doorways, openings);
        let floors = named.floors.into_iter().enumerate();
        let rooms: Vec<_> = floors.map(|(at, floor)| self.room(at, floor, &spaces, &doorways)).collect();
        for room in &rooms {
            spaces[room.space].ceilings.push(room.ceiling.clone());
        }
        (rooms, spaces)
    }

    fn space(&self, at: usize, space: NamedSpace, standing: &Standing) -> Space {
        let elements = &self.home.elements;
        let rooms: Vec<Id> = space.rooms.iter().map(|room| elements.rooms[*room].id.clone()).collect();
        let earlier = self.earlier.and_then(|earlier| same(&earlier.spaces, at, |earlier| earlier.rooms == rooms));
        let region = kept(earlier.map(|earlier| &earlier.region), space.region);
        let free = FreeFloor { obstructions: standing.on(&region), region: region.clone() };
        Space {
            rooms,
            floor_area: region.area(),
            sizes: ClearSizes::after(earlier.map(|earlier| &earlier.sizes), region.clone(), self.mate_line()),
            free_floor: Asked::after(earlier.map(|earlier| &earlier.free_floor), free),
            region,
            ceilings: Vec::new(),
        }
    }

    fn room(&self, at: usize, floor: NamedFloor, spaces: &[Space], doorways: &Doorways<'_>) -> RoomFigures {
        let elements = &self.home.elements;
        let room = &elements.rooms[floor.room];
        let space = &spaces[floor.space];
        let earlier = self.earlier.and_then(|earlier| same(&earlier.rooms, at, |earlier| earlier.id == room.id));
        let is_whole = *space.region == *floor.region;
        let region = if is_whole { space.region.clone() } else { kept(earlier.map(|room| &room.region), floor.region) };
        let sizes = || ClearSizes::after(earlier.map(|room| &room.sizes), region.clone(), self.mate_line());
        let doorways = doorways.of_room(&room.id, &region);
        RoomFigures {
            id: room.id.clone(),
            usage: room.usage,
            space: floor.space,
            floor_area: if is_whole { space.floor_area } else { region.area() },
            sizes: if is_whole { space.sizes.clone() } else { sizes() },
            ceiling: Arc::new(CeilingFigures::of(&room.id, &region, elements)),
            passages: Asked::after(earlier.map(|room| &room.passages), PassagesOf { region: region.clone(), doorways }),
            region,
        }
    }
}

/// The one of a list that was derived earlier for the same thing, which most often stands at the same place.
fn same<T>(list: &[T], at: usize, is_same: impl Fn(&T) -> bool) -> Option<&T> {
    list.get(at).filter(|one| is_same(one)).or_else(|| list.iter().find(|one| is_same(one)))
}

/// What was derived earlier where nothing has changed, so that all that rests on it finds itself unchanged at a glance.
fn kept(earlier: Option<&Arc<Region>>, region: Arc<Region>) -> Arc<Region> {
    earlier.filter(|earlier| ***earlier == *region).cloned().unwrap_or(region)
}

/// All doorways of a home: its doors by the rooms on their sides, and its open boundaries.
struct Doorways<'a> {
    doors: HashMap<&'a Id, Vec<Doorway>>,
    boundaries: Vec<Doorway>,
    whereabouts: Whereabouts,
}

impl<'a> Doorways<'a> {
    fn of(boundaries: Vec<Doorway>, openings: &'a Openings) -> Self {
        let mut doors: HashMap<&Id, Vec<Doorway>> = HashMap::new();
        for door in &openings.doors {
            for side in &door.sides {
                if let Some(room) = &side.room {
                    doors.entry(room).or_default().push(Doorway { id: door.id.clone(), line: side.line });
                }
            }
        }
        let middles =
            boundaries.iter().map(|boundary| Bounds::around(&[rooms::middle(boundary.line[0], boundary.line[1])]));
        let whereabouts = Whereabouts::of(middles);
        Self { doors, boundaries, whereabouts }
    }

    /// The doorways of a room: its doors, and the open boundaries on its edge.
    fn of_room(&self, room: &Id, region: &Region) -> Vec<Doorway> {
        let mut doorways = self.doors.get(room).cloned().unwrap_or_default();
        let near = self.whereabouts.touching(Bounds::around(&region.outer)).into_iter();
        for boundary in near.map(|index| &self.boundaries[index]) {
            // Of one boundary's stretches the longest comes first.
            let is_told = doorways.last().is_some_and(|last| last.id == boundary.id);
            if !is_told && side_of(region, boundary.line).is_some() {
                doorways.push(boundary.clone());
            }
        }
        doorways
    }
}
