//! An area as a sum that a person can follow with a pencil.

use std::cmp::Reverse;
use std::collections::BTreeMap;

use plan_model::{Length, Point};

use crate::region::{drop_straight_corners, sides_of};
use crate::{Area, Region};

/// Parts that do not overlap and whose areas sum up to an area, to the last square step.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct AreaArithmetic {
    /// The parts, the largest first.
    pub parts: Vec<AreaPart>,
    /// Their sum.
    pub area: Area,
}

/// One part of an area.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct AreaPart {
    /// Its ground.
    pub region: Region,
    /// How its area is worked out.
    pub method: AreaMethod,
    /// Its area.
    pub area: Area,
}

/// How the area of a part is worked out.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum AreaMethod {
    /// A rectangle square to the axes: length times width.
    Sides {
        /// Its shorter side.
        width: Length,
        /// Its longer side.
        length: Length,
    },
    /// A shape with slanted sides, by the coordinates of its corners (the surveyor's traverse): for each corner, its x times
    /// the next one's y less the next one's x times its y; half of the sum. See [`AreaPart::traverse`].
    Coordinates {
        /// From where the coordinates are taken, so that they are small and none is negative.
        origin: Point,
    },
}

/// A corner of a traverse.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct TraverseCorner {
    /// Where it is, from the traverse's origin.
    pub at: Point,
    /// Its x times the next corner's y, less the next corner's x times its y. The sum of all is twice the area.
    pub product: Area,
}

impl AreaPart {
    /// The corners of each boundary, the outer one first, with what they contribute to twice the area; holes are walked the
    /// other way round and so take their area off. Empty for a rectangle.
    #[must_use]
    pub fn traverse(&self) -> Vec<Vec<TraverseCorner>> {
        let AreaMethod::Coordinates { origin } = self.method else { return Vec::new() };
        let corner = |(here, next): (Point, Point)| {
            let (here, next) = (here - origin, next - origin);
            let product = Area::of_rectangle(here.x, next.y) - Area::of_rectangle(next.x, here.y);
            TraverseCorner { at: here, product }
        };
        self.region.boundaries().map(|boundary| sides_of(boundary).map(corner).collect()).collect()
    }

    fn rectangle([low, high]: [Point; 2]) -> Self {
        let (across, up) = (high.x - low.x, high.y - low.y);
        Self {
            region: Region { outer: crate::kernel::rectangle(low, high).to_vec(), holes: Vec::new() },
            method: AreaMethod::Sides { width: across.min(up), length: across.max(up) },
            area: Area::of_rectangle(across, up),
        }
    }

    fn by_coordinates(region: &Region) -> Self {
        let mut region = region.clone();
        std::iter::once(&mut region.outer).chain(&mut region.holes).for_each(drop_straight_corners);
        let least = |coordinate: fn(&Point) -> Length| region.outer.iter().map(coordinate).min().unwrap_or_default();
        let origin = Point::new(least(|corner| corner.x), least(|corner| corner.y));
        Self { area: region.area(), method: AreaMethod::Coordinates { origin }, region }
    }

    /// What decides the order of parts and between two ways to cut: nothing that depends on where the home is drawn.
    const fn size(&self) -> (Area, Length) {
        match self.method {
            AreaMethod::Sides { length, .. } => (self.area, length),
            AreaMethod::Coordinates { .. } => (self.area, Length::ZERO),
        }
    }
}

impl AreaArithmetic {
    /// The arithmetic of regions that do not overlap: few rectangles for each that is square to the axes, else its traverse.
    pub(crate) fn of(regions: &[Region]) -> Self {
        let parts = regions.iter().flat_map(|region| match rectangles(region) {
            Some(rectangles) => rectangles,
            None => vec![AreaPart::by_coordinates(region)],
        });
        let mut parts: Vec<AreaPart> = parts.collect();
        parts.sort_by_key(|part| (Reverse(part.size()), part.region.outer.first().copied()));
        let area = parts.iter().map(|part| part.area).sum();
        Self { parts, area }
    }
}

/// The rectangles into which a region square to the axes falls when it is cut along the house or across it, whichever makes
/// fewer; of two ways that make as many, the one with the larger pieces. None for a region with a slanted side.
fn rectangles(region: &Region) -> Option<Vec<AreaPart>> {
    if region.sides().any(|(a, b)| a.x != b.x && a.y != b.y) {
        return None;
    }
    let swapped = |point: &Point| Point::new(point.y, point.x);
    let cut_along = slabs(region.sides());
    let cut_across = slabs(region.sides().map(|(a, b)| (swapped(&a), swapped(&b))));
    let parts = |pieces: Vec<[Point; 2]>| {
        let mut parts: Vec<AreaPart> = pieces.into_iter().map(AreaPart::rectangle).collect();
        parts.sort_by_key(|part| Reverse(part.size()));
        parts
    };
    let along = parts(cut_along);
    let across = parts(cut_across.iter().map(|piece| [swapped(&piece[0]), swapped(&piece[1])]).collect());
    let sizes = |parts: &[AreaPart]| parts.iter().map(AreaPart::size).collect::<Vec<_>>();
    let along_is_better = across.len().cmp(&along.len()).then_with(|| sizes(&along).cmp(&sizes(&across))).is_ge();
    Some(if along_is_better { along } else { across })
}

/// Cuts along x at every corner, and joins what stands on each other with the same ends: low and high corner of each piece.
fn slabs(sides: impl Iterator<Item = (Point, Point)>) -> Vec<[Point; 2]> {
    let upright = sides.filter(|(a, b)| a.x == b.x && a.y != b.y);
    let mut upright: Vec<(Length, Length, Length)> = upright.map(|(a, b)| (a.y.min(b.y), a.x, a.y.max(b.y))).collect();
    upright.sort_unstable();
    let mut levels: Vec<Length> = upright.iter().flat_map(|(low, _, high)| [*low, *high]).collect();
    levels.sort_unstable();
    levels.dedup();
    let mut pieces = Vec::new();
    let mut coming = upright.into_iter().peekable();
    // The sides that cross the slab by their x, and the pieces below it by their ends, with where they begin.
    let mut standing: Vec<(Length, Length)> = Vec::new();
    let mut below: BTreeMap<(Length, Length), Length> = BTreeMap::new();
    for level in levels {
        standing.retain(|(_, high)| *high > level);
        while let Some((_, x, high)) = coming.next_if(|(low, ..)| *low == level) {
            standing.push((x, high));
        }
        standing.sort_unstable();
        let ends = standing.chunks_exact(2).map(|pair| (pair[0].0, pair[1].0));
        let mut above: BTreeMap<(Length, Length), Length> = BTreeMap::new();
        for ends in ends {
            above.insert(ends, below.remove(&ends).unwrap_or(level));
        }
        let ended = below.into_iter();
        pieces.extend(ended.map(|((left, right), low)| [Point::new(left, low), Point::new(right, level)]));
        below = above;
    }
    pieces
}

#[cfg(test)]
mod tests {
    use super::*;

    fn region(corners: &[(i64, i64)]) -> Region {
        Region { outer: corners.iter().map(|(x, y)| Point::inches(*x, *y)).collect(), holes: Vec::new() }
    }

    fn sides(region: &Region) -> Vec<(i64, i64)> {
        let inches = |length: Length| length.steps() / Length::INCH.steps();
        let sum = AreaArithmetic::of(std::slice::from_ref(region));
        assert_eq!(sum.area, region.area());
        let sides = sum.parts.iter().map(|part| match part.method {
            AreaMethod::Sides { width, length } => (inches(width), inches(length)),
            AreaMethod::Coordinates { .. } => (0, 0),
        });
        sides.collect()
    }

    #[test]
    fn few_rectangles() {
        assert_eq!(sides(&region(&[(0, 0), (9, 0), (9, 4), (0, 4)])), [(4, 9)]);
        // An L of 9 x 9 less 5 x 6, cut where the larger piece is left: 9 x 4 and 3 x 5 rather than 9 x 3 and 6 x 4.
        assert_eq!(sides(&region(&[(0, 0), (9, 0), (9, 3), (4, 3), (4, 9), (0, 9)])), [(4, 9), (3, 5)]);
        // A T: bar and stem, not three.
        let tee = [(3, 0), (5, 0), (5, 6), (8, 6), (8, 8), (0, 8), (0, 6), (3, 6)];
        assert_eq!(sides(&region(&tee)), [(2, 8), (2, 6)]);
    }

    #[test]
    fn around_a_hole() {
        let mut ring = region(&[(0, 0), (31, 0), (31, 31), (0, 31)]);
        ring.holes.push(region(&[(11, 11), (11, 19), (19, 19), (19, 11)]).outer);
        let mut parts = sides(&ring);
        parts.sort_unstable();
        assert_eq!(parts, [(8, 11), (8, 12), (11, 31), (12, 31)]);
    }

    /// A right triangle of 3 x 4, half of 12: from the lowest left corner (0, 0), (4, 0), (0, 3) the products are 0, 12, 0.
    #[test]
    fn a_traverse() {
        let triangle = region(&[(10, 20), (14, 20), (10, 23)]);
        let sum = AreaArithmetic::of(&[triangle]);
        let inches = |square: i64| Area::of_rectangle(Length::inches(square), Length::INCH);
        let [corners] = &sum.parts[0].traverse()[..] else { panic!("one boundary") };
        let products: Vec<Area> = corners.iter().map(|corner| corner.product).collect();
        assert_eq!(products, [inches(0), inches(12), inches(0)]);
        assert_eq!((sum.parts[0].area, sum.area), (inches(6), inches(6)));
    }
}
