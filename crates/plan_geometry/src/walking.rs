//! Walking distances.
//!
//! People walk on the free floor of every space and through the openings of doors, from the middle of one door to the
//! middle of another: a door's middle is that of its opening, in the middle of the wall. Gaps under 18 in are closed, also
//! between fixtures, and so is a doorway that is narrower. Nobody walks outdoors: an exterior door is where a way ends.
//!
//! The shortest way is exact: among the corners that jut into the ground and are in sight of each other it is a shortest
//! path in a network. What is in sight is followed in whole steps through the triangles of each space's ground, and its
//! length is the sum of its legs, rounded down to the grid.

mod ground;
mod narrows;
mod network;
mod sight;

use std::collections::HashMap;

use plan_model::{Id, Length, Point};

use crate::asked::{Asked, Question};
use crate::kernel::{Vector, project};
use crate::rooms::middle;
use crate::{Amount, Derived, DoorFigures, Mark, Measure, MeasureName, Measured, OFF_AXIS_SLACK, RoomFigures, Space};

use ground::{GroundOf, Threshold, is_square};
use narrows::LEAST_GAP;
use network::{Network, Stands, Stop, Ways};
use sight::Joined;

/// A shortest way that somebody walks.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Walk {
    /// How long it is, in grid steps; rounded down. Where a corner or door is not square to the axes, twice
    /// [`OFF_AXIS_SLACK`] for each leg.
    pub length: Measured,
    /// Its ends and the corners that it turns around, in order.
    pub path: Vec<Point>,
}

impl Walk {
    /// The way of somebody who keeps off the corners that they turn around: 12 in where 24 CFR 3280.105(a)(2)(iv) has the
    /// travel to an exterior door measured 1 ft off corners.
    ///
    /// Measured as with a tape that is held this far from each corner the shortest way turns around, on the line that
    /// halves the turn. Both legs at a corner then keep off it; a corner that the shortest way passes without a turn is
    /// not kept off. No gap on a way is under 18 in, so that a point 12 in off a corner is on the floor.
    #[must_use]
    pub fn off_corners(&self, off: Length) -> Self {
        let mut path = self.path.clone();
        for (at, [before, corner, after]) in path.iter_mut().skip(1).zip(self.path.array_windows()) {
            *at = moved_off([*before, *corner, *after], off);
        }
        Self { length: Measured { value: length_of(&path), slack: self.length.slack }, path }
    }
}

/// The second of three places, moved to the outside of the turn there.
#[expect(clippy::cast_possible_truncation, clippy::cast_precision_loss, reason = "exact in f64 below 2^53")]
fn moved_off([before, at, after]: [Point; 3], off: Length) -> Point {
    let [back, ahead] = [before, after].map(|other| Vector::between(at, other));
    let [(bx, by), (ax, ay)] = [back, ahead].map(|leg| {
        let length = leg.length();
        if length == 0.0 { (0.0, 0.0) } else { (leg.x as f64 / length, leg.y as f64 / length) }
    });
    let (inwards_x, inwards_y) = (bx + ax, by + ay);
    let size = inwards_x.hypot(inwards_y);
    if size == 0.0 || back.cross(ahead) == 0 {
        return at;
    }
    let step = |inwards: f64| Length::from_steps((-inwards / size * off.steps() as f64).round() as i64);
    at + Point::new(step(inwards_x), step(inwards_y))
}

/// How long a path is, rounded down to the grid; the same in both directions.
#[expect(clippy::cast_possible_truncation, reason = "the sum of the legs of a plan, far below 2^53")]
fn length_of(path: &[Point]) -> Length {
    let mut legs: Vec<f64> = path.windows(2).map(|leg| Vector::between(leg[0], leg[1]).length()).collect();
    legs.sort_by(f64::total_cmp);
    Length::from_steps(legs.into_iter().sum::<f64>().floor() as i64)
}

/// Takes out the corners that a path passes without a turn.
fn drop_straight(path: &mut Vec<Point>) {
    let mut kept: Vec<Point> = Vec::with_capacity(path.len());
    for (at, place) in path.iter().enumerate() {
        let around = kept.last().zip(path.get(at + 1));
        if around
            .is_none_or(|(before, after)| Vector::between(*before, *place).cross(Vector::between(*place, *after)) != 0)
        {
            kept.push(*place);
        }
    }
    *path = kept;
}

/// The way from a room to the nearest exterior door.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct WayOut {
    /// The room.
    pub room: Id,
    /// The doorway by which one leaves the room: of its doors and open boundaries the one from which the way is shortest.
    pub doorway: Id,
    /// The exterior door: the doorway itself where it leads outdoors.
    pub exit: Id,
    /// The way, from the middle of the doorway to the middle of the exterior door.
    pub walk: Walk,
}

/// How far two exterior doors are from each other.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct ExitPair {
    /// The two exterior doors, in the order of the file.
    pub exits: [Id; 2],
    /// The straight distance between the middles of their openings, whatever stands between; rounded down.
    pub straight: Measured,
    /// Where that is measured.
    pub middles: [Point; 2],
    /// The way between them indoors, if there is one.
    pub walk: Option<Walk>,
}

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
        let grounds = self.grounds.iter().map(Asked::get).collect();
        Network::of(&Joined { grounds, doors: &self.doors, thresholds: &self.thresholds }, &self.stops)
    }
}

impl NetworkOf {
    fn exits(&self) -> impl Iterator<Item = (u32, &Stop)> {
        (0..).zip(&self.stops).filter(|(_, stop)| stop.is_exterior)
    }
}

/// The ways out of all rooms.
#[derive(Debug, PartialEq)]
struct WaysOutOf(Asked<NetworkOf>);

impl Question for WaysOutOf {
    type Answer = Vec<WayOut>;

    fn answer(&self) -> Vec<WayOut> {
        let (question, network) = (self.0.question(), self.0.get());
        ways_out(question, network, &network.ways_to(question.exits().map(|(exit, _)| exit)))
    }
}

/// The nearest way out of each room.
fn ways_out(question: &NetworkOf, network: &Network, ways: &Ways) -> Vec<WayOut> {
    let way_out = |(room, doorways): &(Id, Vec<u32>)| {
        let leaving = doorways.iter().filter_map(|doorway| Some((ways.length(*doorway)?, *doorway)));
        let (_, doorway) = leaving.min_by(|(one, _), (other, _)| one.total_cmp(other))?;
        let nodes = network.path(ways, doorway)?;
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

/// How far exterior doors are from each other.
#[derive(Debug, PartialEq)]
struct ExitPairsOf(Asked<NetworkOf>);

impl Question for ExitPairsOf {
    type Answer = Vec<ExitPair>;

    fn answer(&self) -> Vec<ExitPair> {
        let (question, network) = (self.0.question(), self.0.get());
        let mut pairs = Vec::new();
        for (at, (first, one)) in question.exits().enumerate() {
            let ways = network.ways_to([first]);
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

fn backwards(mut walk: Walk) -> Walk {
    walk.path.reverse();
    walk
}

/// What of a home's walking distances was asked for.
#[derive(Clone, Debug)]
pub(crate) struct Walking {
    network: Asked<NetworkOf>,
    ways_out: Asked<WaysOutOf>,
    exit_pairs: Asked<ExitPairsOf>,
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
            let is_open = project(start, end, end).0 + slack >= LEAST_GAP;
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
        let before = earlier.map(|earlier| earlier.network.question());
        let grounds = spaces.iter().zip(thresholds).enumerate().map(|(at, (space, thresholds))| {
            let question = GroundOf { floor: space.free_floor.clone(), thresholds };
            let grounds = before.map_or(&[][..], |before| &before.grounds);
            let same = grounds.get(at).filter(|ground| *ground.question() == question);
            Asked::after(same.or_else(|| grounds.iter().find(|ground| *ground.question() == question)), question)
        });
        let grounds = grounds.collect();
        let network = NetworkOf { grounds, doors: doors_of, thresholds: halves, stops, rooms: rooms_of };
        let network = Asked::after(earlier.map(|earlier| &earlier.network), network);
        Self {
            ways_out: Asked::after(earlier.map(|earlier| &earlier.ways_out), WaysOutOf(network.clone())),
            exit_pairs: Asked::after(earlier.map(|earlier| &earlier.exit_pairs), ExitPairsOf(network.clone())),
            network,
        }
    }
}

impl Derived {
    /// The shortest way from the middle of one door to the middle of another; none if there is no way, or no such door.
    ///
    /// The way leads over free floor and through openings, and crosses no gap under 18 in. Source: common practice; the
    /// least gap has no source.
    #[must_use]
    pub fn walk(&self, from_door: &Id, to_door: &Id) -> Option<Walk> {
        let place = |id: &Id| self.doors.iter().position(|door| door.id == *id).map(|at| at as u32);
        let [from, to] = [place(from_door)?, place(to_door)?];
        let network = self.walking.network.get();
        // Sought from the same end in both directions, so that they are told alike.
        let nodes = network.path(&network.ways_to([from.min(to)]), from.max(to))?;
        let walk = network.walk(&nodes);
        Some(if from < to { backwards(walk) } else { walk })
    }

    /// The way from each room to the nearest exterior door, in the order of the rooms; rooms that have none are not there.
    ///
    /// Unit: grid steps. Source: 24 CFR 3280.105(a)(2)(iv), which limits the travel from the doorway of a bedroom to an
    /// exterior door to 35 ft, from centre to centre of the doors and [1 ft off corners](Walk::off_corners).
    #[must_use]
    pub fn ways_out(&self) -> &[WayOut] {
        self.walking.ways_out.get()
    }

    /// The way from each room to one exterior door, as [`Self::ways_out`].
    #[must_use]
    pub fn ways_out_by(&self, exit: &Id) -> Vec<WayOut> {
        let (question, network) = (self.walking.network.question(), self.walking.network.get());
        let exit = question.exits().find(|(_, stop)| stop.id == *exit);
        exit.map(|(exit, _)| ways_out(question, network, &network.ways_to([exit]))).unwrap_or_default()
    }

    /// How far every two exterior doors are from each other.
    ///
    /// Unit: grid steps. Source: 24 CFR 3280.105(a)(2), which wants the centres of two exterior doors at least 12 ft apart
    /// (20 ft in a home of several sections) in a straight line, whatever the way between them.
    #[must_use]
    pub fn exit_pairs(&self) -> &[ExitPair] {
        self.walking.exit_pairs.get()
    }
}

/// The way from every room to the nearest exterior door, and the distances between exterior doors.
pub(crate) fn measures(derived: &Derived) -> Vec<Measure> {
    let way = |name, of: Vec<Id>, walk: &Walk| Measure {
        name,
        of,
        amount: Amount::Length(walk.length),
        marks: vec![Mark::Way(walk.path.clone())],
    };
    let mut measures: Vec<Measure> = derived
        .ways_out()
        .iter()
        .map(|out| way(MeasureName::WayOut, vec![out.room.clone(), out.doorway.clone(), out.exit.clone()], &out.walk))
        .collect();
    for pair in derived.exit_pairs() {
        measures.push(Measure {
            name: MeasureName::ExitSeparation,
            of: pair.exits.to_vec(),
            amount: Amount::Length(pair.straight),
            marks: vec![Mark::Span(pair.middles)],
        });
        measures.extend(pair.walk.iter().map(|walk| way(MeasureName::ExitWalk, pair.exits.to_vec(), walk)));
    }
    measures
}
