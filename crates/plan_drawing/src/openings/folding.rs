use kurbo::{Point, Vec2};

use super::Slot;
use crate::frame::Sketch;
use crate::shapes::polygon;
use crate::{Ink, Pen};

/// Wider openings have a pair of leaves at each jamb, in inches (common practice, no source).
const ONE_PAIR_UP_TO: f64 = 48.0;
/// How far a pair stands folded on the drawing, in degrees from closed.
const FOLDED: f64 = 62.0;
/// Thickness of a folding leaf, in inches (common practice, no source).
const LEAF: f64 = 1.375;

/// Pairs of leaves, each as the jamb it hangs from and the direction towards the opening.
fn pairs(slot: Slot) -> (Vec<(f64, f64)>, f64) {
    if slot.length > ONE_PAIR_UP_TO {
        (vec![(0.0, 1.0), (slot.length, -1.0)], slot.length / 4.0)
    } else {
        (vec![(0.0, 1.0)], slot.length / 2.0)
    }
}

/// Half-folded leaves on the given side of the wall (1 to its left).
pub(super) fn draw(sketch: &mut Sketch<'_>, slot: Slot, side: f64) {
    let (pairs, leaf) = pairs(slot);
    let (sine, cosine) = FOLDED.to_radians().sin_cos();
    for (jamb, inward) in pairs {
        let pivot = Point::new(jamb + inward * 0.6, 0.0);
        let knuckle = pivot + Vec2::new(inward * cosine, side * sine) * leaf;
        let guide = pivot + Vec2::new(inward * cosine * 2.0 * leaf, 0.0);
        for (from, to) in [(pivot, knuckle), (guide, knuckle)] {
            let along = (to - from).normalize();
            let half = Vec2::new(-along.y, along.x) * (LEAF / 2.0);
            let body = polygon([from + half, to + half, to - half, from - half]);
            sketch.fill(body.clone(), Ink::ObjectFill);
            sketch.stroke(body, Pen::FINE, Ink::Object);
        }
    }
}

/// The floor in front of the opening that the leaves take.
pub(super) fn swept(slot: Slot, side: f64) -> Vec<Point> {
    let (_, leaf) = pairs(slot);
    slot.corners(0.0, 0.0, slot.length, side * leaf)
}
