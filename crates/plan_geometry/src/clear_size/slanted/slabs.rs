//! A region cut into trapezoids by an upright line through each of its corners.

use plan_model::Length;

use crate::Region;

/// A side of the region as a line over x.
#[derive(Clone, Copy, Debug)]
pub(super) struct Side {
    x: f64,
    y: f64,
    pub(super) slope: f64,
}

impl Side {
    /// Its height at an x.
    pub(super) fn at(self, x: f64) -> f64 {
        self.slope.mul_add(x - self.x, self.y)
    }
}

/// What lies between two sides within a slab.
#[derive(Clone, Copy, Debug)]
pub(super) struct Trapezoid {
    pub(super) lower: Side,
    pub(super) upper: Side,
}

impl Trapezoid {
    /// The heights that it has at an x.
    pub(super) fn at(self, x: f64) -> Window {
        Window { low: self.lower.at(x), high: self.upper.at(x) }
    }
}

/// Heights from one to another.
#[derive(Clone, Copy, Debug)]
pub(super) struct Window {
    pub(super) low: f64,
    pub(super) high: f64,
}

impl Window {
    pub(super) fn shared(self, other: Self) -> Self {
        Self { low: self.low.max(other.low), high: self.high.min(other.high) }
    }

    pub(super) fn height(self) -> f64 {
        self.high - self.low
    }
}

/// The region between two neighbouring x of corners; no side begins or ends inside.
#[derive(Debug)]
pub(super) struct Slab {
    pub(super) left: f64,
    pub(super) right: f64,
    /// From the bottom to the top.
    pub(super) trapezoids: Vec<Trapezoid>,
}

/// The slabs of a region from left to right.
pub(super) fn slabs(region: &Region) -> Vec<Slab> {
    let mut xs: Vec<Length> = region.boundaries().flatten().map(|corner| corner.x).collect();
    xs.sort_unstable();
    xs.dedup();
    let mut sides: Vec<Vec<Side>> = vec![Vec::new(); xs.len().saturating_sub(1)];
    for (a, b) in region.sides().filter(|(a, b)| a.x != b.x) {
        let (a, b) = if a.x < b.x { (a, b) } else { (b, a) };
        let [x, y] = [steps(a.x), steps(a.y)];
        let side = Side { x, y, slope: (steps(b.y) - y) / (steps(b.x) - x) };
        let from = xs.partition_point(|x| *x < a.x);
        let to = xs.partition_point(|x| *x < b.x);
        sides.iter_mut().take(to).skip(from).for_each(|slab| slab.push(side));
    }
    let ends = xs.iter().zip(xs.iter().skip(1));
    let slab = |((left, right), mut sides): ((&Length, &Length), Vec<Side>)| {
        let (left, right) = (steps(*left), steps(*right));
        let middle = f64::midpoint(left, right);
        sides.sort_by(|one, other| one.at(middle).total_cmp(&other.at(middle)));
        // Sides do not cross within a slab: from the bottom up they lead into the region and out of it by turns.
        let inside = sides.chunks_exact(2).filter_map(|pair| match pair {
            [lower, upper] => Some(Trapezoid { lower: *lower, upper: *upper }),
            _ => None,
        });
        Slab { left, right, trapezoids: inside.collect() }
    };
    ends.zip(sides).map(slab).collect()
}

#[expect(clippy::cast_precision_loss, reason = "exact in f64 below 2^53")]
fn steps(length: Length) -> f64 {
    length.steps() as f64
}
