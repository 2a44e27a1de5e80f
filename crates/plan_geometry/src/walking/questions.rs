//! What is asked about the ways of a home, each question with all that it rests on: the network of all legs, the ways out
//! of all rooms, and how far exterior doors are from each other.

use std::collections::HashMap;

use plan_model::{Exact, Id, Length};

use super::ground::{GroundOf, Threshold, is_square};
use super::narrows::LEAST_GAP;
use super::network::{Network, Stands, Stop, Ways};
use super::sight::Joined;
use super::{ExitPair, WayOut, backwards, length_of};
use crate::asked::{Asked, Question};
use crate::kernel::project;
use crate::rooms::middle;
use crate::{DoorFigures, Figure, Leaf, Measured, OFF_AXIS_SLACK, RoomFigures, Space};

/// The joined grounds of a home, and where ways start and end.
#[derive(Debug, PartialEq)]
pub(crate) struct NetworkOf {
    grounds: Vec<Asked<GroundOf>>,
    /// For each ground and threshold of it, the door.
    doors: Vec<Vec<u32>>,
    /// For each door, its ground and threshold on either side.
    thresholds: Vec<[Option<(u32, u32)>; 2]>,
    /// The doors first, in the order of the figures.
    stops: Vec<Stop>,
    /// For each room, where one leaves it.
    rooms: Vec<(Id, Vec<u32>)>,
}

impl Question for NetworkOf {
    type Answer = Network;

    fn answer(&self) -> Network {
        Network::of(&self.joined(), &self.stops)
    }
}

impl NetworkOf {
    fn joined(&self) -> Joined<'_> {
        let grounds = self.grounds.iter().map(Asked::get).collect();
        Joined { grounds, doors: &self.doors, thresholds: &self.thresholds }
    }

    /// Whether a stop lies on any ground: a doorway that is too narrow, or that a stopped leaf bars, does not.
    fn may_be_reached(&self, stop: u32) -> bool {
        self.thresholds.get(stop as usize).is_none_or(|sides| sides.iter().any(Option::is_some))
    }

    pub(super) fn exits(&self) -> impl Iterator<Item = (u32, &Stop)> {
        (0..).zip(&self.stops).filter(|(_, stop)| stop.is_exterior)
    }
}

impl Asked<NetworkOf> {
    /// The shortest ways to the nearest of some stops, from the nearest on until there are enough.
    pub(super) fn ways_to(&self, targets: impl IntoIterator<Item = u32>, is_enough: impl FnMut(u32) -> bool) -> Ways {
        let question = self.question();
        self.get().ways_to(targets, is_enough, &question.stops, &question.joined())
    }

    /// The way from each room to the nearest of some exits.
    pub(super) fn ways_out(&self, exits: impl IntoIterator<Item = u32>) -> Vec<WayOut> {
        let (question, network) = (self.question(), self.get());
        let mut waiting: Vec<&[u32]> = question.rooms.iter().map(|(_, doorways)| doorways.as_slice()).collect();
        waiting.retain(|doorways| doorways.iter().any(|doorway| question.may_be_reached(*doorway)));
        let ways = self.ways_to(exits, |stop| {
            waiting.retain(|doorways| !doorways.contains(&stop));
            waiting.is_empty()
        });
        let way_out = |(room, doorways): &(Id, Vec<u32>)| {
            let leaving = doorways.iter().filter_map(|doorway| Some((ways.length(*doorway)?, *doorway)));
            let (_, doorway) = leaving.min_by(|(one, _), (other, _)| one.total_cmp(other))?;
            let nodes = network.path(&ways, doorway)?;
            let id = |node: u32| question.stops.get(node as usize).map(|stop| stop.id.clone());
            Some(WayOut {
                room: room.clone(),
                doorway: id(doorway)?,
                exit: id(*nodes.last()?)?,
                walk: network.walk(&nodes),
            })
        };
        question.rooms.iter().filter_map(way_out).collect()
    }
}

/// The ways out of all rooms.
#[derive(Debug, PartialEq)]
pub(crate) struct WaysOutOf(Asked<NetworkOf>);

impl Question for WaysOutOf {
    type Answer = Vec<WayOut>;

    fn answer(&self) -> Vec<WayOut> {
        self.0.ways_out(self.0.question().exits().map(|(exit, _)| exit))
    }
}

/// Of how many exterior doors every pair is told: no home has more, but a row of many homes in one plan has.
const MOST_EXITS: usize = 8;

/// How far exterior doors are from each other.
#[derive(Debug, PartialEq)]
pub(crate) struct ExitPairsOf(Asked<NetworkOf>);

impl Question for ExitPairsOf {
    type Answer = Vec<ExitPair>;

    fn answer(&self) -> Vec<ExitPair> {
        let (question, network) = (self.0.question(), self.0.get());
        let mut pairs = Vec::new();
        if question.exits().count() > MOST_EXITS {
            return pairs;
        }
        for (at, (first, one)) in question.exits().enumerate() {
            let mut others: Vec<u32> = question.exits().skip(at + 1).map(|(exit, _)| exit).collect();
            let ways = self.0.ways_to([first], |stop| {
                others.retain(|other| *other != stop);
                others.is_empty()
            });
            for (second, other) in question.exits().skip(at + 1) {
                let slack = if one.is_square && other.is_square { Length::ZERO } else { OFF_AXIS_SLACK };
                pairs.push(ExitPair {
                    exits: [one.id.clone(), other.id.clone()],
                    straight: Measured { value: length_of(&[one.at, other.at]), slack },
                    middles: [one.at, other.at],
                    walk: network.path(&ways, second).map(|nodes| backwards(network.walk(&nodes))),
                });
            }
        }
        pairs
    }
}

/// The spaces that a way can lead through, in their order. It leads through none with a single doorway: whoever goes there
/// has arrived in that doorway.
struct Grounds {
    spaces: Vec<usize>,
    /// For each space, its place in that list.
    number: Vec<Option<u32>>,
}

impl Grounds {
    fn led_through(thresholds: &[Vec<Threshold>], stops: &[Stop]) -> Self {
        let mut is_led_through: Vec<bool> = thresholds.iter().map(|thresholds| thresholds.len() > 1).collect();
        for stop in stops {
            if let Stands::OnGround(space) = stop.stands {
                is_led_through[space as usize] = true;
            }
        }
        let spaces: Vec<usize> = (0..thresholds.len()).filter(|space| is_led_through[*space]).collect();
        let mut number = vec![None; thresholds.len()];
        for (ground, space) in (0..).zip(&spaces) {
            number[*space] = Some(ground);
        }
        Self { spaces, number }
    }

    /// A threshold by its ground instead of its space.
    fn renumbered(&self, (space, threshold): (u32, u32)) -> Option<(u32, u32)> {
        Some((self.number[space as usize]?, threshold))
    }
}

/// Whether the leaf of a door leaves as much of its opening as this. Only one that is stopped leaves less than the opening
/// that is drawn: what an open leaf and its hinges take is no gap to pass. Where the unit's clear width is unknown, the leaf
/// leaves no more than what it does not cover.
fn leaf_leaves(door: &DoorFigures, gap: Length) -> bool {
    let Some(Leaf { hinge, closed, stopped_by: Some(stop), .. }) = &door.leaf else { return true };
    match &door.clear_width {
        Figure::Known { value, .. } => *value >= Exact::from(i128::from(gap.steps())),
        Figure::Unknown(_) => project(*hinge, *closed, *closed).0 - stop.covers >= gap,
    }
}

/// What of a home's walking distances was asked for.
#[derive(Clone, Debug)]
pub(crate) struct Walking {
    pub(super) network: Asked<NetworkOf>,
    pub(super) ways_out: Asked<WaysOutOf>,
    pub(super) exit_pairs: Asked<ExitPairsOf>,
}

impl Walking {
    pub(crate) fn after(
        earlier: Option<&Self>,
        spaces: &[Space],
        rooms: &[RoomFigures],
        doors: &[DoorFigures],
    ) -> Self {
        let mut thresholds: Vec<Vec<Threshold>> = vec![Vec::new(); spaces.len()];
        let mut doors_of: Vec<Vec<u32>> = vec![Vec::new(); spaces.len()];
        let mut stops = Vec::with_capacity(doors.len());
        let mut halves = Vec::with_capacity(doors.len());
        let mut rooms_of: Vec<(Id, Vec<u32>)> = rooms.iter().map(|room| (room.id.clone(), Vec::new())).collect();
        let room_at: HashMap<&Id, usize> = rooms.iter().enumerate().map(|(at, room)| (&room.id, at)).collect();
        for (index, door) in (0..).zip(doors) {
            let [right_start, right_end, left_end, left_start] = door.outline;
            let across = [middle(right_start, left_start), middle(right_end, left_end)];
            let [start, end] = door.sides[0].line;
            let is_square = is_square(start, end);
            let slack = if is_square { Length::ZERO } else { OFF_AXIS_SLACK };
            let is_open = project(start, end, end).0 + slack >= LEAST_GAP && leaf_leaves(door, LEAST_GAP - slack);
            halves.push([0, 1].map(|side| {
                let side = &door.sides[side];
                let at = *room_at.get(side.room.as_ref()?)?;
                rooms_of[at].1.push(index);
                let space = rooms[at].space;
                is_open.then(|| {
                    thresholds[space].push(Threshold::new(side.line, across));
                    doors_of[space].push(index);
                    (space as u32, thresholds[space].len() as u32 - 1)
                })
            }));
            stops.push(Stop {
                id: door.id.clone(),
                at: middle(across[0], across[1]),
                stands: Stands::InDoor,
                is_exterior: door.is_exterior,
                is_square,
            });
        }
        let mut boundaries: HashMap<&Id, u32> = HashMap::new();
        for (room, (_, doorways)) in rooms.iter().zip(&mut rooms_of) {
            // Its doors come first, and are there already.
            for boundary in room.doorways().iter().skip(doorways.len()) {
                let [from, to] = boundary.line;
                let stop = boundaries.entry(&boundary.id).or_insert_with(|| {
                    stops.push(Stop {
                        id: boundary.id.clone(),
                        at: middle(from, to),
                        stands: Stands::OnGround(room.space as u32),
                        is_exterior: false,
                        is_square: is_square(from, to),
                    });
                    stops.len() as u32 - 1
                });
                doorways.push(*stop);
            }
        }
        let grounds = Grounds::led_through(&thresholds, &stops);
        let halves = halves.into_iter().map(|halves| halves.map(|half| grounds.renumbered(half?))).collect();
        for stop in &mut stops {
            if let Stands::OnGround(space) = &mut stop.stands {
                *space = grounds.number[*space as usize].unwrap_or_default();
            }
        }
        let before = earlier.map_or(&[][..], |earlier| &earlier.network.question().grounds);
        let of_space = |(at, space): (usize, &usize)| {
            let (floor, thresholds) = (spaces[*space].free_floor.clone(), std::mem::take(&mut thresholds[*space]));
            let question = GroundOf { floor, thresholds };
            let same = before.get(at).filter(|ground| *ground.question() == question);
            Asked::after(same.or_else(|| before.iter().find(|ground| *ground.question() == question)), question)
        };
        let network = NetworkOf {
            grounds: grounds.spaces.iter().enumerate().map(of_space).collect(),
            doors: grounds.spaces.iter().map(|space| std::mem::take(&mut doors_of[*space])).collect(),
            thresholds: halves,
            stops,
            rooms: rooms_of,
        };
        let network = Asked::after(earlier.map(|earlier| &earlier.network), network);
        Self {
            ways_out: Asked::after(earlier.map(|earlier| &earlier.ways_out), WaysOutOf(network.clone())),
            exit_pairs: Asked::after(earlier.map(|earlier| &earlier.exit_pairs), ExitPairsOf(network.clone())),
            network,
        }
    }
}
