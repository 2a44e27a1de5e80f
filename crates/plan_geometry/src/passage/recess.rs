//! A recess no deeper than 24 in that serves one doorway is closed at its mouth: one turns into it to open a door, one
//! does not walk along it.
//!
//! A recess belongs to its doorway: its mouth is not much wider than the door, and it is closed once. Otherwise a hall that
//! narrows step by step would be closed step by step, and a long shallow bay would be taken out of the hall.

use plan_model::{Length, Point};

use super::Doorway;
use crate::Region;
use crate::kernel::{along, project};
use crate::region::{cross, drop_straight_corners, on_segment};

/// The depth up to which a recess is closed.
const DEEPEST: Length = Length::inches(24);

/// How much wider than its doorway a recess may be: the returns on both sides of a door.
const WIDER: Length = Length::inches(12);

/// The room and its doorways with every such recess closed.
pub(super) fn close(region: &Region, doorways: &[Doorway]) -> (Region, Vec<Doorway>) {
    let (mut region, mut doorways) = (region.clone(), doorways.to_vec());
    let mut closed = vec![false; doorways.len()];
    while let Some(recess) = find(&region.outer, &doorways, &closed) {
        doorways[recess.doorway].line = recess.mouth;
        closed[recess.doorway] = true;
        region.outer = recess.closed;
    }
    (region, doorways)
}

struct Recess {
    doorway: usize,
    mouth: [Point; 2],
    /// The room's boundary without it.
    closed: Vec<Point>,
}

/// A back between two corners, with a side that ends within the depth at a corner that juts into the room.
fn find(boundary: &[Point], doorways: &[Doorway], closed: &[bool]) -> Option<Recess> {
    let count = boundary.len();
    if count < 6 {
        return None;
    }
    let corner = |index: usize| boundary[index % count];
    let turn = |index: usize| cross(corner(index + count - 1), corner(index), corner(index + 1)).signum();
    (0..count).find_map(|start| {
        // Corners: before the back, its two ends, and after it.
        let [before, first, second, after] = [0, 1, 2, 3].map(|step| corner(start + step));
        if turn(start + 1) <= 0 || turn(start + 2) <= 0 {
            return None;
        }
        let depths = [project(before, first, first).0, project(second, after, after).0];
        let juts = [turn(start) < 0, turn(start + 3) < 0];
        let shallow = match juts {
            [true, true] => depths[0].min(depths[1]),
            [true, false] if depths[0] < depths[1] => depths[0],
            [false, true] if depths[1] < depths[0] => depths[1],
            _ => return None,
        };
        if shallow > DEEPEST {
            return None;
        }
        let mouth = [along(first, before, shallow), along(second, after, shallow)];
        let sides = [(mouth[0], first), (first, second), (second, mouth[1])];
        let served = |doorway: &Doorway| {
            let middle = crate::rooms::middle(doorway.line[0], doorway.line[1]);
            sides.iter().any(|(a, b)| on_segment(middle, *a, *b))
        };
        let mut serving = doorways.iter().enumerate().filter(|(_, doorway)| served(doorway));
        let (doorway, _) = serving.next()?;
        let span = |line: [Point; 2]| project(line[0], line[1], line[1]).0;
        if serving.next().is_some() || closed[doorway] || span(mouth) > span(doorways[doorway].line) + WIDER {
            return None;
        }
        let mut without: Vec<Point> = (4..count).map(|step| corner(start + step)).collect();
        without.extend([before, mouth[0], mouth[1], after]);
        without.dedup();
        drop_straight_corners(&mut without);
        Some(Recess { doorway, mouth, closed: without })
    })
}
