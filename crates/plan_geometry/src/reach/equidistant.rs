//! Places that are equally far from three lines or corners.
//!
//! With the distance as a third unknown, a line gives one linear equation, and so does a pair of corners; one corner at
//! most is left for a quadratic one.

/// What a disc may be held by.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) enum Feature {
    /// A line: its normal into the floor, and how far along the normal it lies.
    Line([f64; 2], f64),
    /// A corner that juts into the floor.
    Corner([f64; 2]),
}

impl Feature {
    /// The line through a point in a direction of length one, with the floor to its left.
    pub(super) fn line(through: [f64; 2], unit: [f64; 2]) -> Self {
        let normal = [-unit[1], unit[0]];
        Self::Line(normal, normal[0] * through[0] + normal[1] * through[1])
    }
}

type Vector = [f64; 3];

/// A linear equation for a place and its distance.
#[derive(Clone, Copy)]
struct Equation {
    factors: Vector,
    sum: f64,
}

/// Vectors of length one whose product is no longer than this are parallel: over the length of a plan the lines they
/// belong to meet nowhere in it.
const PARALLEL: f64 = 1e-9;

/// A place and how far it is from what it is equally far from.
type Place = ([f64; 2], f64);

/// Every place that is equally far from three of the features, with its distance from them.
pub(super) fn for_each_place(features: &[Feature], mut tell: impl FnMut([f64; 2], f64)) {
    for (i, one) in features.iter().enumerate() {
        for (j, two) in features.iter().enumerate().skip(i + 1) {
            for three in &features[j + 1..] {
                for (at, distance) in between([*one, *two, *three]).into_iter().flatten() {
                    tell(at, distance);
                }
            }
        }
    }
}

fn between([one, two, three]: [Feature; 3]) -> [Option<Place>; 2] {
    // Corners first.
    let swap = |a, b| if matches!((a, b), (Feature::Line(..), Feature::Corner(_))) { (b, a) } else { (a, b) };
    let (two, three) = swap(two, three);
    let (one, two) = swap(one, two);
    let (two, three) = swap(two, three);
    match [one, two, three] {
        [Feature::Line(..), ..] => [meeting([one, two, three].map(linear)), None],
        [Feature::Corner(p), Feature::Line(..), _] => on_line(linear(two), linear(three), p),
        [Feature::Corner(p), Feature::Corner(q), last] => {
            let last = if let Feature::Corner(r) = last { bisector(p, r) } else { Some(linear(last)) };
            bisector(p, q).zip(last).map_or([None; 2], |(one, other)| on_line(one, other, p))
        }
    }
}

/// The distance from a line; a corner has no linear equation of its own.
fn linear(feature: Feature) -> Equation {
    match feature {
        Feature::Line(normal, along) => Equation { factors: [normal[0], normal[1], -1.0], sum: along },
        Feature::Corner(_) => Equation { factors: [0.0; 3], sum: 0.0 },
    }
}

/// As far from the one corner as from the other.
fn bisector(p: [f64; 2], q: [f64; 2]) -> Option<Equation> {
    let (x, y) = (q[0] - p[0], q[1] - p[1]);
    let length = (x * x + y * y).sqrt();
    if length == 0.0 {
        return None;
    }
    let normal = [x / length, y / length];
    let middle = [f64::midpoint(p[0], q[0]), f64::midpoint(p[1], q[1])];
    Some(Equation { factors: [normal[0], normal[1], 0.0], sum: normal[0] * middle[0] + normal[1] * middle[1] })
}

/// Where three planes meet.
fn meeting([one, two, three]: [Equation; 3]) -> Option<Place> {
    let across = product(two.factors, three.factors);
    let volume = dot(one.factors, across);
    if volume.abs() <= PARALLEL {
        return None;
    }
    let [second, third] = [product(three.factors, one.factors), product(one.factors, two.factors)];
    let coordinate = |axis: usize| (one.sum * across[axis] + two.sum * second[axis] + three.sum * third[axis]) / volume;
    Some(([coordinate(0), coordinate(1)], coordinate(2)))
}

/// Where the line in which two planes meet is as far from a corner as it says.
fn on_line(one: Equation, two: Equation, corner: [f64; 2]) -> [Option<Place>; 2] {
    let direction = product(one.factors, two.factors);
    let squared = dot(direction, direction);
    if squared <= PARALLEL * PARALLEL {
        return [None; 2];
    }
    let (first, second) = (product(two.factors, direction), product(direction, one.factors));
    let coordinate = |axis: usize| (one.sum * first[axis] + two.sum * second[axis]) / squared;
    let start: Vector = [coordinate(0), coordinate(1), coordinate(2)];
    let from = [start[0] - corner[0], start[1] - corner[1]];
    let [dx, dy, dr] = direction;
    let (a, b, c) = (
        dx * dx + dy * dy - dr * dr,
        from[0] * dx + from[1] * dy - start[2] * dr,
        from[0] * from[0] + from[1] * from[1] - start[2] * start[2],
    );
    let at = |t: f64| Some(([start[0] + t * dx, start[1] + t * dy], start[2] + t * dr));
    if a.abs() <= PARALLEL {
        return if b == 0.0 { [None; 2] } else { [at(-c / (2.0 * b)), None] };
    }
    let under_root = b * b - a * c;
    // A corner in line with a side touches the disc where the side ends: a double root, which rounding may lose.
    let lost = 1e-12 * (b * b + (a * c).abs());
    if under_root < -lost {
        return [None; 2];
    }
    let root = under_root.max(0.0).sqrt();
    [at((-b + root) / a), at((-b - root) / a)]
}

fn product(a: Vector, b: Vector) -> Vector {
    [a[1] * b[2] - a[2] * b[1], a[2] * b[0] - a[0] * b[2], a[0] * b[1] - a[1] * b[0]]
}

fn dot(a: Vector, b: Vector) -> f64 {
    a[0] * b[0] + a[1] * b[1] + a[2] * b[2]
}
