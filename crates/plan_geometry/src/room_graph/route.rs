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

/// How long a way is: first by its doorways, then by the open boundaries that it crosses.
type Length = (usize, usize);

impl RoomGraph {
    /// The way to a room from outdoors that passes through no other room of a use to be avoided: the one through the
    /// fewest doorways, and among those across the fewest open boundaries. None if every way passes through such a room,
    /// or there is no way at all. The room itself may be of any use, and a room with an outside door is reached by it.
    #[must_use]
    pub fn reached_from_outdoors_avoiding(&self, room: &Id, avoids: impl Fn(RoomUse) -> bool) -> Option<Route> {
        let room = self.room(room)?;
        let entered = self.search(None, |through| !avoids(self.usage(through)), Some(room));
        self.route(&entered, None, room)
    }

    /// The same from one room to another without going outdoors. Both may be of any use.
    #[must_use]
    pub fn reached_avoiding(&self, from: &Id, room: &Id, avoids: impl Fn(RoomUse) -> bool) -> Option<Route> {
        let [from, room] = [self.room(from)?, self.room(room)?];
        let entered = self.search(Some(from), |through| through == from || !avoids(self.usage(through)), Some(room));
        self.route(&entered, Some(from), room)
    }

    /// For each room, the connections on the shortest way to it from outdoors; none if it cannot be reached.
    pub(super) fn routes_from_outdoors(&self) -> Vec<Option<Vec<&Connection>>> {
        let entered = self.search(None, |_| true, None);
        (0..self.rooms.len()).map(|room| self.trace(&entered, None, room)).collect()
    }

    /// For each room, the connection through which the shortest way enters it. Ways of one length are told apart by the
    /// order of the file: the first that is found stays.
    fn search(&self, from: Option<usize>, passes: impl Fn(usize) -> bool, to: Option<usize>) -> Vec<Option<usize>> {
        let mut entered = vec![None; self.rooms.len()];
        let mut best: Vec<Option<Length>> = vec![None; self.rooms.len()];
        let mut next = BinaryHeap::new();
        let mut enter =
            |next: &mut BinaryHeap<_>, best: &mut [Option<Length>], at: usize, room: usize, so_far: Length| {
                let doors = usize::from(self.connections[at].door().is_some());
                let length = (so_far.0 + doors, so_far.1 + 1 - doors);
                if best[room].is_none_or(|best| length < best) {
                    (best[room], entered[room]) = (Some(length), Some(at));
                    next.push(Reverse((length, room)));
                }
            };
        match from {
            Some(room) => {
                best[room] = Some((0, 0));
                next.push(Reverse(((0, 0), room)));
            }
            None => {
                for (at, connection) in self.connections.iter().enumerate() {
                    if let [Some(room), None] | [None, Some(room)] = connection.ends {
                        enter(&mut next, &mut best, at, room, (0, 0));
                    }
                }
            }
        }
        while let Some(Reverse((length, room))) = next.pop() {
            if Some(room) == to {
                break;
            }
            if best[room] != Some(length) || !passes(room) {
                continue;
            }
            for at in &self.leading[room] {
                if let Some(beyond) = self.connections[*at].beyond(room) {
                    enter(&mut next, &mut best, *at, beyond, length);
                }
            }
        }
        entered
    }

    fn route(&self, entered: &[Option<usize>], from: Option<usize>, room: usize) -> Option<Route> {
        let connections = self.trace(entered, from, room)?;
        let mut rooms = Vec::new();
        let mut at = room;
        for connection in connections.iter().rev() {
            rooms.push(self.rooms[at].id.clone());
            at = connection.beyond(at).unwrap_or(at);
        }
        rooms.reverse();
        Some(Route { rooms, through: connections.into_iter().map(|connection| connection.id.clone()).collect() })
    }

    /// The connections by which a search came to a room.
    fn trace(&self, entered: &[Option<usize>], from: Option<usize>, room: usize) -> Option<Vec<&Connection>> {
        let mut connections = Vec::new();
        let mut at = Some(room);
        while let Some(room) = at.filter(|_| at != from) {
            let connection = &self.connections[entered[room]?];
            connections.push(connection);
            at = connection.beyond(room);
        }
        connections.reverse();
        Some(connections)
    }
}
