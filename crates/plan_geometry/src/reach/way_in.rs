//! The widest body that gets from outdoors to each room.
//!
//! A way of greatest width, from door to door: what is reached at all is reached in falling order of width, as on a map of
//! roads with low bridges. Whether the floor between two doors lets a body through is asked only where the doors would.

use std::cmp::Reverse;
use std::collections::{BTreeMap, BinaryHeap};

use plan_model::{Exact, Id, Length, Point};

use super::ways::WaysOf;
use crate::asked::{Asked, Question};
use crate::passage::Pinch;
use crate::{Basis, Figure};

/// The widest body, a disc on the floor, that can be led from outdoors to a room.
///
/// It passes each door on its way up to the door's clear width, and gets over the floors between them as
/// [`SpaceReach::route_width`](super::SpaceReach::route_width) says. It has arrived when it passes a door of the room, or when its
/// centre passes an open boundary of it.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct WayIn {
    /// The room.
    pub room: Id,
    /// How wide, in grid steps; zero where there is no way. Unknown where the clear width of a door is, unless another way
    /// is as wide as any through that door.
    pub width: Figure,
    /// The doors it passes, the exterior one first.
    pub doors: Vec<Id>,
    /// What holds up a wider body.
    pub narrowest: Option<Narrowest>,
}

/// What is narrowest on a way.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Narrowest {
    /// A door.
    Door(Id),
    /// A place on a floor.
    Place {
        /// Two places that the body touches there.
        ends: [Point; 2],
        /// The body's centre there.
        centre: Point,
        /// What their distance may be off by.
        slack: Length,
    },
}

/// All doors of a home with the spaces between them.
#[derive(Debug, PartialEq)]
pub(crate) struct WaysInOf {
    pub(super) spaces: Vec<Asked<WaysOf>>,
    pub(super) doors: Vec<Door>,
    pub(super) rooms: Vec<Entered>,
}

/// A door as a link between two spaces.
#[derive(Debug, PartialEq)]
pub(super) struct Door {
    pub(super) id: Id,
    pub(super) clear_width: Figure,
    pub(super) is_exterior: bool,
    pub(super) sides: [Option<Port>; 2],
}

/// One side of a door.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) struct Port {
    /// The room, in the question's list.
    pub(super) room: usize,
    pub(super) space: usize,
    /// The door in the space's list.
    pub(super) doorway: usize,
}

/// A room to be entered.
#[derive(Debug, PartialEq)]
pub(super) struct Entered {
    pub(super) id: Id,
    pub(super) space: usize,
    /// Its open boundaries in the space's list.
    pub(super) boundaries: Vec<usize>,
}

impl Question for WaysInOf {
    type Answer = Vec<WayIn>;

    fn answer(&self) -> Vec<WayIn> {
        if !self.doors.iter().any(|door| door.is_exterior) {
            let width = Figure::Unknown("no door leads outdoors".to_owned());
            let unknown = |room: &Entered| WayIn {
                room: room.id.clone(),
                width: width.clone(),
                doors: Vec::new(),
                narrowest: None,
            };
            return self.rooms.iter().map(unknown).collect();
        }
        let certain = Search { of: self, unknown: Exact::from(0) }.ways();
        if self.doors.iter().all(|door| door.clear_width.value().is_some()) {
            return certain;
        }
        let widest = Exact::from(i128::from(2 * Length::LARGEST.steps()));
        let possible = Search { of: self, unknown: widest }.ways();
        let unknown: BTreeMap<&Id, &str> = self.doors.iter().filter_map(Door::unknown).collect();
        certain.into_iter().zip(possible).map(|(certain, possible)| settled(certain, possible, &unknown)).collect()
    }
}

impl Door {
    /// Why its clear width is unknown, if it is.
    fn unknown(&self) -> Option<(&Id, &str)> {
        match &self.clear_width {
            Figure::Unknown(why) => Some((&self.id, why)),
            Figure::Known { .. } => None,
        }
    }
}

/// A way without doors of unknown width, unless one through such a door may be wider.
fn settled(certain: WayIn, possible: WayIn, unknown: &BTreeMap<&Id, &str>) -> WayIn {
    if certain.width.value() == possible.width.value() {
        return certain;
    }
    let door = possible.doors.iter().find_map(|id| unknown.get_key_value(id));
    let why = door.map(|(id, why)| format!("the widest way may lead through door \"{id}\": {why}"));
    let width = Figure::Unknown(why.unwrap_or_else(|| "a door has no known clear width".to_owned()));
    WayIn { width, narrowest: None, ..possible }
}

/// Where a body stands that came through a door: the door, and on which of its sides.
type Stand = (usize, usize);

/// How a body got somewhere.
#[derive(Clone)]
struct Arrival {
    width: Exact,
    /// What the width rests on.
    basis: Basis,
    from: Option<Stand>,
    narrowest: Narrowest,
}

impl Arrival {
    /// As wide a body as gets through a door.
    fn through(door: &Door, width: Exact) -> Self {
        let basis = match door.clear_width {
            Figure::Known { basis, .. } => basis,
            Figure::Unknown(_) => Basis::Stated,
        };
        Self { width, basis, from: None, narrowest: Narrowest::Door(door.id.clone()) }
    }
}

/// The ways, with some width taken for doors whose width is unknown.
struct Search<'a> {
    of: &'a WaysInOf,
    unknown: Exact,
}

impl Search<'_> {
    fn ways(&self) -> Vec<WayIn> {
        let arrivals = self.arrivals();
        let mut by_space: BTreeMap<usize, Vec<Stand>> = BTreeMap::new();
        for stand in arrivals.keys() {
            if let Some(port) = self.port(*stand) {
                by_space.entry(port.space).or_default().push(*stand);
            }
        }
        for stands in by_space.values_mut() {
            stands.sort_by_key(|stand| Reverse(arrivals.get(stand).map(|arrival| arrival.width)));
        }
        let rooms = self.of.rooms.iter().enumerate();
        rooms
            .map(|(index, room)| {
                let stands = by_space.get(&room.space).map_or(&[][..], Vec::as_slice);
                self.way_in(index, room, &arrivals, stands)
            })
            .collect()
    }

    fn port(&self, (door, side): Stand) -> Option<Port> {
        self.of.doors.get(door)?.sides.get(side).copied().flatten()
    }

    fn clear_width(&self, door: &Door) -> Exact {
        door.clear_width.value().unwrap_or(self.unknown)
    }

    /// The widest body that comes through each door, to each of its sides.
    fn arrivals(&self) -> BTreeMap<Stand, Arrival> {
        let mut ports: BTreeMap<usize, Vec<Stand>> = BTreeMap::new();
        let mut arrivals: BTreeMap<Stand, Arrival> = BTreeMap::new();
        let mut next = BinaryHeap::new();
        for (index, door) in self.of.doors.iter().enumerate() {
            for side in [0, 1] {
                let Some(port) = door.sides[side] else { continue };
                ports.entry(port.space).or_default().push((index, side));
                if door.is_exterior {
                    let width = self.clear_width(door);
                    arrivals.insert((index, side), Arrival::through(door, width));
                    next.push((width, Reverse(0), Reverse((index, side))));
                }
            }
        }
        // Of ways of equal width, the one through fewer doors.
        while let Some((width, Reverse(passed), Reverse(here))) = next.pop() {
            let (Some(arrival), Some(port)) = (arrivals.get(&here).cloned(), self.port(here)) else { continue };
            if arrival.width > width {
                continue;
            }
            for there in ports.get(&port.space).into_iter().flatten().filter(|there| **there != here) {
                let beyond = (there.0, 1 - there.1);
                let (Some(door), Some(exit), Some(_)) =
                    (self.of.doors.get(there.0), self.port(*there), self.port(beyond))
                else {
                    continue;
                };
                let (clear, best) = (self.clear_width(door), arrivals.get(&beyond).map(|arrival| arrival.width));
                let ceiling = clear.min(width);
                if best.is_some_and(|best| best >= ceiling) || ceiling <= Exact::from(0) {
                    continue;
                }
                let through = if clear < width { Arrival::through(door, clear) } else { arrival.clone() };
                let led = self.led(through, port, |ways, up_to| ways.between(port.doorway, exit.doorway, up_to));
                if led.width > best.unwrap_or_default() {
                    next.push((led.width, Reverse(passed + 1), Reverse(beyond)));
                    arrivals.insert(beyond, Arrival { from: Some(here), ..led });
                }
            }
        }
        arrivals
    }

    /// What is left of a body when it is led on over a floor from one of its doors.
    fn led(
        &self,
        body: Arrival,
        port: Port,
        over: impl Fn(&super::ways::Ways, Length) -> (Length, Option<Pinch>),
    ) -> Arrival {
        let Some(space) = self.of.spaces.get(port.space) else { return body };
        let ways = space.get();
        let ceiling = up(body.width);
        let (width, pinch) = over(ways, ceiling);
        if width >= ceiling {
            return body;
        }
        let width = Exact::from(i128::from(width.steps()));
        let place = |Pinch { ends, centre }| Narrowest::Place { ends, centre, slack: ways.slack };
        let narrowest = pinch.map_or(body.narrowest, place);
        Arrival { width, basis: Basis::Stated, from: body.from, narrowest }
    }

    /// The widest of those that come through a door of the room, or over an open boundary of it from elsewhere in its
    /// space. `stands` are those of the space, the widest first.
    fn way_in(&self, index: usize, room: &Entered, arrivals: &BTreeMap<Stand, Arrival>, stands: &[Stand]) -> WayIn {
        let mut best: Option<(Arrival, Stand)> = None;
        for stand in stands {
            let (Some(arrival), Some(port)) = (arrivals.get(stand), self.port(*stand)) else { continue };
            let wider = |width: Exact, best: &Option<(Arrival, Stand)>| {
                width > best.as_ref().map_or(Exact::from(0), |(best, _)| best.width)
            };
            if !wider(arrival.width, &best) {
                continue;
            }
            if port.room == index {
                best = Some((arrival.clone(), *stand));
                continue;
            }
            for boundary in &room.boundaries {
                let led = self.led(arrival.clone(), port, |ways, up_to| ways.over(port.doorway, *boundary, up_to));
                if wider(led.width, &best) {
                    best = Some((led, *stand));
                }
            }
        }
        let Some((arrival, stand)) = best else {
            let nothing = Figure::Known { value: Exact::from(0), basis: Basis::Stated };
            return WayIn { room: room.id.clone(), width: nothing, doors: Vec::new(), narrowest: None };
        };
        let mut doors = Vec::new();
        let mut at = Some(stand);
        while let Some(stand) = at {
            doors.extend(self.of.doors.get(stand.0).map(|door| door.id.clone()));
            at = arrivals.get(&stand).and_then(|arrival| arrival.from);
        }
        doors.reverse();
        let width = Figure::Known { value: arrival.width, basis: arrival.basis };
        WayIn { room: room.id.clone(), width, doors, narrowest: Some(arrival.narrowest) }
    }
}

/// The whole steps that a disc as wide as an exact figure needs.
fn up(width: Exact) -> Length {
    let steps = width.ceil().to_integer().min(i128::from(4 * Length::LARGEST.steps()));
    Length::from_steps(i64::try_from(steps).unwrap_or_default())
}
