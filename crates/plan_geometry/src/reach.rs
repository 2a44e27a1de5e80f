//! What can be placed on a floor, or led over it.
//!
//! The floor that counts is that which nothing stands on ([`Space::free_floor`]). Sets are closed: a disc as wide as the
//! room fits, and one as wide as a neck passes it.

mod disc;
mod equidistant;
mod floor;
mod rectangle;
mod way_in;
mod ways;

use std::collections::BTreeMap;

use plan_model::{Id, Length, Point};

use crate::asked::Asked;
use crate::free_floor::{self, FreeFloor};
use crate::passage::Pinch;
use crate::{Amount, Derived, DoorFigures, Doorway, Figure, Mark, Measure, MeasureName, Measured, RoomFigures, Space};

pub use floor::LargestDisc;
use floor::{ClearFloorOn, Floor, LargestDiscOn, PlaceForDisc};
use way_in::{Door, Entered, Port, WaysInOf};
pub use way_in::{Narrowest, WayIn};
pub use ways::RouteWidth;
use ways::WaysOf;

/// Diameter of a turning circle: 60 in.
///
/// Source: ADA Standards 304.3.
const TURNING_CIRCLE: Length = Length::inches(60);

/// What can be placed in the rooms and spaces of a home, and led through them; worked out when it is first asked for.
#[derive(Clone, Debug)]
pub struct Reach {
    rooms: Vec<RoomReach>,
    spaces: Vec<SpaceReach>,
    ways_in: Asked<WaysInOf>,
}

/// What can be placed in a room, on its own part of the floor.
#[derive(Clone, Debug)]
pub struct RoomReach {
    /// The room.
    pub id: Id,
    floor: Floor,
    largest: Asked<LargestDiscOn>,
    /// None where the room is a whole space, whose largest disc is asked for anyway.
    turning_circle: Option<Asked<PlaceForDisc>>,
    clear_floor: Asked<ClearFloorOn>,
}

impl RoomReach {
    /// The largest disc on the room's floor; none where nothing of it is free.
    #[must_use]
    pub fn largest_disc(&self) -> Option<LargestDisc> {
        *self.largest.get()
    }

    /// The centre of a place for a disc of this diameter, if there is one.
    #[must_use]
    pub fn place_disc(&self, diameter: Length) -> Option<Point> {
        self.largest_disc().filter(|largest| largest.holds(diameter)).map(|largest| largest.centre)
    }

    /// The centre of a place for a turning circle of 60 in, if there is one.
    ///
    /// Source: ADA Standards 304.3.
    #[must_use]
    pub fn turning_circle(&self) -> Option<Point> {
        match &self.turning_circle {
            Some(place) => *place.get(),
            None => self.place_disc(TURNING_CIRCLE),
        }
    }

    /// The corners of a place for a rectangle of this size, if there is one. It lies in the room's direction, either way
    /// round.
    #[must_use]
    pub fn place_rectangle(&self, size: [Length; 2]) -> Option<[Point; 4]> {
        self.floor.place_rectangle(size)
    }

    /// The corners of a place for a clear floor space of 30 x 48 in, if there is one.
    ///
    /// Source: ADA Standards 305.3.
    #[must_use]
    pub fn clear_floor(&self) -> Option<[Point; 4]> {
        *self.clear_floor.get()
    }

    /// Whether a rectangle can be slid, without a turn, from having its middle at one place to having it at the other.
    /// Its first side lies along the room's direction.
    #[must_use]
    pub fn rectangle_leads(&self, size: [Length; 2], from: Point, to: Point) -> bool {
        self.floor.rectangle_leads(size, from, to)
    }
}

/// What can be placed in an open space, and led over its floor from door to door.
#[derive(Clone, Debug)]
pub struct SpaceReach {
    largest: Asked<LargestDiscOn>,
    ways: Asked<WaysOf>,
}

impl SpaceReach {
    /// The largest disc on the space's floor; none where nothing of it is free.
    #[must_use]
    pub fn largest_disc(&self) -> Option<LargestDisc> {
        *self.largest.get()
    }

    /// The widest body that can be led between two doors of the space; none if one of them is no door of it.
    ///
    /// As in a [`Passage`](crate::Passage), a disc is at a door when it lies on the floor and touches the door's line. Here
    /// nothing is closed: a recess that a body has to go into narrows its way.
    #[must_use]
    pub fn route_width(&self, from: &Id, to: &Id) -> Option<RouteWidth> {
        self.ways.route_width(from, to)
    }

    /// The centre of a place for a disc to which a body can be led from a door, if there is one. A disc narrower than the
    /// body stands wherever the body does.
    #[must_use]
    pub fn leads_to_disc(&self, door: &Id, body: Length, disc: Length) -> Option<Point> {
        self.ways.leads_to_disc(door, body, disc)
    }
}

impl Reach {
    /// Prepares all questions of a home, with the answers that were given `earlier` to the same ones.
    pub(crate) fn after(
        earlier: Option<&Self>,
        mate_line: Option<Point>,
        rooms: &[RoomFigures],
        spaces: &[Space],
        doors: &[DoorFigures],
    ) -> Self {
        let index: BTreeMap<&Id, usize> = rooms.iter().enumerate().map(|(at, room)| (&room.id, at)).collect();
        let mut ways: Vec<WaysOf> = spaces
            .iter()
            .map(|space| WaysOf { free: space.free_floor.clone(), doors: Vec::new(), boundaries: Vec::new() })
            .collect();
        let doors: Vec<Door> = doors
            .iter()
            .map(|door| {
                let port = |side: &crate::Side| {
                    let room = *index.get(side.room.as_ref()?)?;
                    let space = rooms[room].space;
                    let doorways = &mut ways.get_mut(space)?.doors;
                    doorways.push(Doorway { id: door.id.clone(), line: side.line });
                    Some(Port { room, space, doorway: doorways.len() - 1 })
                };
                let sides = door.sides.each_ref().map(port);
                let (clear_width, is_exterior) = (door.clear_width.clone(), door.is_exterior);
                Door { id: door.id.clone(), clear_width, is_exterior, sides }
            })
            .collect();
        let mut entered = Vec::new();
        for room in rooms {
            let mut boundaries = Vec::new();
            if let Some(ways) = ways.get_mut(room.space).filter(|_| spaces[room.space].rooms.len() > 1) {
                let is_door = |doorway: &Doorway| ways.doors.iter().any(|door| door.id == doorway.id);
                for boundary in room.doorways().iter().filter(|doorway| !is_door(doorway)) {
                    let known = ways.boundaries.iter().position(|known| known.id == boundary.id);
                    boundaries.push(known.unwrap_or(ways.boundaries.len()));
                    if known.is_none() {
                        ways.boundaries.push(boundary.clone());
                    }
                }
            }
            entered.push(Entered { id: room.id.clone(), space: room.space, boundaries });
        }
        let spaces_before = earlier.map_or(&[][..], |earlier| &earlier.spaces);
        let space_reach = |(at, (space, ways)): (usize, (&Space, WaysOf))| {
            let earlier = spaces_before.get(at);
            let floor = Floor { free: space.free_floor.clone(), sizes: space.sizes.clone(), mate_line };
            SpaceReach {
                largest: Asked::after(earlier.map(|earlier| &earlier.largest), LargestDiscOn(floor)),
                ways: Asked::after(earlier.map(|earlier| &earlier.ways), ways),
            }
        };
        let space_reach: Vec<SpaceReach> = spaces.iter().zip(ways).enumerate().map(space_reach).collect();
        let room_reach = rooms.iter().enumerate().map(|(at, room)| {
            let earlier = earlier.and_then(|earlier| earlier.rooms.get(at)).filter(|earlier| earlier.id == room.id);
            RoomReach::after(earlier, mate_line, room, &spaces[room.space], &space_reach[room.space])
        });
        let ways_in =
            WaysInOf { spaces: space_reach.iter().map(|space| space.ways.clone()).collect(), doors, rooms: entered };
        Self {
            rooms: room_reach.collect(),
            ways_in: Asked::after(earlier.map(|earlier| &earlier.ways_in), ways_in),
            spaces: space_reach,
        }
    }

    /// What can be placed in a room, if it closed.
    #[must_use]
    pub fn room(&self, id: &Id) -> Option<&RoomReach> {
        self.rooms.iter().find(|room| room.id == *id)
    }

    /// What can be placed in an open space, by its index in [`Derived::spaces`], and led over its floor.
    #[must_use]
    pub fn space(&self, index: usize) -> Option<&SpaceReach> {
        self.spaces.get(index)
    }

    /// The widest body that can be led from outdoors to each room, in the order of [`Derived::rooms`].
    #[must_use]
    pub fn ways_in(&self) -> &[WayIn] {
        self.ways_in.get()
    }
}

impl RoomReach {
    fn after(
        earlier: Option<&Self>,
        mate_line: Option<Point>,
        room: &RoomFigures,
        space: &Space,
        whole: &SpaceReach,
    ) -> Self {
        let id = room.id.clone();
        let is_whole = std::sync::Arc::ptr_eq(&room.region, &space.region);
        let free = if is_whole {
            space.free_floor.clone()
        } else {
            let obstructions = free_floor::over(&room.region, space.obstructions());
            let earlier = earlier.map(|earlier| &earlier.floor.free);
            Asked::after(earlier, FreeFloor { region: room.region.clone(), obstructions })
        };
        let floor = Floor { free, sizes: room.sizes.clone(), mate_line };
        let largest = if is_whole {
            whole.largest.clone()
        } else {
            Asked::after(earlier.map(|earlier| &earlier.largest), LargestDiscOn(floor.clone()))
        };
        let clear_floor = Asked::after(earlier.map(|earlier| &earlier.clear_floor), ClearFloorOn(floor.clone()));
        let turning_circle = (!is_whole).then(|| {
            let place = PlaceForDisc { floor: floor.clone(), diameter: TURNING_CIRCLE };
            Asked::after(earlier.and_then(|earlier| earlier.turning_circle.as_ref()), place)
        });
        Self { id, floor, largest, turning_circle, clear_floor }
    }
}

/// Largest discs, turning circles, clear floor spaces and the widest body that gets in.
pub(crate) fn measures(derived: &Derived) -> Vec<Measure> {
    let reach = &derived.reach;
    let mut measures = Vec::new();
    let disc = |centre: Point, diameter: Length| Mark::Disc { centre, diameter };
    for (space, figures) in reach.spaces.iter().zip(&derived.spaces) {
        let largest = space.largest_disc();
        measures.push(Measure {
            name: MeasureName::LargestDisc,
            part: None,
            of: figures.rooms.clone(),
            amount: Amount::Length(largest.map_or(Measured::exact(Length::ZERO), |largest| largest.diameter)),
            marks: largest.map(|largest| disc(largest.centre, largest.diameter.value)).into_iter().collect(),
        });
    }
    for room in &reach.rooms {
        let turning = room.turning_circle();
        measures.push(Measure {
            name: MeasureName::TurningCircle,
            part: None,
            of: vec![room.id.clone()],
            amount: Amount::Possible(turning.is_some()),
            marks: turning.map(|centre| disc(centre, TURNING_CIRCLE)).into_iter().collect(),
        });
        let clear = room.clear_floor();
        measures.push(Measure {
            name: MeasureName::ClearFloor,
            part: None,
            of: vec![room.id.clone()],
            amount: Amount::Possible(clear.is_some()),
            marks: clear.map(|corners| Mark::Ground(corners.to_vec())).into_iter().collect(),
        });
    }
    let doors: BTreeMap<&Id, &DoorFigures> = derived.doors.iter().map(|door| (&door.id, door)).collect();
    let ways = reach.ways_in().iter().zip(&derived.rooms);
    measures.extend(ways.map(|(way, room)| way_in_measure(&doors, way, room)));
    measures
}

/// Shown by what holds up a wider body, and the doors that it comes through; by the room alone where there is no way or none
/// of a known width.
fn way_in_measure(doors: &BTreeMap<&Id, &DoorFigures>, way: &WayIn, room: &RoomFigures) -> Measure {
    let amount = match (&way.width, &way.narrowest) {
        (Figure::Unknown(why), _) => Amount::Unknown(why.clone()),
        (Figure::Known { value, .. }, Some(Narrowest::Place { slack, .. })) => {
            let steps = i64::try_from(value.to_integer()).unwrap_or_default();
            Amount::Length(Measured { value: Length::from_steps(steps), slack: *slack })
        }
        (Figure::Known { .. }, Some(Narrowest::Door(_))) => Amount::OpeningLength(way.width.clone()),
        (Figure::Known { .. }, None) => Amount::Length(Measured::exact(Length::ZERO)),
    };
    let mut marks = match (&way.narrowest, &amount) {
        (Some(Narrowest::Place { ends, centre, .. }), Amount::Length(width)) => {
            Pinch { ends: *ends, centre: *centre }.marks(width.value)
        }
        (Some(Narrowest::Door(id)), _) => doors.get(id).map(|door| Mark::Span(door.clear_line())).into_iter().collect(),
        _ => vec![Mark::Ground(room.region.outer.clone())],
    };
    let passed = way.doors.iter().filter_map(|id| doors.get(id));
    marks.extend(passed.map(|door| Mark::Ground(door.outline.to_vec())));
    Measure {
        name: MeasureName::WayInWidth,
        part: None,
        of: std::iter::once(way.room.clone()).chain(way.doors.iter().cloned()).collect(),
        amount,
        marks,
    }
}
