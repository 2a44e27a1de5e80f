//! The sector of a circle that a leaf sweeps, and whether it shares ground with another one or with a strip of floor.
//!
//! A sector of at most 90 degrees is what two half-planes and a disc have in common, so that two of them share ground if
//! some place lies in four half-planes and two discs at once. The place that lies deepest in the discs among those in all
//! half-planes is found among a few candidates. Everything is reckoned in `f64` from whole steps, which loses less than a
//! thousandth of a step; what is told is decided a quarter of a step inside of the sectors, so that sweeps that only touch
//! never cross.

use plan_model::{Length, Point};

use super::Leaf;
use crate::OFF_AXIS_SLACK;
use crate::kernel::Bounds;

/// The sector that a leaf sweeps.
#[derive(Debug)]
pub(super) struct Sector {
    hinge: Point,
    /// Corners at the ends of the arc, counter-clockwise about the hinge.
    arc: [Point; 2],
    /// A corner beyond the arc: the square of the hinge, the closed and the open leaf lies around the sector.
    beyond: Point,
    reach: f64,
    /// How far inside of its edge ground counts as shared.
    inside: f64,
}

/// Square to the axes: finer than the grid, and far more than `f64` loses.
const INSIDE: f64 = 0.25;

/// Into how many straight pieces the arc of a drawn quarter circle is divided: they stray from it by 1/90 in for a 36 in
/// leaf.
const ARC_PIECES: f64 = 32.0;

type Place = (f64, f64);

#[expect(clippy::cast_precision_loss, reason = "exact in f64 below 2^53")]
fn place(point: Point) -> Place {
    (point.x.steps() as f64, point.y.steps() as f64)
}

fn minus(a: Place, b: Place) -> Place {
    (a.0 - b.0, a.1 - b.1)
}

fn dot(a: Place, b: Place) -> f64 {
    a.0 * b.0 + a.1 * b.1
}

fn turn(a: Place, b: Place) -> f64 {
    a.0 * b.1 - a.1 * b.0
}

fn distance(a: Place, b: Place) -> f64 {
    let apart = minus(a, b);
    apart.0.hypot(apart.1)
}

impl Sector {
    /// The sector of a leaf; none if it cannot be opened at all.
    #[expect(clippy::cast_precision_loss, reason = "a few steps")]
    pub(super) fn of(leaf: &Leaf) -> Option<Self> {
        let Leaf { hinge, closed, open, reached, .. } = leaf;
        let turned = turn(minus(place(*closed), place(*hinge)), minus(place(*reached), place(*hinge)));
        let arc = if turned > 0.0 { [*closed, *reached] } else { [*reached, *closed] };
        let is_exact = reached == open && (hinge.x == closed.x || hinge.y == closed.y);
        let sector = Self {
            hinge: *hinge,
            arc,
            beyond: *closed + (*open - *hinge),
            reach: distance(place(*closed), place(*hinge)),
            // Elsewhere the ends of the arc lie within a step of true.
            inside: if is_exact { INSIDE } else { OFF_AXIS_SLACK.steps() as f64 },
        };
        (turned != 0.0).then_some(sector)
    }

    /// Around the sector, or a little more.
    pub(super) fn bounds(&self) -> Bounds {
        let [start, end] = self.arc;
        Bounds::around(&[self.hinge, start, end, self.beyond])
    }

    /// Corners around it, counter-clockwise, its arc in short straight pieces.
    #[expect(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "at most a few dozen pieces")]
    pub(super) fn outline(&self) -> Vec<Point> {
        let centre = place(self.hinge);
        let [start, end] = self.arc.map(|end| minus(place(end), centre));
        let angle = turn(start, end).atan2(dot(start, end));
        let pieces = (angle / std::f64::consts::FRAC_PI_2 * ARC_PIECES).ceil().clamp(1.0, ARC_PIECES);
        let half = angle / pieces / 2.0;
        // Tangents at the ends of each piece meet in the middle of it, a little beyond the arc.
        let between = (0..pieces as usize).map(|piece| {
            let (sin, cos) = (half * (2 * piece + 1) as f64).sin_cos();
            let (ahead, left) = (cos / half.cos(), sin / half.cos());
            let nearest = |value: f64| Length::from_steps(value.round() as i64);
            let corner = (start.0 * ahead - start.1 * left, start.1 * ahead + start.0 * left);
            self.hinge + Point::new(nearest(corner.0), nearest(corner.1))
        });
        [self.hinge, self.arc[0]].into_iter().chain(between).chain([self.arc[1]]).collect()
    }

    fn disc(&self, origin: Place) -> Disc {
        Disc { centre: minus(place(self.hinge), origin), radius: self.reach - self.inside }
    }

    /// The part of a convex shape that lies between the closed leaf and the leaf at rest.
    fn wedge_of(&self, shape: &[Place], origin: Place) -> Vec<Place> {
        let hinge = minus(place(self.hinge), origin);
        let [start, end] = self.arc.map(|end| minus(minus(place(end), origin), hinge));
        let left_of_start = |at: Place| turn(start, minus(at, hinge)) / self.reach - self.inside;
        let right_of_end = |at: Place| turn(minus(at, hinge), end) / self.reach - self.inside;
        cut(&cut(shape, left_of_start), right_of_end)
    }
}

/// Whether two sectors share ground.
pub(super) fn cross(one: &Sector, other: &Sector) -> bool {
    let origin = place(one.hinge);
    let around = one.bounds();
    let (low, high) = (minus(place(around.low), origin), minus(place(around.high), origin));
    let shape = [low, (high.0, low.1), high, (low.0, high.1)];
    let shape = other.wedge_of(&one.wedge_of(&shape, origin), origin);
    reaches_into(&shape, &[one.disc(origin), other.disc(origin)])
}

/// Whether a sector covers a part of a convex shape, counter-clockwise.
pub(super) fn covers_part(sector: &Sector, shape: &[Point; 4]) -> bool {
    let origin = place(sector.hinge);
    let shape = sector.wedge_of(&shape.map(|corner| minus(place(corner), origin)), origin);
    reaches_into(&shape, &[sector.disc(origin)])
}

struct Disc {
    centre: Place,
    radius: f64,
}

/// The part of a convex shape at which `depth` is not negative; `depth` grows evenly.
fn cut(shape: &[Place], depth: impl Fn(Place) -> f64) -> Vec<Place> {
    let mut kept = Vec::with_capacity(shape.len() + 1);
    for (from, to) in ring(shape) {
        let (here, there) = (depth(from), depth(to));
        if here >= 0.0 {
            kept.push(from);
        }
        if (here < 0.0) != (there < 0.0) {
            kept.push(part_way(from, to, here / (here - there)));
        }
    }
    kept
}

fn ring(shape: &[Place]) -> impl Iterator<Item = (Place, Place)> + '_ {
    shape.iter().copied().zip(shape.iter().copied().cycle().skip(1))
}

fn part_way(from: Place, to: Place, part: f64) -> Place {
    let along = minus(to, from);
    (from.0 + part * along.0, from.1 + part * along.1)
}

/// Whether some place of a convex shape, counter-clockwise, lies in one disc or in both of two.
///
/// The deepest place is the one nearest to a centre, or one at which both discs are equally deep: such places lie on a line
/// square to that between the centres, and the deepest of them lies on both lines or on a side of the shape.
fn reaches_into(shape: &[Place], discs: &[Disc]) -> bool {
    if shape.len() < 3 {
        return false;
    }
    let in_discs = |at: Place| discs.iter().all(|disc| distance(at, disc.centre) <= disc.radius);
    if discs.iter().any(|disc| in_discs(nearest(shape, disc.centre))) {
        return true;
    }
    let [one, other] = discs else { return false };
    let between = minus(other.centre, one.centre);
    let power = |disc: &Disc, at: Place| dot(minus(at, disc.centre), minus(at, disc.centre)) - disc.radius.powi(2);
    let apart = |at: Place| power(one, at) - power(other, at);
    let square = dot(between, between);
    if square == 0.0 {
        return false;
    }
    // Along the line of centres the difference grows by twice the square of their distance.
    let on_both = part_way(one.centre, other.centre, -apart(one.centre) / (2.0 * square));
    let is_within = ring(shape).all(|(a, b)| turn(minus(b, a), minus(on_both, a)) >= 0.0);
    let on_sides = ring(shape).filter_map(|(a, b)| {
        let (here, there) = (apart(a), apart(b));
        ((here < 0.0) != (there < 0.0)).then(|| part_way(a, b, here / (here - there)))
    });
    (is_within && in_discs(on_both)) || { on_sides }.any(in_discs)
}

/// The place of a convex shape, counter-clockwise, that is nearest to another place.
fn nearest(shape: &[Place], to: Place) -> Place {
    if ring(shape).all(|(a, b)| turn(minus(b, a), minus(to, a)) >= 0.0) {
        return to;
    }
    let on_side = |(a, b): (Place, Place)| {
        let along = minus(b, a);
        let part = dot(minus(to, a), along) / dot(along, along).max(f64::MIN_POSITIVE);
        part_way(a, b, part.clamp(0.0, 1.0))
    };
    let places = ring(shape).map(on_side);
    places.min_by(|a, b| distance(*a, to).total_cmp(&distance(*b, to))).unwrap_or(to)
}
