//! Rooms while a plan grows: polygons along the lines of the walls around them.

use super::plane::{Place, distance, meeting};

/// A corner and the wall along the side that starts there.
#[derive(Clone, Copy, Debug)]
pub(super) struct Corner {
    pub(super) at: Place,
    pub(super) wall: usize,
}

/// A place on the edge of a cell: on a side, or at the corner where it starts.
#[derive(Clone, Copy, Debug)]
pub(super) struct OnEdge {
    pub(super) side: usize,
    pub(super) at: Place,
    pub(super) is_corner: bool,
}

/// What stands in a cell beside its walls.
#[derive(Clone, Debug, Default)]
pub(super) struct Standing {
    /// Walls that end free: their line and half their thickness.
    pub(super) spurs: Vec<([Place; 2], f64)>,
    /// Open boundaries do not split a cell, only where its rooms' points may be.
    pub(super) columns: Vec<[Place; 2]>,
}

/// A room of the plan that grows.
#[derive(Clone, Debug)]
pub(super) struct Cell {
    /// Counter-clockwise.
    pub(super) corners: Vec<Corner>,
    pub(super) standing: Standing,
}

/// Joints nearer to a corner than this many inches are moved into the corner.
const INTO_CORNER: f64 = 16.0;
/// Sides that meet at less than this, or stray from straight by less, are not drawn: what a joint then looks like is
/// nowhere defined.
const LEAST_DEGREES: f64 = 25.0;

impl Cell {
    pub(super) fn side(&self, index: usize) -> [Place; 2] {
        [self.corners[index].at, self.corners[(index + 1) % self.corners.len()].at]
    }

    pub(super) fn sides(&self) -> impl Iterator<Item = [Place; 2]> + '_ {
        (0..self.corners.len()).map(|index| self.side(index))
    }

    /// A place on a side, in hundredths of its length; those near a corner are moved into it.
    pub(super) fn on_edge(&self, side: usize, hundredths: i64) -> OnEdge {
        let side = side % self.corners.len();
        let [a, b] = self.side(side);
        #[expect(clippy::cast_precision_loss, reason = "a share from 0 to 100")]
        let at = a.plus(hundredths as f64 / 100.0, b.minus(a));
        self.settled(side, at)
    }

    fn settled(&self, side: usize, at: Place) -> OnEdge {
        let [a, b] = self.side(side);
        if at.minus(a).length() < INTO_CORNER {
            return OnEdge { side, at: a, is_corner: true };
        }
        if at.minus(b).length() < INTO_CORNER {
            return OnEdge { side: (side + 1) % self.corners.len(), at: b, is_corner: true };
        }
        OnEdge { side, at, is_corner: false }
    }

    /// Where a line that starts square to a side first meets the edge.
    pub(super) fn across(&self, from: OnEdge) -> Option<OnEdge> {
        let [a, b] = self.side(from.side);
        let ray = [from.at, from.at.plus(1.0, b.minus(a).unit().left())];
        let hits = (0..self.corners.len()).filter(|side| *side != from.side).filter_map(|side| {
            let (ahead, share) = meeting(ray, self.side(side))?;
            (ahead > 1.0 && (0.0..=1.0).contains(&share)).then_some((ahead, side))
        });
        let (ahead, side) = hits.min_by(|one, other| one.0.total_cmp(&other.0))?;
        let at = ray[0].plus(ahead, ray[1].minus(ray[0]));
        let settled = self.settled(side, at);
        // Moved into a corner it would no longer be square: such a line is not drawn.
        ((settled.at.minus(at)).length() < 1e-6).then_some(settled)
    }

    /// Whether the straight line between two places of the edge lies inside and meets the sides at no odd angle.
    pub(super) fn sees(&self, from: OnEdge, to: OnEdge) -> bool {
        let line = [from.at, to.at];
        let direction = to.at.minus(from.at);
        if direction.length() < INTO_CORNER || !self.leaves_well(from, direction) {
            return false;
        }
        if !self.leaves_well(to, Place::new(0.0, 0.0).minus(direction)) {
            return false;
        }
        self.is_clear(line) && self.holds(from.at.plus(0.5, direction))
    }

    /// Whether no side, and nothing that stands inside, crosses a line between its ends.
    pub(super) fn is_clear(&self, line: [Place; 2]) -> bool {
        let lines = self.sides().chain(self.standing.spurs.iter().map(|(line, _)| *line));
        let columns = self.standing.columns.iter().flat_map(|[a, c]| {
            let (b, d) = (Place::new(c.x, a.y), Place::new(a.x, c.y));
            [[*a, b], [b, *c], [*c, d], [d, *a]]
        });
        lines.chain(columns).all(|side| {
            meeting(line, side).is_none_or(|(one, other)| {
                !((1e-6..=1.0 - 1e-6).contains(&one) && (-1e-6..=1.0 + 1e-6).contains(&other))
            })
        })
    }

    /// Whether a line may start at a place of the edge in a direction: neither along a side nor nearly so.
    pub(super) fn leaves_well(&self, from: OnEdge, direction: Place) -> bool {
        let count = self.corners.len();
        let [a, b] = self.side(from.side);
        let ahead = b.minus(a);
        let back =
            if from.is_corner { self.side((from.side + count - 1) % count)[0].minus(from.at) } else { a.minus(b) };
        let room = ahead.degrees_to(back);
        let turned = ahead.degrees_to(direction);
        turned > LEAST_DEGREES && turned < room - LEAST_DEGREES
    }

    /// Whether two lines from one place are apart, and not nearly straight on.
    pub(super) fn apart(one: Place, next: Place) -> bool {
        let degrees = one.degrees_to(next);
        degrees > LEAST_DEGREES && degrees < 360.0 - LEAST_DEGREES && (degrees - 180.0).abs() > LEAST_DEGREES
    }

    /// The corners from one place of the edge to another, counter-clockwise, and then back along `walls` lines.
    fn stretch(&self, from: OnEdge, to: OnEdge) -> Vec<Corner> {
        let mut corners = vec![Corner { at: from.at, wall: self.corners[from.side].wall }];
        let count = self.corners.len();
        let mut side = from.side;
        // A stretch that stays on one side does so only if its end lies ahead.
        let ahead = |side: usize, place: Place| place.minus(self.side(side)[0]).length();
        if side == to.side && ahead(side, to.at) > ahead(side, from.at) {
            return corners;
        }
        loop {
            side = (side + 1) % count;
            if side == to.side && to.is_corner {
                return corners;
            }
            corners.push(self.corners[side]);
            if side == to.side {
                return corners;
            }
        }
    }

    /// The cells around a place inside from which walls run to places of the edge, given counter-clockwise.
    pub(super) fn fanned(&self, middle: Place, spokes: &[(OnEdge, usize)]) -> Vec<Self> {
        let next = spokes.iter().cycle().skip(1);
        let cell = |((from, own), (to, other)): (&(OnEdge, usize), &(OnEdge, usize))| {
            let mut corners = self.stretch(*from, *to);
            corners.push(Corner { at: to.at, wall: *other });
            corners.push(Corner { at: middle, wall: *own });
            Self { corners, standing: Standing::default() }
        };
        spokes.iter().zip(next).map(cell).collect()
    }

    /// The two cells on the sides of a wall from one place of the edge to another.
    pub(super) fn halves(&self, from: OnEdge, to: OnEdge, wall: usize) -> [Self; 2] {
        [(from, to), (to, from)].map(|(from, to)| {
            let mut corners = self.stretch(from, to);
            corners.push(Corner { at: to.at, wall });
            Self { corners, standing: Standing::default() }
        })
    }

    pub(super) fn holds(&self, place: Place) -> bool {
        let crossings = self.sides().filter(|[a, b]| {
            (a.y > place.y) != (b.y > place.y) && place.x < a.x + (place.y - a.y) / (b.y - a.y) * (b.x - a.x)
        });
        crossings.count() % 2 == 1
    }

    /// A place far from everything, and how far: sought on a lattice.
    pub(super) fn clearest(&self, half_thickness: impl Fn(usize) -> f64) -> (Place, f64) {
        const TRIES: i32 = 24;
        let [low, high] = self.bounds();
        let mut best = (low, f64::NEG_INFINITY);
        for (column, row) in (1..TRIES).flat_map(|column| (1..TRIES).map(move |row| (column, row))) {
            let share = |step: i32| f64::from(step) / f64::from(TRIES);
            let place = Place::new(low.x + share(column) * (high.x - low.x), low.y + share(row) * (high.y - low.y));
            if self.holds(place) {
                let clear = self.clearance(place, &half_thickness);
                if clear > best.1 {
                    best = (place, clear);
                }
            }
        }
        best
    }

    fn clearance(&self, place: Place, half_thickness: &impl Fn(usize) -> f64) -> f64 {
        let walls =
            self.corners.iter().zip(self.sides()).map(|(c, side)| distance(place, side) - half_thickness(c.wall));
        let spurs = self.standing.spurs.iter().map(|(line, half)| distance(place, *line) - half);
        let columns = self.standing.columns.iter().map(|[low, high]| {
            let outside = |at: f64, low: f64, high: f64| (low - at).max(at - high);
            let (x, y) = (outside(place.x, low.x, high.x), outside(place.y, low.y, high.y));
            if x > 0.0 && y > 0.0 { x.hypot(y) } else { x.max(y) }
        });
        walls.chain(spurs).chain(columns).fold(f64::INFINITY, f64::min)
    }

    pub(super) fn bounds(&self) -> [Place; 2] {
        let least = |value: fn(&Corner) -> f64| self.corners.iter().map(value).fold(f64::INFINITY, f64::min);
        [Place::new(least(|c| c.at.x), least(|c| c.at.y)), Place::new(-least(|c| -c.at.x), -least(|c| -c.at.y))]
    }
}
