//! Plain geometry of the generator, in inches. It shares nothing with the geometry that is tested.

/// A place, or a difference of places.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct Place {
    pub(super) x: f64,
    pub(super) y: f64,
}

impl Place {
    pub(super) const fn new(x: f64, y: f64) -> Self {
        Self { x, y }
    }

    pub(super) fn minus(self, other: Self) -> Self {
        Self::new(self.x - other.x, self.y - other.y)
    }

    /// This place, and so many times `other` further.
    pub(super) fn plus(self, times: f64, other: Self) -> Self {
        Self::new(self.x + times * other.x, self.y + times * other.y)
    }

    pub(super) fn cross(self, other: Self) -> f64 {
        self.x * other.y - self.y * other.x
    }

    pub(super) fn dot(self, other: Self) -> f64 {
        self.x * other.x + self.y * other.y
    }

    pub(super) fn length(self) -> f64 {
        self.x.hypot(self.y)
    }

    pub(super) fn unit(self) -> Self {
        let length = self.length();
        Self::new(self.x / length, self.y / length)
    }

    /// Turned a quarter to the left.
    pub(super) const fn left(self) -> Self {
        Self::new(-self.y, self.x)
    }

    /// The angle to another direction, from 0 to 360 degrees to the left.
    pub(super) fn degrees_to(self, other: Self) -> f64 {
        self.cross(other).atan2(self.dot(other)).to_degrees().rem_euclid(360.0)
    }
}

/// How far a place is from a segment.
pub(super) fn distance(place: Place, [a, b]: [Place; 2]) -> f64 {
    let along = b.minus(a);
    let share = (place.minus(a).dot(along) / along.dot(along)).clamp(0.0, 1.0);
    place.minus(a.plus(share, along)).length()
}

/// How far two segments are from each other: nothing where they cross.
pub(super) fn apart(one: [Place; 2], other: [Place; 2]) -> f64 {
    let within = |share: f64| (0.0..=1.0).contains(&share);
    if meeting(one, other).is_some_and(|(one, other)| within(one) && within(other)) {
        return 0.0;
    }
    let ends = one.map(|end| distance(end, other)).into_iter().chain(other.map(|end| distance(end, one)));
    ends.fold(f64::INFINITY, f64::min)
}

/// The sides around four corners.
pub(super) const fn around([a, b, c, d]: [Place; 4]) -> [[Place; 2]; 4] {
    [[a, b], [b, c], [c, d], [d, a]]
}

/// How far along the first line, as a share of `b - a`, and along the second the two lines meet.
pub(super) fn meeting([a, b]: [Place; 2], [c, d]: [Place; 2]) -> Option<(f64, f64)> {
    let (u, v, w) = (b.minus(a), d.minus(c), c.minus(a));
    let turn = u.cross(v);
    (turn.abs() > 1e-9).then(|| (w.cross(v) / turn, w.cross(u) / turn))
}
