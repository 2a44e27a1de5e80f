//! All legs of which shortest ways are made, and the shortest ways along them.
//!
//! A shortest way is straight but where it turns around a corner that juts into the ground, and there its legs pass the
//! corner without running into what lies behind it. So the legs are: from the middle of a door to every such corner in
//! sight, from corner to corner, and from door to door.

use std::cmp::Reverse;
use std::collections::BinaryHeap;
use std::sync::OnceLock;

use plan_model::{Id, Length, Point};

use super::ground::{Ground, Wedge};
use super::narrows::Narrows;
use super::sight::{Directions, Joined, Sight, Trail, View, Watch};
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

/// A leg to another node.
#[derive(Clone, Copy, Debug)]
struct Leg {
    to: u32,
    length: f64,
}

/// The places where ways start, turn and end: stops first, then the turns. The legs from each are found when a way comes to
/// it, since the way out of a home leads past few of its corners.
#[derive(Debug)]
pub(crate) struct Network {
    places: Vec<Point>,
    /// How many of them are stops.
    stops: usize,
    /// Whether what stands at the place is square to the axes.
    is_square: Vec<bool>,
    narrows: Narrows,
    nodes: Nodes,
    /// For each node, its legs to stops in the middle of a ground, which are found from there; in order.
    to_grounds: Vec<(u32, Leg)>,
    /// For each node, its other legs.
    legs: Vec<OnceLock<Vec<Leg>>>,
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
    /// For each ground and turn, where its nodes start; one more for the end.
    first: Vec<Vec<usize>>,
}

impl Nodes {
    fn of(grounds: &[&Ground], narrows: &Narrows) -> Self {
        let mut dividing = narrows.dividing.as_slice();
        let mut nodes = Vec::new();
        let mut first = Vec::with_capacity(grounds.len());
        for (ground, here) in grounds.iter().enumerate() {
            let ground = ground as u32;
            let mut starts = Vec::with_capacity(here.turns.len() + 1);
            for (turn, corner) in here.turns.iter().enumerate() {
                starts.push(nodes.len());
                let count = dividing.iter().take_while(|(g, t, _)| (*g, *t) == (ground, turn)).count();
                let (here, others) = dividing.split_at(count);
                dividing = others;
                let mut cuts: Vec<Vector> = here.iter().map(|(_, _, direction)| *direction).collect();
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
            starts.push(nodes.len());
            first.push(starts);
        }
        Self { nodes, first }
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
            let starts = &self.nodes.first[ground as usize];
            for node in starts[turn]..starts[turn + 1] {
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
        let passes = self.from.is_none_or(|from| from.free.passes(towards));
        if is_there && passes && !self.narrows.bar([sight.from, at], sight.grounds(trail)) {
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
    /// `stops` holds the doors first, in their order.
    pub(super) fn of(joined: &Joined<'_>, stops: &[Stop]) -> Self {
        let narrows = Narrows::of(joined);
        let nodes = Nodes::of(&joined.grounds, &narrows);
        let turns = || nodes.nodes.iter().map(|node| &joined.grounds[node.ground as usize].turns[node.turn]);
        let places: Vec<Point> = stops.iter().map(|stop| stop.at).chain(turns().map(|turn| turn.at)).collect();
        let is_square = stops.iter().map(|stop| stop.is_square).chain(turns().map(|turn| turn.is_square)).collect();
        let legs = places.iter().map(|_| OnceLock::new()).collect();
        let (stops_before, to_grounds) = (stops.len(), Vec::new());
        let mut network = Self { places, stops: stops_before, is_square, narrows, nodes, to_grounds, legs };
        let mut sight = Sight::new(joined);
        let on_grounds = (0..).zip(stops).filter(|(_, stop)| matches!(stop.stands, Stands::OnGround(_)));
        for (node, _) in on_grounds.collect::<Vec<_>>() {
            let found = network.legs_from(node, stops, &mut sight);
            network.to_grounds.extend(found.iter().map(|leg| (leg.to, Leg { to: node, length: leg.length })));
            network.legs[node as usize] = OnceLock::from(found);
        }
        network.to_grounds.sort_by_key(|(from, _)| *from);
        network
    }

    fn legs_from(&self, node: u32, stops: &[Stop], sight: &mut Sight<'_>) -> Vec<Leg> {
        let joined = sight.joined;
        let (narrows, nodes) = (&self.narrows, &self.nodes);
        let mut outlook = Outlook { joined, narrows, nodes, stops, from: None, found: Vec::new() };
        match stops.get(node as usize) {
            Some(Stop { at, stands: Stands::InDoor, .. }) => sight.look_from_door(node, *at, &mut outlook),
            Some(Stop { at, stands: Stands::OnGround(ground), .. }) => {
                sight.look_from_place(*ground, *at, &mut outlook);
            }
            None => {
                let from = &nodes.nodes[node as usize - self.stops];
                let turn = &joined.grounds[from.ground as usize].turns[from.turn];
                outlook.from = Some(from);
                sight.look_from_turn(from.ground, turn, Directions::Within(from.free.passing()), &mut outlook);
            }
        }
        outlook.found
    }

    fn to_grounds_from(&self, node: u32) -> impl Iterator<Item = &Leg> {
        let start = self.to_grounds.partition_point(|(from, _)| *from < node);
        self.to_grounds[start..].iter().take_while(move |(from, _)| *from == node).map(|(_, leg)| leg)
    }

    /// The shortest ways to the nearest of some targets, from the nearest stops on; `is_enough` is told each stop, and says
    /// when none is wanted that is farther.
    pub(super) fn ways_to(
        &self,
        targets: impl IntoIterator<Item = u32>,
        mut is_enough: impl FnMut(u32) -> bool,
        stops: &[Stop],
        joined: &Joined<'_>,
    ) -> Ways {
        let mut sight = Sight::new(joined);
        let mut ways = vec![None; self.places.len()];
        let mut settled = vec![false; self.places.len()];
        // As far as the last stop that is wanted: another as far away may come first in the plan.
        let mut farthest = u64::MAX;
        // Lengths are not negative, and so are ordered as their bits are.
        let mut heap = BinaryHeap::new();
        for target in targets {
            ways[target as usize] = Some(Onwards { length: 0.0, next: target });
            heap.push(Reverse((0_u64, target)));
        }
        while let Some(Reverse((bits, node))) = heap.pop() {
            if bits > farthest {
                break;
            }
            if std::mem::replace(&mut settled[node as usize], true) {
                continue;
            }
            if (node as usize) < self.stops {
                if farthest == u64::MAX && is_enough(node) {
                    farthest = bits;
                }
                // A way leads through no stop but its ends: people pass a doorway wherever it is shortest.
                if bits > 0 {
                    continue;
                }
            }
            let legs = self.legs[node as usize].get_or_init(|| self.legs_from(node, stops, &mut sight));
            for leg in legs.iter().chain(self.to_grounds_from(node)) {
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

    /// The nodes along the way from one.
    pub(super) fn path(&self, ways: &Ways, from: u32) -> Option<Vec<u32>> {
        let mut path = vec![from];
        let mut at = from;
        loop {
            let next = ways.0[at as usize]?.next;
            if next == at {
                return Some(path);
            }
            path.push(next);
            at = next;
        }
    }

    /// The way along some nodes.
    pub(super) fn walk(&self, nodes: &[u32]) -> Walk {
        let mut path: Vec<Point> = nodes.iter().map(|node| self.places[*node as usize]).collect();
        drop_straight(&mut path);
        let is_square = nodes.iter().all(|node| self.is_square[*node as usize]);
        // Each leg leads between two places that may be off the true ones.
        let legs = path.len() as i64 - 1;
        let slack = if is_square { Length::ZERO } else { OFF_AXIS_SLACK * (2 * legs) };
        Walk { length: Measured { value: length_of(&path), slack }, path }
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
