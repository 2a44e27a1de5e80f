//! A filled shape as triangles that know their neighbours: what sight lines are followed through.

use plan_model::Point;

use super::boolean::{Triangles, triangulated};

/// A difference of two places, in grid steps. Places lie within 2^28 steps, so that products and their sums fit.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub(crate) struct Vector {
    pub(crate) x: i64,
    pub(crate) y: i64,
}

impl Vector {
    #[inline]
    pub(crate) const fn between(from: Point, to: Point) -> Self {
        Self { x: to.x.steps() - from.x.steps(), y: to.y.steps() - from.y.steps() }
    }

    /// Positive when `other` lies to the left.
    #[inline]
    pub(crate) const fn cross(self, other: Self) -> i64 {
        self.x * other.y - self.y * other.x
    }

    /// Positive when `other` points ahead.
    #[inline]
    pub(crate) const fn dot(self, other: Self) -> i64 {
        self.x * other.x + self.y * other.y
    }

    pub(crate) const fn reversed(self) -> Self {
        Self { x: -self.x, y: -self.y }
    }

    pub(crate) const fn is_zero(self) -> bool {
        self.x == 0 && self.y == 0
    }

    /// Whether both point the same way.
    pub(crate) const fn is_along(self, other: Self) -> bool {
        self.cross(other) == 0 && self.dot(other) > 0
    }

    /// Exact where it is a whole number: its square may be rounded, but by less than would move the root.
    #[expect(clippy::cast_precision_loss, reason = "a rounded square gives the same root to within f64")]
    pub(crate) fn length(self) -> f64 {
        (self.dot(self) as f64).sqrt()
    }
}

/// An edge of one triangle, counter-clockwise around it: three times the triangle's index, and which of the three.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub(crate) struct Edge(pub(crate) u32);

impl Edge {
    /// The edge after this one around the triangle.
    #[inline]
    pub(crate) const fn next(self) -> Self {
        Self(if self.0 % 3 == 2 { self.0 - 2 } else { self.0 + 1 })
    }

    /// The edge before this one around the triangle.
    #[inline]
    pub(crate) const fn previous(self) -> Self {
        Self(if self.0.is_multiple_of(3) { self.0 + 2 } else { self.0 - 1 })
    }

    const fn index(self) -> usize {
        self.0 as usize
    }
}

/// What lies beyond an edge.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Link {
    /// Another triangle, entered over this edge of it.
    Inside(Edge),
    /// Nothing of the shape.
    Side,
    /// The ground of another shape, over the portal with this number.
    Portal(u32),
}

/// The triangles of a shape.
#[derive(Debug)]
pub(crate) struct Mesh {
    corners: Vec<Point>,
    /// For each edge the corner at which it starts.
    starts: Vec<u32>,
    links: Vec<Link>,
    is_sound: bool,
}

impl Mesh {
    /// Everything that any of the closed boundaries encloses.
    pub(crate) fn filling<'a>(boundaries: impl IntoIterator<Item = &'a [Point]> + Clone) -> Self {
        let Triangles { corners, triangles, twice_area } = triangulated(boundaries);
        let mut filled = 0;
        let mut starts = Vec::with_capacity(3 * triangles.len());
        let mut edges: Vec<(u64, u32)> = Vec::with_capacity(3 * triangles.len());
        for [a, b, c] in triangles {
            let [p, q, r] = [a, b, c].map(|corner| corners[corner as usize]);
            let turn = Vector::between(p, q).cross(Vector::between(p, r));
            filled += i128::from(turn.abs());
            let around = if turn > 0 { [a, b, c] } else { [a, c, b] };
            for at in 0..3 {
                let (from, to) = (around[at], around[(at + 1) % 3]);
                edges.push(((u64::from(from.min(to)) << 32) | u64::from(from.max(to)), starts.len() as u32));
                starts.push(from);
            }
        }
        edges.sort_unstable();
        let mut links = vec![Link::Side; starts.len()];
        for pair in edges.windows(2) {
            let (one, other) = (pair[0].1, pair[1].1);
            let alike = pair[0].0 == pair[1].0 && starts[one as usize] != starts[other as usize];
            if alike && links[one as usize] == Link::Side {
                links[one as usize] = Link::Inside(Edge(other));
                links[other as usize] = Link::Inside(Edge(one));
            }
        }
        Self { corners, starts, links, is_sound: filled == twice_area }
    }

    /// Whether the triangles fill the shape and no more. Off the axes, what touches may overlap by less than a step, and
    /// boundaries that cross so cannot be filled.
    pub(crate) const fn is_sound(&self) -> bool {
        self.is_sound
    }

    pub(crate) fn edges(&self) -> impl Iterator<Item = Edge> + use<> {
        (0..self.starts.len() as u32).map(Edge)
    }

    /// The edges with nothing of the shape beyond them, portals included.
    pub(crate) fn outer_edges(&self) -> impl Iterator<Item = Edge> + '_ {
        self.edges().filter(|edge| !matches!(self.link(*edge), Link::Inside(_)))
    }

    pub(crate) fn corner_count(&self) -> usize {
        self.corners.len()
    }

    #[inline]
    pub(crate) fn corner(&self, corner: u32) -> Point {
        self.corners[corner as usize]
    }

    /// The corner at which an edge starts.
    #[inline]
    pub(crate) fn start(&self, edge: Edge) -> u32 {
        self.starts[edge.index()]
    }

    /// Where an edge starts and ends.
    #[inline]
    pub(crate) fn ends(&self, edge: Edge) -> [Point; 2] {
        [self.corner(self.start(edge)), self.corner(self.start(edge.next()))]
    }

    #[inline]
    pub(crate) fn link(&self, edge: Edge) -> Link {
        self.links[edge.index()]
    }

    /// Makes an outer edge a way to other ground.
    pub(crate) fn open(&mut self, edge: Edge, portal: u32) {
        self.links[edge.index()] = Link::Portal(portal);
    }

    /// The edges that start at the corner at which an outer edge starts, from that edge counter-clockwise as far as the
    /// shape goes.
    pub(crate) fn around(&self, outer: Edge) -> impl Iterator<Item = Edge> + '_ {
        // A corner never has more edges than the mesh: a broken mesh ends as well.
        std::iter::successors(Some(outer), |edge| match self.link(edge.previous()) {
            Link::Inside(twin) => Some(twin),
            Link::Side | Link::Portal(_) => None,
        })
        .take(self.starts.len())
    }

    /// The first edge of every triangle that a point lies in or on.
    pub(crate) fn triangles_at(&self, point: Point) -> impl Iterator<Item = Edge> + '_ {
        let triangles = (0..self.starts.len() as u32 / 3).map(|triangle| Edge(3 * triangle));
        triangles.filter(move |first| {
            let to = |edge: Edge| Vector::between(point, self.corner(self.start(edge)));
            let (a, b, c) = (to(*first), to(first.next()), to(first.previous()));
            a.cross(b) >= 0 && b.cross(c) >= 0 && c.cross(a) >= 0
        })
    }
}
