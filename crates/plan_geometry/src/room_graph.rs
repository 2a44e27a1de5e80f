//! Which rooms lead into which: rooms and outdoors as nodes, doorways and open boundaries as edges.

mod connections;
mod route;
mod sleeping;

use std::collections::{BTreeMap, BTreeSet};
use std::sync::Arc;

use plan_model::elements::{OpenBoundary, RoomUse};
use plan_model::{DoorOperation, Home, Id, Point};

use crate::asked::Question;
use crate::{Amount, Derived, DoorFigures, Mark, Measure, MeasureName, Region, RoomFigures, Side, Space};

pub use route::Route;
pub use sleeping::{BedroomDoorway, SleepingArea};

/// One of the two things that a doorway or an open boundary joins.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Node {
    /// Outside the house; a porch, roofed or not, is outdoors.
    Outdoors,
    /// A room that closed.
    Room(Id),
}

/// A doorway or an open boundary between two rooms, or between a room and outdoors.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Connection {
    /// The door, cased opening or open boundary.
    pub id: Id,
    /// What closes it, if anything does.
    pub kind: ConnectionKind,
    /// What it joins: of a door, to the left of its wall and to the right; of an open boundary, in the order of the file.
    pub between: [Node; 2],
    ends: [Option<usize>; 2],
    at: At,
}

impl Connection {
    /// The room at the other end, as an index; none is outdoors.
    pub(crate) fn beyond(&self, room: usize) -> Option<usize> {
        self.ends[usize::from(self.ends[0] == Some(room))]
    }

    /// The rooms that it joins, as indices; none is outdoors.
    pub(crate) const fn ends(&self) -> [Option<usize>; 2] {
        self.ends
    }

    /// Index of the door in the home's list of derived doors, if it is one.
    pub(crate) const fn door(&self) -> Option<usize> {
        match self.at {
            At::Door(index) => Some(index),
            At::Line(_) => None,
        }
    }

    /// The ground that the opening takes: of an open boundary, a line.
    pub(crate) fn ground(&self, outlines: &[[Point; 4]]) -> Option<[Point; 4]> {
        match self.at {
            At::Door(index) => outlines.get(index).copied(),
            At::Line([a, b]) => Some([a, b, b, a]),
        }
    }

    fn mark(&self, derived: &Derived) -> Option<Mark> {
        match self.at {
            At::Door(index) => derived.doors.get(index).map(|door| Mark::Ground(door.outline.to_vec())),
            At::Line(line) => Some(Mark::Span(line)),
        }
    }
}

/// What closes a connection.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum ConnectionKind {
    /// A door, or a cased opening, in a wall.
    Door(DoorOperation),
    /// Nothing: a line of no thickness between two rooms of one open space.
    OpenBoundary,
}

impl ConnectionKind {
    /// Whether nothing ever closes it: an open boundary or a cased opening.
    #[must_use]
    pub const fn is_open(self) -> bool {
        matches!(self, Self::OpenBoundary | Self::Door(DoorOperation::CasedOpening))
    }
}

/// Where a connection is.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum At {
    /// Index in the list of derived doors.
    Door(usize),
    /// The stretch of an open boundary that the two rooms share.
    Line([Point; 2]),
}

/// The rooms of a home and what joins them.
#[derive(Clone, Debug)]
pub struct RoomGraph {
    rooms: Vec<GraphRoom>,
    index: BTreeMap<Id, usize>,
    connections: Vec<Connection>,
    /// For each room, its connections.
    leading: Vec<Vec<usize>>,
    /// For each room, the first of the rooms that are open to each other and to it.
    undivided: Vec<usize>,
    sleeping_areas: Vec<SleepingArea>,
}

impl RoomGraph {
    /// Every doorway and open boundary that joins two different rooms, or a room and outdoors: doors first, each in the
    /// order of the file. A boundary on which more than two rooms lie is told once for every two that it joins.
    #[must_use]
    pub fn connections(&self) -> &[Connection] {
        &self.connections
    }

    /// What a room is entered from: each of its doorways and open boundaries, with what lies beyond.
    pub fn entered_from<'a>(&'a self, room: &Id) -> impl Iterator<Item = (&'a Connection, &'a Node)> + use<'a> {
        let room = self.room(room);
        room.into_iter().flat_map(move |room| {
            self.connections_of(room)
                .map(move |connection| (connection, &connection.between[usize::from(connection.ends[0] == Some(room))]))
        })
    }

    /// The bedrooms of a home by the rooms into which their doors open.
    #[must_use]
    pub fn sleeping_areas(&self) -> &[SleepingArea] {
        &self.sleeping_areas
    }

    /// The one bedroom to which a bath, toilet room or closet belongs: whoever leaves it, through whatever other baths,
    /// toilet rooms and closets, comes into that bedroom and nowhere else. None if there are other ways out, or none at
    /// all.
    #[must_use]
    pub fn private_to(&self, room: &Id) -> Option<&Id> {
        let within = |usage| matches!(usage, RoomUse::Bath | RoomUse::Toilet | RoomUse::Closet | RoomUse::Linen);
        let (first, mut seen, mut bedroom) = (self.room(room)?, BTreeSet::new(), None);
        let mut left = vec![first];
        while let Some(room) = left.pop() {
            if !seen.insert(room) {
                continue;
            }
            for connection in self.connections_of(room) {
                let beyond = connection.beyond(room)?;
                match self.rooms[beyond].usage {
                    usage if within(usage) => left.push(beyond),
                    RoomUse::Bedroom if bedroom.is_none_or(|bedroom| bedroom == beyond) => bedroom = Some(beyond),
                    _ => return None,
                }
            }
        }
        bedroom.map(|bedroom| &self.rooms[bedroom].id)
    }

    /// Whether two rooms are one, or are joined by open boundaries and cased openings alone, through whatever rooms.
    #[must_use]
    pub fn are_undivided(&self, one: &Id, other: &Id) -> bool {
        self.room(one).zip(self.room(other)).is_some_and(|(one, other)| self.undivided(one) == self.undivided(other))
    }

    pub(crate) fn room(&self, id: &Id) -> Option<usize> {
        self.index.get(id).copied()
    }

    pub(crate) fn name(&self, room: usize) -> &Id {
        &self.rooms[room].id
    }

    pub(crate) fn usage(&self, room: usize) -> RoomUse {
        self.rooms[room].usage
    }

    /// A number that rooms share with all that they are open to.
    pub(crate) fn undivided(&self, room: usize) -> usize {
        self.undivided[room]
    }

    pub(crate) fn connections_of(&self, room: usize) -> impl Iterator<Item = &Connection> {
        self.leading[room].iter().map(|connection| &self.connections[*connection])
    }
}

/// All that the room graph rests on. Doors are taken by what they join and not by where they are, and rooms have their
/// floor only where open boundaries may divide it: most walls can move without the graph being asked for again.
#[derive(Debug, PartialEq)]
pub(crate) struct RoomGraphOf {
    rooms: Vec<GraphRoom>,
    doors: Vec<DoorBetween>,
    boundaries: Vec<OpenBoundary>,
}

#[derive(Clone, Debug, PartialEq)]
struct GraphRoom {
    id: Id,
    usage: RoomUse,
    /// Its floor, if there is more than one room in its open space.
    shared: Option<Arc<Region>>,
}

#[derive(Debug, PartialEq)]
struct DoorBetween {
    id: Id,
    /// Index in the list of derived doors.
    index: usize,
    operation: DoorOperation,
    /// The rooms on its sides; none is outdoors.
    rooms: [Option<Id>; 2],
}

impl RoomGraphOf {
    pub(crate) fn of(home: &Home<'_>, rooms: &[RoomFigures], spaces: &[Space], doors: &[DoorFigures]) -> Self {
        let is_shared = |room: &RoomFigures| spaces.get(room.space).is_some_and(|space| space.rooms.len() > 1);
        let room = |room: &RoomFigures| GraphRoom {
            id: room.id.clone(),
            usage: room.usage,
            shared: is_shared(room).then(|| room.region.clone()),
        };
        let between = |(index, door): (usize, &DoorFigures)| {
            let leads = |side: &Side| side.room.is_some() || side.is_outdoors;
            let unit = &home.elements.doors.get(door.index)?.unit;
            let rooms = door.sides.each_ref().map(|side| side.room.clone());
            (door.sides.iter().all(leads) && rooms[0] != rooms[1]).then_some(DoorBetween {
                id: door.id.clone(),
                index,
                operation: home.plan.catalogue.door(unit)?.operation,
                rooms,
            })
        };
        Self {
            rooms: rooms.iter().map(room).collect(),
            doors: doors.iter().enumerate().filter_map(between).collect(),
            boundaries: home.elements.open_boundaries.clone(),
        }
    }
}

impl Question for RoomGraphOf {
    type Answer = RoomGraph;

    fn answer(&self) -> RoomGraph {
        let index: BTreeMap<Id, usize> =
            self.rooms.iter().enumerate().map(|(at, room)| (room.id.clone(), at)).collect();
        let connections = connections::all(self, &index);
        let mut leading = vec![Vec::new(); self.rooms.len()];
        for (at, connection) in connections.iter().enumerate() {
            for room in connection.ends.into_iter().flatten() {
                leading[room].push(at);
            }
        }
        let open = connections.iter().filter(|connection| connection.kind.is_open());
        let undivided = groups(self.rooms.len(), open.filter_map(|open| Some([open.ends[0]?, open.ends[1]?])));
        let mut graph =
            RoomGraph { rooms: self.rooms.clone(), index, connections, leading, undivided, sleeping_areas: Vec::new() };
        graph.sleeping_areas = sleeping::areas(&graph);
        graph
    }
}

/// For each of so many things, the first of all those that pairs join to it.
fn groups(count: usize, pairs: impl Iterator<Item = [usize; 2]>) -> Vec<usize> {
    let mut first: Vec<usize> = (0..count).collect();
    fn root(first: &mut [usize], mut at: usize) -> usize {
        while first[at] != at {
            first[at] = first[first[at]];
            at = first[at];
        }
        at
    }
    for [one, other] in pairs {
        let [one, other] = [root(&mut first, one), root(&mut first, other)];
        first[one.max(other)] = one.min(other);
    }
    (0..count).map(|at| root(&mut first, at)).collect()
}

impl Derived {
    /// Which rooms lead into which; worked out when it is first asked for.
    #[must_use]
    pub fn room_graph(&self) -> &RoomGraph {
        self.room_graph.get()
    }
}

/// Ways in, sleeping areas and what each room is entered from.
pub(crate) fn measures(derived: &Derived) -> Vec<Measure> {
    let graph = derived.room_graph();
    let mut measures = Vec::new();
    for (room, step) in derived.rooms.iter().zip(graph.steps_from_outdoors()) {
        measures.push(Measure {
            name: MeasureName::ReachedFromOutdoors,
            part: None,
            of: vec![room.id.clone()],
            amount: Amount::Possible(step.is_some()),
            marks: Vec::new(),
        });
        if let Some(step) = step {
            let last = step.connection(graph);
            measures.push(Measure {
                name: MeasureName::DoorwaysFromOutdoors,
                part: None,
                of: std::iter::once(&room.id).chain(last.map(|last| &last.id)).cloned().collect(),
                amount: Amount::Count(step.doorways()),
                marks: last.and_then(|last| last.mark(derived)).into_iter().collect(),
            });
        }
        if matches!(room.usage, RoomUse::Bath | RoomUse::Toilet) {
            let bedroom = graph.private_to(&room.id);
            measures.push(Measure {
                name: MeasureName::PrivateToBedroom,
                part: None,
                of: std::iter::once(&room.id).chain(bedroom).cloned().collect(),
                amount: Amount::Possible(bedroom.is_some()),
                marks: vec![Mark::Ground(room.region.outer.clone())],
            });
        }
    }
    for area in graph.sleeping_areas() {
        let grounds = area.bedrooms.iter().filter_map(|bedroom| derived.rooms.get(graph.room(bedroom)?));
        measures.push(Measure {
            name: MeasureName::BedroomsInSleepingArea,
            part: None,
            of: area.bedrooms.iter().chain(&area.rooms).cloned().collect(),
            amount: Amount::Count(area.bedrooms.len()),
            marks: grounds.map(|room| Mark::Ground(room.region.outer.clone())).collect(),
        });
    }
    measures
}
