//! The leaf of a hinged door, and what keeps it from opening to 90 degrees.
//!
//! A leaf is taken for a line that turns about its hinge on the face of the wall: its thickness is part of what the unit
//! takes off its clear width, as at 90 degrees.

use plan_model::elements::{Door, Hinge, Swing};
use plan_model::{Id, Length, Point};

use super::contact::{self, Contact};
use super::place::{Host, Walls};
use crate::conflict::Solids;
use crate::kernel::Bounds;
use crate::kernel::offset;

/// The leaf of a hinged door.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Leaf {
    /// The hinge, on the face towards which the leaf swings.
    pub hinge: Point,
    /// The free edge when closed.
    pub closed: Point,
    /// The free edge at 90 degrees.
    pub open: Point,
    /// The free edge where the leaf comes to rest: at 90 degrees, or where something stops it, to the nearest step.
    pub reached: Point,
    /// What stops the leaf short of 90 degrees. A leaf that comes to lie against something at 90 degrees is not stopped.
    pub stopped_by: Option<Stop>,
}

/// What stops a leaf short of 90 degrees: the first wall, column or fixture that it meets.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Stop {
    /// The wall, column or fixture.
    pub thing: Id,
    /// How far the leaf opens: tenths of a degree from closed, rounded down.
    pub tenths_of_degree: u16,
    /// How much of the opening the leaf still covers, seen square to the wall: leaf times the cosine of the angle, rounded
    /// up. It is none at 90 degrees.
    pub covers: Length,
}

/// Everything that may stop a leaf: walls with their joints resolved, and the columns and fixtures among the solids. The
/// leaves of other doors count as closed: as a part of their walls.
pub(super) struct Obstacles<'a> {
    pub(super) walls: &'a Walls<'a>,
    pub(super) solids: &'a Solids<'a>,
}

impl Obstacles<'_> {
    fn near(&self, bounds: Bounds) -> impl Iterator<Item = (&Id, &[Point; 4])> {
        let walls = self.walls.near(bounds).map(|wall| (&wall.id, &wall.outline));
        let standing = self.solids.near(bounds).filter(|solid| !solid.is_wall);
        walls.chain(standing.map(|solid| (solid.id, &solid.outline)))
    }
}

/// The leaf of a door, so wide, in the part of a wall that `outline` takes, if it is a hinged one.
pub(super) fn leaf(
    door: &Door,
    width: Length,
    host: &Host<'_>,
    outline: [Point; 4],
    obstacles: &Obstacles<'_>,
) -> Option<Leaf> {
    let (hinge, swing) = (door.hinge?, door.swing?);
    let [right_near, right_far, left_far, left_near] = outline;
    let face = match swing {
        Swing::Left => [left_near, left_far],
        Swing::Right => [right_near, right_far],
    };
    let (hinge, closed) = match hinge {
        Hinge::Near => (face[0], face[1]),
        Hinge::Far => (face[1], face[0]),
    };
    let out = match swing {
        Swing::Left => width,
        Swing::Right => -width,
    };
    let open = offset(hinge, face[0], face[1], out);
    // The walls that the opening leads through end at its jambs, and at 90 degrees the leaf lies against them.
    let hosts = [Some(&host.wall.id), door.through.as_ref()];
    let within = Bounds::around(&[hinge, closed, open, closed + (open - hinge)]);
    let met = obstacles
        .near(within)
        .filter(|(id, _)| !hosts.contains(&Some(id)))
        .filter_map(|(id, outline)| Some((contact::first([hinge, closed, open], width, outline)?, id)));
    // The first of several that are met at once.
    let (reached, stopped_by) =
        match met.reduce(|first, next| if next.0.covers > first.0.covers { next } else { first }) {
            None => (open, None),
            Some((Contact { covers, tenths_of_degree, reached }, thing)) => {
                (reached, Some(Stop { thing: thing.clone(), tenths_of_degree, covers }))
            }
        };
    Some(Leaf { hinge, closed, open, reached, stopped_by })
}
