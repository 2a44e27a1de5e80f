//! The legs of which shortest ways are made, and the shortest ways along them.
//!
//! A shortest way is straight but where it turns around a corner that juts into the ground, and there its legs pass the
//! corner without running into what lies behind it. So the legs are: from the middle of a door to every such corner in
//! sight, from corner to corner, and from door to door.
//!
//! Legs are looked for as the search comes to a corner, nearest first, and only where a way that comes there as this one
//! does goes on: straight ahead, or around the corner. Any other way would be shorter without it.

use std::cmp::Reverse;
use std::collections::BinaryHeap;
use std::ops::Range;

use plan_model::{Id, Length, Point};

use super::ground::{Ground, Turn, Wedge};
use super::narrows::Narrows;
use super::sight::{Joined, Sight, Trail, View, Watch};
use super::{Walk, drop_straight, length_of};
use crate::kernel::Vector;
use crate::{Measured, OFF_AXIS_SLACK};

/// Where a way starts or ends.
#[derive(Debug, PartialEq)]
pub(super) struct Stop {
    /// The door or open boundary.
    pub(super) id: Id,
    /// Its middle.
    pub(super) at: Point,
    pub(super) stands: Stands,
    pub(super) is_exterior: bool,
    /// Whether it is square to the axes.
    pub(super) is_square: bool,
}

/// What the middle of a doorway lies on.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) enum Stands {
    /// Between the grounds on the two sides of a wall.
    InDoor,
    /// On the ground with this number.
    OnGround(u32),
}

/// All that ways are sought in. What is in sight of a corner is only looked at when a way has come there.
#[derive(Debug)]
pub(crate) struct Network {
    narrows: Narrows,
    nodes: Nodes,
    /// For each open boundary, the nodes in sight of it, in the order of the nodes: a way ends there.
    boundaries: Vec<(u32, Leg)>,
}

/// A leg to another node; stops come first, then the turns.
#[derive(Clone, Copy, Debug)]
struct Leg {
    to: u32,
    length: f64,
}

/// The free directions on one side of the narrow places that end at a turn.
#[derive(Debug)]
struct Node {
    ground: u32,
    turn: usize,
    free: Wedge,
    /// Whether the first and the last free direction are those of narrow places.
    divided: [bool; 2],
}

/// The turns as nodes, in the order of grounds and turns.
#[derive(Debug)]
struct Nodes {
    nodes: Vec<Node>,
    /// For each turn of each ground, where its nodes start; one more for the end.
    first: Vec<usize>,
    /// For each ground, where its turns start there.
    turns: Vec<usize>,
}

impl Nodes {
    fn of(grounds: &[&Ground], narrows: &Narrows) -> Self {
        let mut dividing = narrows.dividing.as_slice();
        let count = grounds.iter().map(|ground| ground.turns.len()).sum::<usize>();
        let (mut nodes, mut first) = (Vec::with_capacity(count), Vec::with_capacity(count + 1));
        let mut turns = Vec::with_capacity(grounds.len());
        let mut cuts: Vec<Vector> = Vec::new();
        for (ground, here) in grounds.iter().enumerate() {
            let ground = ground as u32;
            turns.push(first.len());
            for (turn, corner) in here.turns.iter().enumerate() {
                first.push(nodes.len());
                let count = dividing.iter().take_while(|(g, t, _)| (*g, *t) == (ground, turn)).count();
                let (here, others) = dividing.split_at(count);
                dividing = others;
                cuts.clear();
                cuts.extend(here.iter().map(|(_, _, direction)| *direction));
                cuts.sort_by(|a, b| corner.free.order(*a, *b));
                cuts.dedup_by(|a, b| a.is_along(*b));
                let mut from = corner.free.from;
                for (at, to) in cuts.iter().copied().chain([corner.free.to]).enumerate() {
                    let free = Wedge { from, to };
                    if free.is_half_turn_or_more() {
                        nodes.push(Node { ground, turn, free, divided: [at > 0, at < cuts.len()] });
                    }
                    from = to;
                }
            }
        }
        first.push(nodes.len());
        Self { nodes, first, turns }
    }

    /// The nodes at a turn of a ground.
    fn at(&self, ground: u32, turn: usize) -> Range<usize> {
        let turn = self.turns[ground as usize] + turn;
        self.first[turn]..self.first[turn + 1]
    }
}

/// Collects the legs from one node.
struct Outlook<'a> {
    joined: &'a Joined<'a>,
    narrows: &'a Narrows,
    nodes: &'a Nodes,
    stops: &'a [Stop],
    /// The turn from which one looks, if it is one.
    from: Option<&'a Node>,
    found: Vec<Leg>,
}

impl Watch for Outlook<'_> {
    fn turn(&mut self, sight: &Sight<'_>, ground: u32, corner: u32, trail: Trail) {
        let there = self.joined.grounds[ground as usize];
        for turn in there.turns_at(corner) {
            let at = there.turns[turn].at;
            let towards = Vector::between(sight.from, at);
            let back = towards.reversed();
            for node in self.nodes.at(ground, turn) {
                let other = &self.nodes.nodes[node];
                let passes = other.free.passes(back) && self.keeps_to_its_side(other, towards);
                if passes && !self.narrows.bar([sight.from, at], sight.grounds(trail)) {
                    self.found.push(Leg { to: (self.stops.len() + node) as u32, length: towards.length() });
                }
            }
        }
    }

    fn portal(&mut self, sight: &Sight<'_>, door: u32, [a, b]: [Vector; 2], view: &View, trail: Trail) {
        let at = self.stops[door as usize].at;
        let towards = Vector::between(sight.from, at);
        let along = Vector { x: b.x - a.x, y: b.y - a.y };
        let ahead = along.dot(Vector { x: towards.x - a.x, y: towards.y - a.y });
        let is_there = view.has(towards) && ahead >= 0 && ahead <= along.dot(along);
        if is_there && !self.narrows.bar([sight.from, at], sight.grounds(trail)) {
            self.found.push(Leg { to: door, length: towards.length() });
        }
    }
}

impl Outlook<'_> {
    /// A leg along a narrow place stays on one side of it.
    fn keeps_to_its_side(&self, other: &Node, towards: Vector) -> bool {
        let Some(from) = self.from else { return true };
        let back = towards.reversed();
        (!(from.divided[0] && towards.is_along(from.free.from)) || back.is_along(other.free.to))
            && (!(from.divided[1] && towards.is_along(from.free.to)) || back.is_along(other.free.from))
    }
}

impl Network {
    pub(super) fn of(joined: &Joined<'_>, stops: &[Stop]) -> Self {
        let narrows = Narrows::of(joined);
        let nodes = Nodes::of(&joined.grounds, &narrows);
        let mut sight = Sight::new(joined);
        let found = Vec::new();
        let mut outlook = Outlook { joined, narrows: &narrows, nodes: &nodes, stops, from: None, found };
        // Legs between a boundary and a turn or a door hold in both directions.
        let mut boundaries = Vec::new();
        for (to, stop) in (0..).zip(stops) {
            if let Stands::OnGround(ground) = stop.stands {
                sight.look_from_place(ground, stop.at, &mut outlook);
                boundaries.extend(outlook.found.drain(..).map(|leg| (leg.to, Leg { to, length: leg.length })));
            }
        }
        boundaries.sort_by_key(|(from, _)| *from);
        Self { narrows, nodes, boundaries }
    }

    fn boundaries_from(&self, node: u32) -> impl Iterator<Item = Leg> + '_ {
        let first = self.boundaries.partition_point(|(from, _)| *from < node);
        self.boundaries[first..].iter().take_while(move |(from, _)| *from == node).map(|(_, leg)| *leg)
    }
}

/// Where ways are sought.
pub(super) struct Walkable<'a> {
    pub(super) joined: Joined<'a>,
    /// The doors first, in their order.
    pub(super) stops: &'a [Stop],
    pub(super) network: &'a Network,
}

impl Walkable<'_> {
    /// The shortest ways from some stops to the nearest of some doors.
    pub(super) fn ways(&self, from: impl IntoIterator<Item = u32>, to: impl IntoIterator<Item = u32>) -> Ways {
        let Self { joined, stops, network } = self;
        let Network { narrows, nodes, .. } = network;
        let count = stops.len() + nodes.nodes.len();
        let mut ways: Vec<Option<Onwards>> = vec![None; count];
        let mut settled = vec![false; count];
        let mut is_sought = vec![false; stops.len()];
        let mut sought = 0_usize;
        for stop in from {
            sought += usize::from(!std::mem::replace(&mut is_sought[stop as usize], true));
        }
        // Lengths are not negative, and so are ordered as their bits are.
        let mut heap = BinaryHeap::new();
        for target in to {
            ways[target as usize] = Some(Onwards { length: 0.0, next: target });
            heap.push(Reverse((0_u64, target)));
        }
        let mut sight = Sight::new(joined);
        let mut outlook = Outlook { joined, narrows, nodes, stops, from: None, found: Vec::new() };
        while let Some(Reverse((bits, node))) = heap.pop() {
            if std::mem::replace(&mut settled[node as usize], true) {
                continue;
            }
            sought -= usize::from(is_sought.get(node as usize) == Some(&true));
            if sought == 0 {
                break;
            }
            let turn = (node as usize).checked_sub(stops.len()).map(|turn| &nodes.nodes[turn]);
            outlook.from = turn;
            if let Some(turn) = turn {
                let before = ways[node as usize].map_or(node, |onwards| onwards.next);
                let corner = &joined.grounds[turn.ground as usize].turns[turn.turn];
                let direction = Vector::between(self.place(before), corner.at);
                for arc in turn.free.onwards(direction).into_iter().flatten() {
                    sight.look_from_turn(turn.ground, corner, &[arc], &mut outlook);
                }
            } else if bits == 0 {
                sight.look_from_door(node, self.place(node), &mut outlook);
            } else {
                // A way leads through no stop but its ends: people pass a doorway wherever it is shortest.
                continue;
            }
            for leg in outlook.found.drain(..).chain(network.boundaries_from(node)) {
                let length = f64::from_bits(bits) + leg.length;
                let known: &mut Option<Onwards> = &mut ways[leg.to as usize];
                if known.is_none_or(|known| length < known.length) {
                    *known = Some(Onwards { length, next: node });
                    heap.push(Reverse((length.to_bits(), leg.to)));
                }
            }
        }
        Ways(ways)
    }

    fn turn(&self, node: u32) -> Option<&Turn> {
        let node = self.network.nodes.nodes.get((node as usize).checked_sub(self.stops.len())?)?;
        self.joined.grounds[node.ground as usize].turns.get(node.turn)
    }

    fn place(&self, node: u32) -> Point {
        self.turn(node).map_or_else(|| self.stops[node as usize].at, |turn| turn.at)
    }

    fn is_square(&self, node: u32) -> bool {
        self.turn(node).map_or_else(|| self.stops[node as usize].is_square, |turn| turn.is_square)
    }

    /// The way from a stop, and the door at its end.
    pub(super) fn walk(&self, ways: &Ways, from: u32) -> Option<(Walk, u32)> {
        let (mut at, mut path) = (from, Vec::new());
        let mut is_square = true;
        loop {
            path.push(self.place(at));
            is_square &= self.is_square(at);
            let next = ways.0[at as usize]?.next;
            if next == at {
                break;
            }
            at = next;
        }
        drop_straight(&mut path);
        let slack = if is_square { Length::ZERO } else { OFF_AXIS_SLACK };
        Some((Walk { length: Measured { value: length_of(&path), slack }, path }, at))
    }
}

/// How a node's way goes on.
#[derive(Clone, Copy, Debug)]
struct Onwards {
    length: f64,
    /// The node itself where the way ends.
    next: u32,
}

/// For each node the shortest way to the nearest of some, if there is any.
#[derive(Debug)]
pub(super) struct Ways(Vec<Option<Onwards>>);

impl Ways {
    /// How long the way from a node is.
    pub(super) fn length(&self, from: u32) -> Option<f64> {
        self.0[from as usize].map(|onwards| onwards.length)
    }
}
