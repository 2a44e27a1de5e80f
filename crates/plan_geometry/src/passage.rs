//! The clear width of a hall between its doorways.
//!
//! The width between two doorways is that of the widest disc that can be led from the one to the other inside the room.
//! Two facts make this exact. A segment inside the room between two of its sides, shorter than a disc is wide, cannot be
//! crossed by the disc's centre: narrow places cut the room into parts. And the shortest of such segments start at a
//! corner that juts into the room. So the room is cut at its narrow places ([`narrows`], [`ground`]), and a disc gets from
//! one doorway to another if it can touch both ([`touching`]) in one part.

mod ground;
mod narrows;
mod recess;
mod touching;

use std::sync::Arc;

use plan_model::{Id, Length, Point};

use crate::asked::Question;
use crate::kernel::project;
use crate::rooms::middle;
use crate::{Mark, Measured, OFF_AXIS_SLACK, Region};

pub(crate) use ground::{Ground, Led};
pub(crate) use narrows::{distance, nearest_on};
pub(crate) use touching::{Edge, side_of};

/// Where one enters a room: a door on this room's face of the wall, or an open boundary.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Doorway {
    /// The door or open boundary.
    pub id: Id,
    /// Its line on this room's face, jamb to jamb.
    pub line: [Point; 2],
}

/// The clear width of a room between two of its doorways.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Passage {
    /// The two doorways.
    pub between: [Id; 2],
    /// The widest disc that can be led from the one to the other; zero if none can.
    pub clear_width: Measured,
    /// Two places that the widest disc touches where it is held up, as far apart as any: the two places on the faces that
    /// leave no more than this width, or a place of the doorway and what stands beside it.
    pub pinch: [Point; 2],
    /// The centre of the disc there.
    pub centre: Point,
}

/// Where a disc is held up.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) struct Pinch {
    /// Two places that it touches.
    pub(crate) ends: [Point; 2],
    /// Its centre.
    pub(crate) centre: Point,
}

impl Pinch {
    /// Where the widest disc between two edges is held up, with how wide a disc each of the two takes: at a narrow place, or
    /// else at the edge that takes no wider one.
    pub(crate) fn of(led: &Led, edges: [(&Edge, Length); 2]) -> Self {
        match led.held_at {
            Some(ends) => Self { ends, centre: middle(ends[0], ends[1]) },
            None => {
                let [(one, takes), (other, other_takes)] = edges;
                if takes <= other_takes { one } else { other }.pinch(led.width)
            }
        }
    }

    /// What shows it: a disc of this width and, where it is held between two places opposite each other, the distance of these.
    pub(crate) fn marks(&self, width: Length) -> Vec<Mark> {
        let [a, b] = self.ends;
        let is_across = project(a, b, b).0 + OFF_AXIS_SLACK >= width;
        let span = is_across.then_some(Mark::Span(self.ends));
        let disc = (width > Length::ZERO).then_some(Mark::Disc { centre: self.centre, diameter: width });
        span.into_iter().chain(disc).collect()
    }
}

/// A room with its doorways, between which its passages are sought. Few rooms are halls: it is done when it is first asked.
#[derive(Debug, PartialEq)]
pub(crate) struct PassagesOf {
    pub(crate) region: Arc<Region>,
    pub(crate) doorways: Vec<Doorway>,
}

impl Question for PassagesOf {
    type Answer = Vec<Passage>;

    fn answer(&self) -> Vec<Passage> {
        passages(&self.region, &self.doorways)
    }
}

/// The clear width between every two doorways of a room.
fn passages(region: &Region, doorways: &[Doorway]) -> Vec<Passage> {
    if doorways.len() < 2 {
        return Vec::new();
    }
    let (region, doorways) = recess::close(region, doorways);
    let edges: Vec<Edge> = doorways.iter().filter_map(|doorway| Edge::of(&region, doorway)).collect();
    let widest: Vec<Length> = edges.iter().map(|edge| edge.widest()).collect();
    let ground = Ground::of(std::slice::from_ref(&region));
    let slack = if region.sides().all(|(a, b)| a.x == b.x || a.y == b.y) { Length::ZERO } else { OFF_AXIS_SLACK };
    let mut passages = Vec::new();
    for (i, a) in edges.iter().enumerate() {
        for (j, b) in edges.iter().enumerate().skip(i + 1) {
            let led = ground.widest([a, b], widest[i].min(widest[j]));
            let Pinch { ends: pinch, centre } = Pinch::of(&led, [(a, widest[i]), (b, widest[j])]);
            let clear_width = Measured { value: led.width, slack };
            passages.push(Passage { between: [a.doorway.clone(), b.doorway.clone()], clear_width, pinch, centre });
        }
    }
    passages
}
