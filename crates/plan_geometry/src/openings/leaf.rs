//! The leaf of a hinged door, and what keeps it from opening.

use plan_model::elements::{Door, Hinge, Swing};
use plan_model::{Id, Length, Point};

use super::place::Host;
use crate::conflict::Solid;
use crate::kernel::{offset, project};
use crate::walls::Bounds;

/// The leaf of a hinged door.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Leaf {
    /// The hinge, on the face towards which the leaf swings.
    pub hinge: Point,
    /// The free edge when closed.
    pub closed: Point,
    /// The free edge at 90 degrees.
    pub open: Point,
    /// What stands in the way of the leaf between closed and 90 degrees.
    pub stopped_by: Option<Id>,
}

/// Into how many straight pieces the arc of a sweep is divided: they stray from it by less than 1/50 in for a 36 in leaf.
const ARC_PIECES: i32 = 32;

/// The sector that a leaf passes from closed to 90 degrees, counter-clockwise; its arc lies within the true one.
#[expect(clippy::cast_possible_truncation, clippy::cast_precision_loss, reason = "exact in f64 below 2^53")]
fn sweep(hinge: Point, closed: Point, open: Point) -> Vec<Point> {
    let (u, v) = (closed - hinge, open - hinge);
    let nearest = |value: f64| Length::from_steps(value.round() as i64);
    let at = |piece: i32| {
        let (sin, cos) = (std::f64::consts::FRAC_PI_2 * f64::from(piece) / f64::from(ARC_PIECES)).sin_cos();
        let along = |a: Length, b: Length| nearest(cos * a.steps() as f64 + sin * b.steps() as f64);
        hinge + Point::new(along(u.x, v.x), along(u.y, v.y))
    };
    let mut sector: Vec<Point> = std::iter::once(hinge).chain((0..=ARC_PIECES).map(at)).collect();
    if crate::region::twice_area(&sector) < 0 {
        sector.reverse();
    }
    sector
}

pub(super) fn leaf(door: &Door, host: &Host<'_>, outline: [Point; 4], solids: &[Solid<'_>]) -> Option<Leaf> {
    let (hinge, swing) = (door.hinge?, door.swing?);
    let [right_near, right_far, left_far, left_near] = outline;
    let face = match swing {
        Swing::Left => [left_near, left_far],
        Swing::Right => [right_near, right_far],
    };
    let (at, closed) = match hinge {
        Hinge::Near => (face[0], face[1]),
        Hinge::Far => (face[1], face[0]),
    };
    let width = project(face[0], face[1], face[1]).0;
    let out = match swing {
        Swing::Left => width,
        Swing::Right => -width,
    };
    let open = offset(at, face[0], face[1], out);
    let sweep = sweep(at, closed, open);
    let within = Bounds::around(&sweep);
    let stopped_by = solids
        .iter()
        .filter(|solid| *solid.id != host.wall.id && Some(solid.id) != door.through.as_ref())
        .find(|solid| solid.overlaps(&sweep, within))
        .map(|solid| solid.id.clone());
    Some(Leaf { hinge: at, closed, open, stopped_by })
}
