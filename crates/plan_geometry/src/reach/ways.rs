//! Ways over the floor of one space: from door to door, and from a door into a room of it.

use plan_model::{Id, Length, Point};

use super::floor::{place_disc, slack};
use crate::asked::{Asked, Question};
use crate::free_floor::FreeFloor;
use crate::passage::{Edge, Ground, Pinch};
use crate::{Doorway, Measured};

/// The widest body that can be led over the floor of a space from one of its doors to another.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct RouteWidth {
    /// The width of the body, a disc; zero if none can.
    pub width: Measured,
    /// Two places that the body touches where it is held up, as far apart as any.
    pub pinch: [Point; 2],
}

/// A space with its doors and the open boundaries between its rooms.
#[derive(Debug, PartialEq)]
pub(crate) struct WaysOf {
    pub(crate) free: Asked<FreeFloor>,
    /// The doors of all its rooms, on their faces.
    pub(crate) doors: Vec<Doorway>,
    pub(crate) boundaries: Vec<Doorway>,
}

impl Question for WaysOf {
    type Answer = Ways;

    fn answer(&self) -> Ways {
        let (room, floors) = (&self.free.question().region, self.free.get());
        Ways {
            ground: Ground::of(floors),
            doors: self.doors.iter().map(|door| Edge::against(room, floors, door)).collect(),
            boundaries: self.boundaries.iter().map(|boundary| Edge::across(floors, boundary)).collect(),
            slack: slack(floors),
        }
    }
}

/// The floor of a space with its edges, in the order of the question.
#[derive(Debug)]
pub(crate) struct Ways {
    ground: Ground,
    /// None for a door that does not lie on the edge of the floor.
    doors: Vec<Option<Edge>>,
    boundaries: Vec<Edge>,
    pub(super) slack: Length,
}

impl Ways {
    /// The widest disc, up to a ceiling, that can be led from one door to another, and where a wider one is held up.
    pub(super) fn between(&self, from: usize, to: usize, ceiling: Length) -> (Length, Option<Pinch>) {
        self.led([self.door(from), self.door(to)], ceiling)
    }

    /// The same from a door over one of the open boundaries.
    pub(super) fn over(&self, from: usize, boundary: usize, ceiling: Length) -> (Length, Option<Pinch>) {
        self.led([self.door(from), self.boundaries.get(boundary)], ceiling)
    }

    /// Nothing holds up a disc as wide as the ceiling.
    fn led(&self, edges: [Option<&Edge>; 2], ceiling: Length) -> (Length, Option<Pinch>) {
        let [Some(one), Some(other)] = edges else { return (Length::ZERO, None) };
        let led = self.ground.widest([one, other], ceiling);
        let is_held = led.width < ceiling;
        (led.width, is_held.then(|| Pinch::of(&led, [one, other].map(|edge| (edge, edge.widest())))))
    }

    fn door(&self, index: usize) -> Option<&Edge> {
        self.doors.get(index)?.as_ref()
    }

    fn route_width(&self, from: usize, to: usize) -> Option<RouteWidth> {
        let (one, other) = (self.door(from)?, self.door(to)?);
        let widest = [one.widest(), other.widest()];
        let led = self.ground.widest([one, other], widest[0].min(widest[1]));
        let pinch = Pinch::of(&led, [(one, widest[0]), (other, widest[1])]).ends;
        Some(RouteWidth { width: Measured { value: led.width, slack: self.slack }, pinch })
    }
}

impl Asked<WaysOf> {
    /// See [`SpaceReach::route_width`](super::SpaceReach::route_width).
    pub(super) fn route_width(&self, from: &Id, to: &Id) -> Option<RouteWidth> {
        let door = |id: &Id| self.question().doors.iter().position(|door| door.id == *id);
        self.get().route_width(door(from)?, door(to)?)
    }

    /// See [`SpaceReach::leads_to_disc`](super::SpaceReach::leads_to_disc).
    pub(super) fn leads_to_disc(&self, door: &Id, body: Length, disc: Length) -> Option<Point> {
        let question = self.question();
        let door = question.doors.iter().position(|doorway| doorway.id == *door)?;
        let ways = self.get();
        let starts = ways.door(door)?.centres(body);
        let mut parts = ways.ground.parts(body).filter(|part| starts.iter().any(|start| part.contains(*start)));
        parts.find_map(|part| {
            place_disc(question.free.get(), disc.max(body), |centre| part.contains(centre)).map(|disc| disc.centre)
        })
    }
}
