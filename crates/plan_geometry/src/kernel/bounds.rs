//! Boxes square to the axes, and finding things by them.

use plan_model::{Length, Point};
use rstar::primitives::{GeomWithData, Rectangle};
use rstar::{AABB, RTree};

use crate::OFF_AXIS_SLACK;

/// A box square to the axes.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) struct Bounds {
    pub(crate) low: Point,
    pub(crate) high: Point,
}

impl Bounds {
    /// Of points, of which there is at least one.
    pub(crate) fn of(points: &[Point]) -> Self {
        let first = points.first().copied().unwrap_or_default();
        let (low, high) = points.iter().fold((first, first), |(low, high), point| {
            (Point::new(low.x.min(point.x), low.y.min(point.y)), Point::new(high.x.max(point.x), high.y.max(point.y)))
        });
        Self { low, high }
    }

    /// Of points, grown by the slack of what lies off the axes.
    pub(crate) fn around(points: &[Point]) -> Self {
        Self::of(points).grown(OFF_AXIS_SLACK)
    }

    /// The box with so much added on every side.
    pub(crate) fn grown(self, by: Length) -> Self {
        let by = Point::new(by, by);
        Self { low: self.low - by, high: self.high + by }
    }

    pub(crate) fn touches(self, other: Self) -> bool {
        self.low.x <= other.high.x
            && other.low.x <= self.high.x
            && self.low.y <= other.high.y
            && other.low.y <= self.high.y
    }

    fn corners(self) -> [[i64; 2]; 2] {
        [self.low, self.high].map(|corner| [corner.x.steps(), corner.y.steps()])
    }
}

/// A list of things, found by where they are, so that work does not grow with all pairs of them once they are many.
#[derive(Debug)]
pub(crate) enum Whereabouts {
    /// Looked through one by one.
    Few(Vec<Bounds>),
    /// In a tree.
    Many(RTree<GeomWithData<Rectangle<[i64; 2]>, usize>>),
}

/// Up to how many things it is quicker to look through them all than to plant a tree.
const FEW: usize = 128;

impl Whereabouts {
    /// Of things in the order of a list.
    pub(crate) fn of(things: impl IntoIterator<Item = Bounds>) -> Self {
        let things: Vec<Bounds> = things.into_iter().collect();
        if things.len() <= FEW {
            return Self::Few(things);
        }
        let boxes = things.into_iter().enumerate().map(|(index, bounds)| {
            let [low, high] = bounds.corners();
            GeomWithData::new(Rectangle::from_corners(low, high), index)
        });
        Self::Many(RTree::bulk_load(boxes.collect()))
    }

    /// Those whose bounds touch a box, in the order of the list.
    pub(crate) fn touching(&self, bounds: Bounds) -> Vec<usize> {
        match self {
            Self::Few(things) => (0..things.len()).filter(|index| things[*index].touches(bounds)).collect(),
            Self::Many(tree) => {
                let [low, high] = bounds.corners();
                let found = tree.locate_in_envelope_intersecting(&AABB::from_corners(low, high));
                let mut found: Vec<usize> = found.map(|thing| thing.data).collect();
                found.sort_unstable();
                found
            }
        }
    }
}
