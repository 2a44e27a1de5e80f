//! Walls that nearly meet: ends that stop just short of another wall.

use plan_model::{Length, Point};

use super::{WallFaces, WallSolid, joint, touches};
use crate::conflict::convex_overlap;
use crate::kernel::{Bounds, Whereabouts, along, project};
use crate::region::sides_of;
use crate::rooms::middle;
use crate::{Problem, ProblemKind};

/// How far a wall may end short of another for it to look like a slip: a door jamb or a deliberate opening is wider.
const NEARLY: Length = Length::inches(3);

/// Ends of walls that meet nothing and stop just short of another wall: of one ahead of them, or else of any that is near, as
/// at a corner whose two walls both stop short. Each two walls are told once there.
pub(crate) fn gaps(solids: &[WallSolid]) -> Vec<Problem> {
    let outlines: Vec<[Point; 4]> = solids.iter().map(|solid| solid.faces.outline()).collect();
    let whereabouts = Whereabouts::of(outlines.iter().map(|outline| Bounds::around(outline)));
    let walls = Walls { solids, outlines, whereabouts };
    let ends = (0..solids.len()).flat_map(|wall| {
        let faces = solids[wall].faces;
        [faces, faces.reversed()].map(|faces| LooseEnd { wall, faces })
    });
    let mut gaps: Vec<Gap> = Vec::new();
    let mut aside = Vec::new();
    for end in ends.filter(|end| walls.is_loose(end)) {
        match walls.ahead(&end) {
            Some(gap) => gaps.push(gap),
            None => aside.push(end),
        }
    }
    for end in aside {
        let is_told =
            |other: usize| gaps.iter().any(|gap| gap.between == [end.wall, other] || gap.between == [other, end.wall]);
        gaps.extend(walls.beside(&end).filter(|gap| !is_told(gap.between[1])));
    }
    let told = |gap: Gap| {
        let [wall, other] = gap.between.map(|wall| solids[wall].id.clone());
        Problem::at(ProblemKind::Gap { wall, other, gap: gap.wide }, gap.at)
    };
    gaps.into_iter().map(told).collect()
}

/// An end of a wall, with the wall's faces walked towards it.
struct LooseEnd {
    wall: usize,
    faces: WallFaces,
}

impl LooseEnd {
    const fn segment(&self) -> [Point; 2] {
        [self.faces.left[1], self.faces.right[1]]
    }
}

/// The wall that ends short and the one it nearly meets.
struct Gap {
    between: [usize; 2],
    wide: Length,
    at: Point,
}

struct Walls<'a> {
    solids: &'a [WallSolid],
    /// Each wall as it was drawn.
    outlines: Vec<[Point; 4]>,
    whereabouts: Whereabouts,
}

impl Walls<'_> {
    fn near(&self, end: &LooseEnd, bounds: Bounds) -> Vec<usize> {
        let mut near = self.whereabouts.touching(bounds);
        near.retain(|other| *other != end.wall);
        near
    }

    fn is_loose(&self, end: &LooseEnd) -> bool {
        let segment = end.segment();
        !self.near(end, Bounds::around(&segment)).into_iter().any(|other| touches(segment, &self.outlines[other]))
    }

    /// The gap to the first wall straight ahead.
    fn ahead(&self, end: &LooseEnd) -> Option<Gap> {
        let faces = end.faces;
        let on = |face: [Point; 2]| along(face[1], face[1] + (face[1] - face[0]), NEARLY);
        let strip = [faces.right[1], on(faces.right), on(faces.left), faces.left[1]];
        let [from, to] = faces.centre_line();
        let distance = |other: &usize| {
            let corners = self.outlines[*other].iter().map(|corner| project(from, to, *corner).0);
            corners.min().unwrap_or_default() - project(from, to, to).0
        };
        let near = self.near(end, Bounds::around(&strip)).into_iter();
        let reached = near.filter(|other| convex_overlap(&strip, &self.outlines[*other]));
        let other = reached.min_by_key(distance)?;
        Some(Gap { between: [end.wall, other], wide: distance(&other).max(Length::ZERO), at: to })
    }

    /// The gap to the nearest wall in any direction, joints resolved; none to walls that run along this one, as the halves of
    /// a doubled wall do, nor to one that this wall meets elsewhere.
    fn beside(&self, end: &LooseEnd) -> Option<Gap> {
        let segment = end.segment();
        let near = self.near(end, Bounds::of(&segment).grown(NEARLY));
        if near.iter().any(|other| touches(segment, &self.solids[*other].outline)) {
            return None;
        }
        let apart = near.into_iter().filter(|other| !self.runs_along(end, *other) && !self.meet(end.wall, *other));
        let gaps = apart.map(|other| {
            let (wide, at) = nearest(segment, &self.solids[other].outline);
            Gap { between: [end.wall, other], wide, at }
        });
        gaps.filter(|gap| gap.wide < NEARLY).min_by_key(|gap| gap.wide)
    }

    /// Whether another wall lies in the direction of this one and not wholly beyond its end.
    fn runs_along(&self, end: &LooseEnd, other: usize) -> bool {
        let [from, to] = end.faces.centre_line();
        let ahead = |place: Point| project(from, to, place).0;
        joint::parallel(&end.faces, &self.solids[other].faces)
            && self.outlines[other].iter().any(|corner| ahead(*corner) < ahead(to) - crate::OFF_AXIS_SLACK)
    }

    fn meet(&self, one: usize, other: usize) -> bool {
        let ends = |wall: usize| {
            let faces = self.solids[wall].faces;
            [[faces.left[0], faces.right[0]], [faces.left[1], faces.right[1]]]
        };
        ends(one).iter().any(|end| touches(*end, &self.outlines[other]))
            || ends(other).iter().any(|end| touches(*end, &self.outlines[one]))
    }
}

/// How far a segment is from an outline that it does not touch, and the middle between the two.
fn nearest(segment: [Point; 2], outline: &[Point; 4]) -> (Length, Point) {
    let from_segment = segment.into_iter().flat_map(|end| sides_of(outline).map(move |(p, q)| (end, [p, q])));
    let from_outline = outline.iter().map(|corner| (*corner, segment));
    let distances = from_segment.chain(from_outline).map(|(place, [p, q])| {
        let foot = along(p, q, project(p, q, place).0.clamp(Length::ZERO, project(p, q, q).0));
        (project(place, foot, foot).0, middle(place, foot))
    });
    distances.min_by_key(|(distance, _)| *distance).unwrap_or_default()
}
