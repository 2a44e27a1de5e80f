//! Boundaries from their upright sides.

use plan_model::Point;

use super::{NONE, Upright};
use crate::Region;

impl Upright {
    /// Where it begins and ends for whoever walks it.
    const fn ends(&self) -> [Point; 2] {
        let (low, high) = (Point::new(self.x, self.low), Point::new(self.x, self.high));
        if self.rises { [low, high] } else { [high, low] }
    }
}

/// The regions that upright sides bound, in the order of the sides.
///
/// A boundary whose first side falls is an outer one, any other that of a hole.
pub(super) fn regions(mut uprights: Vec<Upright>) -> Vec<Region> {
    let mut regions: Vec<Region> = Vec::new();
    let mut region_of = vec![NONE; uprights.len()];
    let mut boundary = Vec::new();
    for first in 0..uprights.len() {
        if region_of[first] != NONE {
            continue;
        }
        let is_hole = uprights[first].rises;
        let region = if is_hole { region_of[uprights[first].under] } else { regions.len() };
        boundary.clear();
        let mut at = first;
        loop {
            region_of[at] = region;
            boundary.extend(uprights[at].ends());
            if is_hole {
                keep_to_the_hole(&mut uprights, at, |other| region_of[other] == NONE);
            }
            at = uprights[at].next;
            if at == first {
                break;
            }
        }
        if is_hole {
            regions[region].holes.push(boundary.clone());
        } else {
            regions.push(Region { outer: boundary.clone(), holes: Vec::new() });
        }
    }
    regions
}

/// Where ground touches ground at a corner, sides are tied so that an outer boundary keeps to its ground: ties those that
/// follow `at` so that the boundary of a hole keeps to the hole, unless one of them belongs to another boundary already.
fn keep_to_the_hole(uprights: &mut [Upright], at: usize, is_free: impl Fn(usize) -> bool) {
    let at_its_end = uprights[at].ends_at;
    if at_its_end != NONE && is_free(at_its_end) {
        exchange_next(uprights, at, at_its_end);
    }
    let at_the_far_end = uprights[uprights[at].next].starts_at;
    if at_the_far_end != NONE && is_free(uprights[at_the_far_end].before) {
        exchange_next(uprights, at, uprights[at_the_far_end].before);
    }
}

fn exchange_next(uprights: &mut [Upright], one: usize, other: usize) {
    let (after_one, after_other) = (uprights[one].next, uprights[other].next);
    (uprights[one].next, uprights[other].next) = (after_other, after_one);
    (uprights[after_one].before, uprights[after_other].before) = (other, one);
}
