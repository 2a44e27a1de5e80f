//! Walking distances.
//!
//! People walk on the free floor of every space and through the openings of doors, from the middle of one door to the
//! middle of another: a door's middle is that of its opening, in the middle of the wall. Gaps under 18 in are closed, also
//! between fixtures, and so is a doorway that is narrower or of which a stopped leaf leaves less. Nobody walks outdoors: an exterior door is where a way ends.
//!
//! The shortest way is exact: among the corners that jut into the ground and are in sight of each other it is a shortest
//! path in a network. What is in sight is followed in whole steps through the triangles of each space's ground, and its
//! length is the sum of its legs, rounded down to the grid.

mod ground;
mod narrows;
mod network;
mod questions;
mod sight;

use plan_model::{Id, Length, Point};

use crate::kernel::Vector;
use crate::{Amount, Derived, Mark, Measure, MeasureName, Measured};

pub(crate) use questions::Walking;

/// A shortest way that somebody walks.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Walk {
    /// How long it is, in grid steps; rounded down. Where a corner or door is not square to the axes, twice
    /// [`OFF_AXIS_SLACK`](crate::OFF_AXIS_SLACK) for each leg.
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

fn backwards(mut walk: Walk) -> Walk {
    walk.path.reverse();
    walk
}

impl Derived {
    /// The shortest way from the middle of one door to the middle of another; none if there is no way, or no such door.
    ///
    /// The way leads over free floor and through openings, and crosses no gap under 18 in, nor a doorway whose leaf is stopped
    /// and leaves less clear. Source: common practice; the least gap has no source.
    #[must_use]
    pub fn walk(&self, from_door: &Id, to_door: &Id) -> Option<Walk> {
        let place = |id: &Id| self.doors.iter().position(|door| door.id == *id).map(|at| at as u32);
        let [from, to] = [place(from_door)?, place(to_door)?];
        let (asked, network) = (&self.walking.network, self.walking.network.get());
        // Sought from the same end in both directions, so that they are told alike.
        let nodes = network.path(&asked.ways_to([from.min(to)], |stop| stop == from.max(to)), from.max(to))?;
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
        let network = &self.walking.network;
        let exit = network.question().exits().find(|(_, stop)| stop.id == *exit);
        exit.map(|(exit, _)| network.ways_out([exit])).unwrap_or_default()
    }

    /// How far every two exterior doors are from each other; nothing where there are more than eight of them.
    ///
    /// Unit: grid steps. Source: 24 CFR 3280.105(a)(2), which wants the centres of two exterior doors at least 12 ft apart
    /// (20 ft in a home of several sections) in a straight line, whatever the way between them.
    #[must_use]
    pub fn exit_pairs(&self) -> &[ExitPair] {
        self.walking.exit_pairs.get()
    }
}

/// The way from every room to the nearest exterior door, and the distances between exterior doors.
///
/// What has no way is told as unknown: left out, it would read as if nobody had to ask for it.
pub(crate) fn measures(derived: &Derived) -> Vec<Measure> {
    let mut measures = Vec::new();
    let mut ways_out = derived.ways_out().iter().peekable();
    for room in &derived.rooms {
        measures.push(match ways_out.next_if(|out| out.room == room.id) {
            Some(out) => {
                way(MeasureName::WayOut, vec![out.room.clone(), out.doorway.clone(), out.exit.clone()], &out.walk)
            }
            None => Measure {
                name: MeasureName::WayOut,
                part: None,
                of: vec![room.id.clone()],
                amount: Amount::Unknown(no_way_out(derived).to_owned()),
                marks: vec![Mark::Ground(room.region.outer.clone())],
            },
        });
    }
    for pair in derived.exit_pairs() {
        let between = |name, amount| Measure {
            name,
            part: None,
            of: pair.exits.to_vec(),
            amount,
            marks: vec![Mark::Span(pair.middles)],
        };
        measures.push(between(MeasureName::ExitSeparation, Amount::Length(pair.straight)));
        measures.push(match &pair.walk {
            Some(walk) => way(MeasureName::ExitWalk, pair.exits.to_vec(), walk),
            None => between(MeasureName::ExitWalk, Amount::Unknown(NO_WAY_BETWEEN.to_owned())),
        });
    }
    measures
}

/// Why there is no walk between two exterior doors.
const NO_WAY_BETWEEN: &str = "no way leads indoors from the one door to the other";

/// Why a room has no way out.
fn no_way_out(derived: &Derived) -> &'static str {
    if derived.doors.iter().any(|door| door.is_exterior) {
        "no way leads from here to an outside door"
    } else {
        "no door leads outdoors"
    }
}

fn way(name: MeasureName, of: Vec<Id>, walk: &Walk) -> Measure {
    Measure { name, part: None, of, amount: Amount::Length(walk.length), marks: vec![Mark::Way(walk.path.clone())] }
}
