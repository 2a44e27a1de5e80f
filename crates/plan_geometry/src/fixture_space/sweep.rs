use plan_model::{Id, Length, Point};

use super::ahead::{Base, Place};
use super::{FixturesOf, Front};
use crate::asked::{Asked, Question};
use crate::{Amount, DoorFigures, Mark, Measure, MeasureName, Measured, OFF_AXIS_SLACK, Part};

/// A door whose leaf passes over the free floor before a fixture.
///
/// It takes nothing from the free depth, for which doors count as closed: it is an advisory of its own.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct SweepAcross {
    /// The fixture.
    pub fixture: Id,
    /// Which bowl of a vanity that has several, counted from one at its left end as seen from the front.
    pub bowl: Option<usize>,
    /// The door.
    pub door: Id,
    /// How far ahead of the front the leaf comes at its nearest, between closed and 90 degrees; zero where it reaches
    /// the front. Less than the free depth. Rounded down to the grid where the arc of the leaf is the nearest.
    pub ahead: Measured,
    /// From the front to the leaf.
    pub span: [Point; 2],
}

impl SweepAcross {
    pub(super) fn measure(&self) -> Measure {
        Measure {
            name: MeasureName::FrontToSweep,
            part: self.bowl.map(Part::Bowl),
            of: vec![self.fixture.clone(), self.door.clone()],
            amount: Amount::Length(self.ahead),
            marks: vec![Mark::Span(self.span)],
        }
    }
}

/// What of a hinged door passes over the floor.
#[derive(Clone, Debug, PartialEq)]
pub(crate) struct Sweep {
    door: Id,
    hinge: Point,
    closed: Point,
    /// Where the leaf comes to rest.
    reached: Point,
}

impl Sweep {
    pub(super) fn of(door: &DoorFigures) -> Option<Self> {
        let leaf = door.leaf.as_ref()?;
        Some(Self { door: door.id.clone(), hinge: leaf.hinge, closed: leaf.closed, reached: leaf.reached })
    }
}

/// The fronts of one open space and the leaves of its doors.
#[derive(Debug, PartialEq)]
pub(crate) struct SweepsOf {
    pub(super) fixtures: Asked<FixturesOf>,
    pub(super) sweeps: Vec<Sweep>,
}

impl Question for SweepsOf {
    type Answer = Vec<SweepAcross>;

    fn answer(&self) -> Vec<SweepAcross> {
        if self.sweeps.is_empty() {
            return Vec::new();
        }
        let fronts = self.fixtures.get().fronts();
        let across = |front: &Front<'_>| {
            let across = self.sweeps.iter().filter_map(|sweep| sweep_across(front, sweep));
            across.collect::<Vec<_>>()
        };
        fronts.iter().flat_map(across).collect()
    }
}

fn sweep_across(Front { fixture, bowl, free }: &Front<'_>, sweep: &Sweep) -> Option<SweepAcross> {
    let base = Base::new(free.base[0], free.base[1])?;
    let [hinge, closed, reached] = [sweep.hinge, sweep.closed, sweep.reached].map(|point| base.place(point));
    let place = Sector::new(hinge, closed, reached).first_in_strip(base.width(), base.touch())?;
    if place.ahead >= free.clear.value.steps() {
        return None;
    }
    let is_square = base.is_square() && (sweep.hinge.x == sweep.closed.x || sweep.hinge.y == sweep.closed.y);
    Some(SweepAcross {
        fixture: (*fixture).clone(),
        bowl: *bowl,
        door: sweep.door.clone(),
        ahead: Measured {
            value: Length::from_steps(place.ahead),
            slack: if is_square { Length::ZERO } else { OFF_AXIS_SLACK },
        },
        span: [base.point(Place { ahead: 0, ..place }), base.point(place)],
    })
}

/// A quarter of a disc, or less of it, in the frame of a front: where a leaf passes. Its two straight sides leave the hinge
/// counter-clockwise from the first to the second.
#[derive(Clone, Copy)]
struct Sector {
    hinge: Place,
    /// From the hinge to the end of each straight side.
    sides: [Place; 2],
    radius: f64,
}

impl Sector {
    #[expect(clippy::cast_precision_loss, reason = "exact in f64 below 2^53")]
    fn new(hinge: Place, closed: Place, reached: Place) -> Self {
        let from_hinge = |place: Place| Place { along: place.along - hinge.along, ahead: place.ahead - hinge.ahead };
        let [u, v] = [closed, reached].map(from_hinge);
        let turn = i128::from(u.along) * i128::from(v.ahead) - i128::from(u.ahead) * i128::from(v.along);
        let sides = if turn >= 0 { [u, v] } else { [v, u] };
        Self { hinge, sides, radius: (u.along as f64).hypot(u.ahead as f64) }
    }

    /// The place of the strip ahead of the front that the leaf reaches first; none if it stays out of the strip.
    fn first_in_strip(self, width: i64, touch: i64) -> Option<Place> {
        let lowest = self.lowest(width, touch)?;
        // The other way up, what is furthest becomes the lowest.
        let flip = |place: Place| Place { ahead: -place.ahead, ..place };
        let [u, v] = self.sides.map(flip);
        let upside_down = Self { hinge: flip(self.hinge), sides: [v, u], radius: self.radius };
        let furthest = -upside_down.lowest(width, touch)?.ahead;
        (furthest > touch).then_some(Place { ahead: lowest.ahead.max(0), ..lowest })
    }

    /// The lowest place of the sector over the open stretch from 0 to a width.
    fn lowest(self, width: i64, touch: i64) -> Option<Place> {
        let [u, v] = self.sides;
        let corner = |side: Place| Place { along: self.hinge.along + side.along, ahead: self.hinge.ahead + side.ahead };
        let corners = [self.hinge, corner(u), corner(v)];
        let alongs = corners.map(|corner| corner.along);
        let [mut left, mut right] = [alongs.into_iter().min()?, alongs.into_iter().max()?];
        // Where the arc bulges beyond its ends to a side.
        if u.ahead < 0 && v.ahead > 0 {
            right = self.hinge.along + self.arc();
        }
        if u.ahead > 0 && v.ahead < 0 {
            left = self.hinge.along - self.arc();
        }
        let [from, to] = [left.max(0), right.min(width)];
        if to - from <= touch {
            return None;
        }
        let lowest = if u.along < 0 && v.along > 0 {
            Place { along: self.hinge.along, ahead: self.hinge.ahead - self.arc() }
        } else {
            // Of two equally low corners the one that is nearer to the strip.
            let outside = |along: i64| (from - along).max(along - to).max(0);
            corners.into_iter().min_by_key(|corner| (corner.ahead, outside(corner.along)))?
        };
        let level = corners.iter().filter(|corner| corner.ahead == lowest.ahead).map(|corner| corner.along);
        let reaches = |along: i64| along >= from && along <= to;
        let [low_from, low_to] = [level.clone().min().unwrap_or(lowest.along), level.max().unwrap_or(lowest.along)];
        if reaches(lowest.along) {
            return Some(lowest);
        }
        if low_from <= to && low_to >= from {
            return Some(Place { along: low_from.max(from), ahead: lowest.ahead });
        }
        // Its lower boundary rises away from its lowest place: in the strip it is lowest at the nearer edge.
        let along = if lowest.along < from { from } else { to };
        Some(Place { along, ahead: self.hinge.ahead + self.lower_boundary(along - self.hinge.along) })
    }

    /// The radius in whole steps, rounded up: the arc is never told to be further away than it is.
    #[expect(clippy::cast_possible_truncation, reason = "within the plan")]
    fn arc(self) -> i64 {
        self.radius.ceil() as i64
    }

    /// How high the lower boundary is over a place beside the hinge, from the hinge, rounded down.
    #[expect(clippy::cast_possible_truncation, clippy::cast_precision_loss, reason = "exact in f64 below 2^53")]
    fn lower_boundary(self, beside: i64) -> i64 {
        let [u, v] = self.sides;
        let x = beside as f64;
        let arc = -(self.radius * self.radius - x * x).max(0.0).sqrt();
        // A straight side bounds the sector from below where the sector lies above it.
        let first = (u.along > 0).then(|| x * u.ahead as f64 / u.along as f64);
        let second = (v.along < 0).then(|| x * v.ahead as f64 / v.along as f64);
        [first, second].into_iter().flatten().fold(arc, f64::max).floor() as i64
    }
}
