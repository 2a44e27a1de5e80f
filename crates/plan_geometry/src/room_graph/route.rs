//! The shortest way to a room, by the doorways that it passes.

use std::cmp::Reverse;
use std::collections::BinaryHeap;

use plan_model::Id;
use plan_model::elements::RoomUse;

use super::{Connection, RoomGraph};

/// A way from outdoors, or from a room, into a room.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Route {
    /// The rooms that are entered on the way; the last is where it leads.
    pub rooms: Vec<Id>,
    /// The doorway or open boundary through which each of them is entered.
    pub through: Vec<Id>,
}

/// How a search came to a room.
#[derive(Clone, Copy)]
pub(super) struct Step {
    /// How many doorways the way passes, then how many open boundaries it crosses.
    length: (usize, usize),
    /// The connection through which the room is entered; none where the search began.
    through: Option<usize>,
}

impl Step {
    pub(super) const fn doorways(self) -> usize {
        self.length.0
    }

    pub(super) fn connection(self, graph: &RoomGraph) -> Option<&Connection> {
        graph.connections.get(self.through?)
    }
}

impl RoomGraph {
    /// The way to a room from outdoors that passes through no other room of a use to be avoided: the one through the
    /// fewest doorways, and among those across the fewest open boundaries. None if every way passes through such a room,
    /// or there is no way at all. The room itself may be of any use, and a room with an outside door is reached by it.
    #[must_use]
    pub fn reached_from_outdoors_avoiding(&self, room: &Id, avoids: impl Fn(RoomUse) -> bool) -> Option<Route> {
        let room = self.room(room)?;
        let steps = self.search(None, |through| !avoids(self.usage(through)), Some(room));
        self.route(&steps, room)
    }

    /// The same from one room to another without going outdoors. Both may be of any use.
    #[must_use]
    pub fn reached_avoiding(&self, from: &Id, room: &Id, avoids: impl Fn(RoomUse) -> bool) -> Option<Route> {
        let [from, room] = [self.room(from)?, self.room(room)?];
        let steps = self.search(Some(from), |through| through == from || !avoids(self.usage(through)), Some(room));
        self.route(&steps, room)
    }

    /// For each room, the last step of the shortest way to it from outdoors; none if there is no way.
    pub(super) fn steps_from_outdoors(&self) -> Vec<Option<Step>> {
        self.search(None, |_| true, None)
    }

    /// For each room up to the one that is sought, the last step of the shortest way to it. Of ways of one length, the first
    /// in the order of the file stays.
    fn search(&self, from: Option<usize>, passes: impl Fn(usize) -> bool, to: Option<usize>) -> Vec<Option<Step>> {
        let mut steps: Vec<Option<Step>> = vec![None; self.rooms.len()];
        let mut next = BinaryHeap::new();
        let mut enter = |next: &mut BinaryHeap<_>, room: usize, step: Step| {
            if steps[room].is_none_or(|found| step.length < found.length) {
                steps[room] = Some(step);
                next.push(Reverse((step.length, room)));
            }
        };
        let step = |(doors, lines): (usize, usize), at: usize| {
            let is_door = usize::from(self.connections[at].door().is_some());
            Step { length: (doors + is_door, lines + 1 - is_door), through: Some(at) }
        };
        match from {
            Some(room) => enter(&mut next, room, Step { length: (0, 0), through: None }),
            None => {
                for (at, connection) in self.connections.iter().enumerate() {
                    if let [Some(room), None] | [None, Some(room)] = connection.ends {
                        enter(&mut next, room, step((0, 0), at));
                    }
                }
            }
        }
        while let Some(Reverse((length, room))) = next.pop() {
            if Some(room) == to {
                break;
            }
            // A room that was found again by a shorter way comes up twice, and enters nothing the second time.
            if passes(room) {
                for at in &self.leading[room] {
                    if let Some(beyond) = self.connections[*at].beyond(room) {
                        enter(&mut next, beyond, step(length, *at));
                    }
                }
            }
        }
        steps
    }

    /// The way by which a search came to a room.
    fn route(&self, steps: &[Option<Step>], room: usize) -> Option<Route> {
        let mut route = Route { rooms: Vec::new(), through: Vec::new() };
        let (mut at, mut step) = (room, steps[room]?);
        while let Some(connection) = step.connection(self) {
            route.rooms.push(self.rooms[at].id.clone());
            route.through.push(connection.id.clone());
            let Some(before) = connection.beyond(at) else { break };
            (at, step) = (before, steps[before]?);
        }
        route.rooms.reverse();
        route.through.reverse();
        Some(route)
    }
}
