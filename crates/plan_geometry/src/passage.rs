//! The clear width of a hall between its doorways.
//!
//! The width between two doorways is that of the widest disc that can be led from the one to the other inside the room.
//! Two facts make this exact. A segment inside the room between two of its sides, shorter than a disc is wide, cannot be
//! crossed by the disc's centre: narrow places cut the room into parts. And the shortest of such segments start at a
//! corner that juts into the room. So the room is cut at all its narrow places ([`narrows`]), and a disc gets from one
//! doorway to another if it can touch both ([`touching`]) in one part.

mod narrows;
mod recess;
mod touching;

use std::collections::BTreeMap;
use std::sync::Arc;

use plan_model::{Id, Length, Point};

use crate::asked::Question;
use crate::{Measured, OFF_AXIS_SLACK, Region};

use narrows::Narrow;
pub(crate) use narrows::{distance, nearest_on};
use touching::Edge;
pub(crate) use touching::side_of;

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
    /// The two places on the faces that leave no more than this width.
    pub pinch: [Point; 2],
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
    let reach = widest.iter().copied().max().unwrap_or_default();
    let mut room = Room { narrows: narrows::of(&region, reach), region: &region, parts: BTreeMap::new() };
    let slack = if region.sides().all(|(a, b)| a.x == b.x || a.y == b.y) { Length::ZERO } else { OFF_AXIS_SLACK };
    let mut passages = Vec::new();
    for (i, a) in edges.iter().enumerate() {
        for (j, b) in edges.iter().enumerate().skip(i + 1) {
            let (width, pinch) = room.width_between([a, b], [widest[i], widest[j]]);
            let clear_width = Measured { value: width, slack };
            passages.push(Passage { between: [a.doorway.clone(), b.doorway.clone()], clear_width, pinch });
        }
    }
    passages
}

/// A room with its narrow places, and the parts into which some of them cut it.
struct Room<'a> {
    region: &'a Region,
    /// The narrowest first.
    narrows: Vec<Narrow>,
    /// By how many of the narrow places cut.
    parts: BTreeMap<usize, Vec<Region>>,
}

impl Room<'_> {
    /// The widest disc that gets from one doorway to the other, and what holds up a wider one.
    fn width_between(&mut self, edges: [&Edge; 2], widest: [Length; 2]) -> (Length, [Point; 2]) {
        let ceiling = widest[0].min(widest[1]);
        let at_doorway = if widest[0] <= widest[1] { edges[0] } else { edges[1] };
        if self.leads(edges, ceiling) {
            return (ceiling, at_doorway.pinch(ceiling));
        }
        // The narrow places that a disc of some width gets through, as a count of those it does not.
        let below: Vec<Length> = self.narrows.iter().map(|narrow| narrow.width).filter(|w| *w < ceiling).collect();
        let passable = below.partition_point(|width| self.leads(edges, *width));
        let (mut yes, mut no) = match passable.checked_sub(1) {
            Some(last) => (below[last], below.get(passable).copied().unwrap_or(ceiling)),
            None => (Length::ZERO, below.first().copied().unwrap_or(ceiling)),
        };
        let holding = self.narrows.iter().find(|narrow| narrow.width == yes).map(|narrow| narrow.ends);
        if let Some(ends) = holding
            && !self.leads(edges, yes + Length::from_steps(1))
        {
            return (yes, ends);
        }
        while (no - yes).steps() > 1 {
            let middle = Length::from_steps(yes.steps() + (no - yes).steps() / 2);
            if self.leads(edges, middle) {
                yes = middle;
            } else {
                no = middle;
            }
        }
        (yes, holding.unwrap_or_else(|| at_doorway.pinch(yes)))
    }

    /// Whether a disc of this diameter can be led from one doorway to the other.
    fn leads(&mut self, edges: [&Edge; 2], width: Length) -> bool {
        let [from, to] = edges.map(|edge| edge.centres(width));
        if from.is_empty() || to.is_empty() {
            return false;
        }
        let cutting = self.narrows.partition_point(|narrow| narrow.width < width);
        if cutting == 0 {
            return true;
        }
        let (region, narrows) = (self.region, &self.narrows);
        let parts = self.parts.entry(cutting).or_insert_with(|| narrows::cut(region, &narrows[..cutting]));
        parts.iter().any(|part| {
            let inside = |centres: &[Point]| centres.iter().any(|centre| part.contains(*centre));
            inside(&from) && inside(&to)
        })
    }
}
