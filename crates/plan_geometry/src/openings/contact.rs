//! Where a leaf that turns about its hinge first meets a convex solid.
//!
//! The solid is seen from the hinge: x runs along the closed leaf, y the way it opens. What the leaf meets first is the
//! part of the solid that lies within its reach at the least angle from x. Within the reach, that part is a corner of the
//! solid, or the place where the free edge runs into a side. Square to the axes every decision is exact; a width that
//! depends on a square root is rounded so that the leaf never opens further than it truly does.

use plan_model::{Length, Point};

use crate::OFF_AXIS_SLACK;
use crate::kernel::project;
use crate::region::sides_of;

/// How a leaf meets something.
#[derive(Debug, PartialEq)]
pub(super) struct Contact {
    /// Leaf times the cosine of its angle, rounded up.
    pub(super) covers: Length,
    /// Its angle from closed, rounded down.
    pub(super) tenths_of_degree: u16,
    /// Its free edge, to the nearest step.
    pub(super) reached: Point,
}

/// Off the axes, whatever lies this near to the hinge is the jamb and the corner that it stands in: the direction from the
/// hinge to a place that may be off by a step or two says nothing there. A hinge's own knuckle is larger.
const AT_THE_HINGE: i64 = Length::INCH.steps() / 8;

/// The first contact of a leaf of this width with a solid between closed and 90 degrees; none if the leaf opens beside it. A solid that
/// the leaf only touches, at its free edge or along the whole leaf at 90 degrees, does not stop it.
pub(super) fn first([hinge, closed, open]: [Point; 3], width: Length, solid: &[Point; 4]) -> Option<Contact> {
    let opens_left = project(hinge, closed, open).1 >= Length::ZERO;
    let seen = |point: Point| {
        let (ahead, left) = project(hinge, closed, point);
        Place { x: ahead.steps(), y: if opens_left { left.steps() } else { -left.steps() } }
    };
    let reach = width.steps();
    let is_square = |(a, b): (Point, Point)| a.x == b.x || a.y == b.y;
    let is_exact = is_square((hinge, closed)) && sides_of(solid).all(is_square);
    let slack = if is_exact { 0 } else { OFF_AXIS_SLACK.steps() };

    let corners = cut(&solid.map(seen), |place| place.x - slack);
    let corners = cut(&corners, |place| place.y - slack);
    if corners.len() < 3 || twice_area(&corners) == 0 || !comes_nearer_than(&corners, reach - slack) {
        return None;
    }
    // Taken as much nearer to the closed leaf as places off the axes may truly be.
    let nearest: Vec<Place> = corners.iter().map(|at| Place { x: at.x + slack, y: at.y - slack }).collect();
    let least = if is_exact { 0 } else { AT_THE_HINGE };
    let met = meetings(&nearest, reach, least).max_by_key(|met| met.covers)?;
    Some(Contact {
        covers: Length::from_steps(met.covers),
        tenths_of_degree: tenths_of_degree(met),
        reached: reached([hinge, closed, open], met),
    })
}

/// A place as seen from the hinge.
#[derive(Clone, Copy)]
struct Place {
    x: i64,
    y: i64,
}

impl Place {
    const fn square(self) -> i128 {
        self.dot(self)
    }

    const fn dot(self, other: Self) -> i128 {
        self.x as i128 * other.x as i128 + self.y as i128 * other.y as i128
    }

    const fn cross(self, other: Self) -> i128 {
        self.x as i128 * other.y as i128 - self.y as i128 * other.x as i128
    }

    const fn minus(self, other: Self) -> Self {
        Self { x: self.x - other.x, y: self.y - other.y }
    }
}

/// A leaf that meets something: what it covers, and a place on its line.
#[derive(Clone, Copy)]
struct Meeting {
    covers: i64,
    direction: (f64, f64),
}

fn ring(corners: &[Place]) -> impl Iterator<Item = (Place, Place)> + '_ {
    corners.iter().copied().zip(corners.iter().copied().cycle().skip(1))
}

/// The part of a convex shape at which `depth` is not negative; exact where its sides are square to the axes.
fn cut(corners: &[Place], depth: impl Fn(Place) -> i64) -> Vec<Place> {
    let mut kept = Vec::with_capacity(corners.len() + 1);
    for (from, to) in ring(corners) {
        let (here, there) = (depth(from), depth(to));
        if here >= 0 {
            kept.push(from);
        }
        if (here < 0) != (there < 0) && here != 0 && there != 0 {
            let part = |from: i64, to: i64| from + rounded_part(to - from, here, here - there);
            kept.push(Place { x: part(from.x, to.x), y: part(from.y, to.y) });
        }
    }
    kept
}

/// `whole * numerator / denominator` to the nearest step.
fn rounded_part(whole: i64, numerator: i64, denominator: i64) -> i64 {
    let (doubled, denominator) = (2 * i128::from(whole) * i128::from(numerator), i128::from(denominator));
    let rounded = (doubled * denominator.signum() + denominator.abs()).div_euclid(2 * denominator.abs());
    i64::try_from(rounded).unwrap_or(whole)
}

fn twice_area(corners: &[Place]) -> i128 {
    ring(corners).map(|(a, b)| a.cross(b)).sum()
}

/// Whether a convex shape on one side of the hinge comes nearer to it than so much.
fn comes_nearer_than(corners: &[Place], distance: i64) -> bool {
    let square = i128::from(distance) * i128::from(distance);
    distance > 0
        && ring(corners).any(|(a, b)| {
            let along = b.minus(a);
            let foot_lies_between = a.dot(along) < 0 && b.dot(along) > 0;
            a.square() < square || foot_lies_between && a.cross(b).pow(2) < square * along.square()
        })
}

/// Every angle that may be the first at which the leaf meets a convex shape, from corners and sides no nearer to the hinge
/// than `least`.
fn meetings(corners: &[Place], reach: i64, least: i64) -> impl Iterator<Item = Meeting> + '_ {
    ring(corners).flat_map(move |(a, b)| {
        let free_edge = crossings(a, b, reach).map(|place| Some(free_edge_at((a, b), place?, reach)));
        let beside_hinge = crossings(a, b, least).map(|place| Some(turned_to(place?, reach)));
        at_corner(a, reach, least).into_iter().chain(free_edge.into_iter().chain(beside_hinge).flatten())
    })
}

fn at_corner(corner: Place, reach: i64, least: i64) -> Option<Meeting> {
    let square = corner.square();
    let within = |radius: i64| square <= i128::from(radius) * i128::from(radius);
    if square == 0 || !within(reach) || (least > 0 && within(least)) {
        return None;
    }
    // The least whole number whose square is no less than that of reach * x / distance.
    let covered = i128::from(reach).pow(2) * i128::from(corner.x).pow(2);
    Some(Meeting { covers: root_rounded_up(-(-covered).div_euclid(square)), direction: in_f64(corner) })
}

/// The free edge of the leaf on a side of the solid.
#[expect(clippy::cast_possible_truncation, reason = "within the reach of a leaf")]
fn free_edge_at((a, b): (Place, Place), place: (f64, f64), reach: i64) -> Meeting {
    let covers = if a.x == b.x {
        a.x
    } else if a.y == b.y {
        root_rounded_up(i128::from(reach).pow(2) - i128::from(a.y).pow(2))
    } else {
        place.0.ceil() as i64
    };
    Meeting { covers, direction: place }
}

/// The leaf turned to a place on a side of the solid.
#[expect(clippy::cast_possible_truncation, clippy::cast_precision_loss, reason = "within the reach of a leaf")]
fn turned_to(place: (f64, f64), reach: i64) -> Meeting {
    let covers = (reach as f64 * place.0 / place.0.hypot(place.1)).ceil() as i64;
    Meeting { covers, direction: place }
}

/// Where a side crosses the circle of a radius about the hinge, and does not only touch it.
#[expect(clippy::cast_precision_loss, reason = "rounded up where a width is made of it")]
fn crossings(a: Place, b: Place, radius: i64) -> [Option<(f64, f64)>; 2] {
    let radius_square = i128::from(radius) * i128::from(radius);
    let along = b.minus(a);
    let (length_square, ahead) = (along.square(), a.dot(along));
    let beyond = a.square() - radius_square;
    let under_root = ahead * ahead - length_square * beyond;
    let (starts_within, ends_within) = (beyond < 0, b.square() < radius_square);
    let foot_lies_between = ahead < 0 && b.dot(along) > 0;
    if radius == 0 || length_square == 0 || under_root <= 0 {
        return [None, None];
    }
    let root = (under_root as f64).sqrt();
    let at = |signed_root: f64| {
        let part = ((signed_root - ahead as f64) / length_square as f64).clamp(0.0, 1.0);
        ((a.x as f64) + part * along.x as f64, (a.y as f64) + part * along.y as f64)
    };
    match (starts_within, ends_within) {
        (true, true) => [None, None],
        (true, false) => [Some(at(root)), None],
        (false, true) => [Some(at(-root)), None],
        (false, false) if foot_lies_between => [Some(at(-root)), Some(at(root))],
        (false, false) => [None, None],
    }
}

/// The square root, rounded up to a whole number of steps.
fn root_rounded_up(square: i128) -> i64 {
    let square = square.max(0);
    let root = square.isqrt();
    i64::try_from(if root * root < square { root + 1 } else { root }).unwrap_or(i64::MAX)
}

#[expect(clippy::cast_precision_loss, reason = "exact in f64 below 2^53")]
const fn in_f64(place: Place) -> (f64, f64) {
    (place.x as f64, place.y as f64)
}

/// Angles are told in tenths of a degree. What `f64` loses of one is far less than this part of a degree, so that 45
/// degrees are not told as 44.9.
const LOST_IN_F64: f64 = 1e-9;

#[expect(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "from 0 to 900")]
fn tenths_of_degree(met: Meeting) -> u16 {
    let degrees = met.direction.1.atan2(met.direction.0).to_degrees();
    ((degrees + LOST_IN_F64) * 10.0).floor().clamp(0.0, 900.0) as u16
}

#[expect(clippy::cast_possible_truncation, clippy::cast_precision_loss, reason = "exact in f64 below 2^53")]
fn reached([hinge, closed, open]: [Point; 3], met: Meeting) -> Point {
    let (x, y) = met.direction;
    let distance = x.hypot(y);
    let (cos, sin) = (x / distance, y / distance);
    let (ahead, out) = (closed - hinge, open - hinge);
    let nearest =
        |a: Length, b: Length| Length::from_steps((cos * a.steps() as f64 + sin * b.steps() as f64).round() as i64);
    hinge + Point::new(nearest(ahead.x, out.x), nearest(ahead.y, out.y))
}
