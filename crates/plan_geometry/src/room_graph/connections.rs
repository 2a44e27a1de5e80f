//! What joins rooms: doors by what lies on their sides, open boundaries by which floors lie along them.

use std::collections::BTreeMap;
use std::sync::Arc;

use plan_model::elements::OpenBoundary;
use plan_model::{Id, Length, Point};

use super::{At, Connection, ConnectionKind, GraphRoom, Node, RoomGraphOf};
use crate::kernel::{Bounds, Whereabouts, along, alongside};
use crate::{OFF_AXIS_SLACK, Region};

pub(super) fn all(of: &RoomGraphOf, index: &BTreeMap<Id, usize>) -> Vec<Connection> {
    let mut connections: Vec<Connection> = Vec::new();
    for door in &of.doors {
        let ends = door.rooms.each_ref().map(|room| room.as_ref().and_then(|room| index.get(room).copied()));
        let between = door.rooms.each_ref().map(|room| room.clone().map_or(Node::Outdoors, Node::Room));
        let kind = ConnectionKind::Door(door.operation);
        connections.push(Connection { id: door.id.clone(), kind, between, ends, at: At::Door(door.index) });
    }
    // Only the rooms of shared spaces lie along open boundaries.
    let part = |(room, drawn): (usize, &GraphRoom)| Some(Part { room, floor: drawn.shared.clone()? });
    let parts: Vec<Part> = of.rooms.iter().enumerate().filter_map(part).collect();
    let whereabouts = Whereabouts::of(parts.iter().map(|part| Bounds::around(&part.floor.outer)));
    for boundary in &of.boundaries {
        let near = whereabouts.touching(Bounds::around(&[boundary.from, boundary.to]));
        for (rooms, line) in joined(boundary, near.iter().map(|part| &parts[*part])) {
            connections.push(Connection {
                id: boundary.id.clone(),
                kind: ConnectionKind::OpenBoundary,
                between: rooms.map(|room| Node::Room(of.rooms[room].id.clone())),
                ends: rooms.map(Some),
                at: At::Line(line),
            });
        }
    }
    connections
}

/// A room of a shared space.
struct Part {
    room: usize,
    floor: Arc<Region>,
}

/// A stretch of a boundary along which a room's floor lies.
struct Stretch {
    room: usize,
    along: [Length; 2],
    is_left: bool,
}

/// Every two rooms that lie on the two sides of one stretch of a boundary, with one such stretch.
fn joined<'a>(boundary: &OpenBoundary, near: impl Iterator<Item = &'a Part>) -> Vec<([usize; 2], [Point; 2])> {
    let line = [boundary.from, boundary.to];
    let mut stretches = Vec::new();
    for part in near {
        for (a, b) in part.floor.sides() {
            let Some(beside) = alongside(line, [a, b]) else { continue };
            // Off the axes both the side and the boundary lie within a step of true, and the cut between them as well.
            let stray = if beside.slack == Length::ZERO { Length::ZERO } else { OFF_AXIS_SLACK * 2 };
            if beside.left.abs() <= stray {
                stretches.push(Stretch { room: part.room, along: beside.stretch, is_left: beside.same_way });
            }
        }
    }
    let mut joined: Vec<([usize; 2], [Point; 2])> = Vec::new();
    for left in stretches.iter().filter(|stretch| stretch.is_left) {
        for right in stretches.iter().filter(|stretch| !stretch.is_left && stretch.room != left.room) {
            let shared = [left.along[0].max(right.along[0]), left.along[1].min(right.along[1])];
            // In the order of the file: which lies to the left depends on how the boundary was drawn.
            let rooms = [left.room.min(right.room), left.room.max(right.room)];
            if shared[0] < shared[1] && joined.iter().all(|(told, _)| *told != rooms) {
                joined.push((rooms, shared.map(|at| along(line[0], line[1], at))));
            }
        }
    }
    joined.sort_by_key(|(rooms, _)| *rooms);
    joined
}
