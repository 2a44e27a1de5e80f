//! What one sees from a place: its view is followed from triangle to triangle, narrowed by the corners that it meets, and
//! through doorways from space to space. Worked in whole steps, and so exact.

use plan_model::Point;

use super::ground::{Ground, Turn, Wedge};
use crate::kernel::{Edge, Link, Vector};

/// The grounds of all spaces, and the doorways that join them.
pub(super) struct Joined<'a> {
    pub(super) grounds: Vec<&'a Ground>,
    /// For each ground and threshold of it, the door.
    pub(super) doors: &'a [Vec<u32>],
    /// For each door, its thresholds: the ground, and which of its thresholds.
    pub(super) thresholds: &'a [[Option<(u32, u32)>; 2]],
}

/// Directions between two that lie less than half a turn apart, or a half turn exactly.
#[derive(Clone, Copy, Debug)]
pub(super) struct View {
    right: Vector,
    left: Vector,
    /// Whether a corner stands in the way of what lies exactly in the end's direction: that is another leg, from there.
    right_ends: bool,
    left_ends: bool,
}

impl View {
    #[inline]
    pub(super) const fn has(&self, direction: Vector) -> bool {
        let (right, left) = (self.right.cross(direction), direction.cross(self.left));
        (right > 0 || (right == 0 && !self.right_ends)) && (left > 0 || (left == 0 && !self.left_ends))
    }

    /// Whether a place lies in it: one that ends the view is in it as well, but what lies behind is not.
    pub(super) fn has_place(&self, place: Vector) -> bool {
        self.has(place) || (self.right_ends && place == self.right) || (self.left_ends && place == self.left)
    }

    /// None if nothing is left of it.
    #[inline]
    const fn some(self) -> Option<Self> {
        let turn = self.right.cross(self.left);
        let opposite = turn == 0 && self.right.dot(self.left) < 0;
        if turn > 0 || opposite || (turn == 0 && !self.right_ends && !self.left_ends) { Some(self) } else { None }
    }

    /// What of it lies within an arc of less than half a turn.
    fn within(self, arc: Wedge) -> Option<Self> {
        let mut view = self;
        if !between(self.right, arc.from, arc.to) {
            if !between(arc.from, self.right, self.left) {
                return None;
            }
            (view.right, view.right_ends) = (arc.from, false);
        }
        if !between(self.left, arc.from, arc.to) {
            (view.left, view.left_ends) = (arc.to, false);
        }
        view.some()
    }

    /// What of it passes between two places ahead.
    fn through(self, right: Vector, left: Vector) -> Option<Self> {
        let mut view = self;
        if self.right.cross(right) > 0 {
            (view.right, view.right_ends) = (right, false);
        }
        if left.cross(self.left) > 0 {
            (view.left, view.left_ends) = (left, false);
        }
        view.some()
    }
}

/// Whether a direction lies between two that are less than half a turn apart, ends included.
#[inline]
const fn between(direction: Vector, right: Vector, left: Vector) -> bool {
    if right.cross(left) == 0 {
        direction.is_along(right)
    } else {
        right.cross(direction) >= 0 && direction.cross(left) >= 0
    }
}

/// The grounds that a view has come through: the last one, and where the others are told.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) struct Trail(u32);

/// Where to look from a turn.
#[derive(Clone, Copy)]
pub(super) enum Directions {
    /// All around.
    All,
    /// Within one of two arcs of less than half a turn.
    Within([Wedge; 2]),
}

impl Directions {
    fn have(self, direction: Vector) -> bool {
        match self {
            Self::All => true,
            Self::Within([one, other]) => {
                between(direction, one.from, one.to) || between(direction, other.from, other.to)
            }
        }
    }
}

/// Somebody to whom it is told what is seen.
pub(super) trait Watch {
    /// A corner of the mesh that is a turn.
    fn turn(&mut self, sight: &Sight<'_>, ground: u32, corner: u32, trail: Trail);
    /// A side of the ground.
    fn side(&mut self, _sight: &Sight<'_>, _ground: u32, _edge: Edge, _view: &View, _trail: Trail) {}
    /// An edge in the middle of a doorway.
    fn portal(&mut self, _sight: &Sight<'_>, _door: u32, _edge: [Vector; 2], _view: &View, _trail: Trail) {}
    /// Whether to look on beyond an edge.
    fn looks_beyond(&self, _sight: &Sight<'_>, _ground: u32, _edge: Edge) -> bool {
        true
    }
}

/// A triangle that comes into view over one of its edges.
struct Glance {
    ground: u32,
    edge: Edge,
    view: View,
    trail: Trail,
    /// How many triangles lie before it.
    depth: usize,
}

/// A look around from one place after another.
pub(super) struct Sight<'a> {
    pub(super) joined: &'a Joined<'a>,
    pub(super) from: Point,
    glances: Vec<Glance>,
    /// Each ground entered, and the entry before it.
    trails: Vec<(u32, Option<u32>)>,
    /// No sight line passes more triangles.
    deepest: usize,
}

impl<'a> Sight<'a> {
    pub(super) fn new(joined: &'a Joined<'a>) -> Self {
        let deepest = joined.grounds.iter().map(|ground| ground.mesh.edges().count() / 3).sum();
        Self { joined, from: Point::default(), glances: Vec::new(), trails: Vec::new(), deepest }
    }

    /// The grounds that a view has come through.
    pub(super) fn grounds(&self, Trail(last): Trail) -> impl Iterator<Item = u32> + '_ {
        let entry = |at: u32| self.trails.get(at as usize).copied();
        std::iter::successors(entry(last), move |(_, before)| before.and_then(entry)).map(|(ground, _)| ground)
    }

    #[inline]
    fn stand(&mut self, from: Point, ground: u32) -> Trail {
        self.from = from;
        self.glances.clear();
        self.trails.clear();
        self.enter(ground, None)
    }

    fn enter(&mut self, ground: u32, before: Option<Trail>) -> Trail {
        self.trails.push((ground, before.map(|Trail(at)| at)));
        Trail(self.trails.len() as u32 - 1)
    }

    /// Where an edge starts and ends, as seen.
    #[inline]
    pub(super) fn ends(&self, ground: u32, edge: Edge) -> [Vector; 2] {
        let [start, end] = self.joined.grounds[ground as usize].mesh.ends(edge);
        [Vector::between(self.from, start), Vector::between(self.from, end)]
    }

    #[inline]
    fn towards(&self, ground: u32, corner: u32) -> Vector {
        Vector::between(self.from, self.joined.grounds[ground as usize].mesh.corner(corner))
    }

    /// Looks around from a turn.
    pub(super) fn look_from_turn(&mut self, ground: u32, turn: &Turn, directions: Directions, watch: &mut impl Watch) {
        let trail = self.stand(turn.at, ground);
        let here = self.joined.grounds[ground as usize];
        let mesh = &here.mesh;
        for edge in mesh.around(turn.side) {
            let opposite = edge.next();
            let ends = [mesh.start(opposite), mesh.start(opposite.next())];
            let [right, left] = self.ends(ground, opposite);
            // Each neighbour once: the last one ends the last triangle.
            if here.is_turn(ends[0]) && directions.have(right) {
                watch.turn(self, ground, ends[0], trail);
            }
            if !matches!(mesh.link(edge.previous()), Link::Inside(_)) && here.is_turn(ends[1]) && directions.have(left)
            {
                watch.turn(self, ground, ends[1], trail);
            }
            let view = View { right, left, right_ends: here.is_turn(ends[0]), left_ends: here.is_turn(ends[1]) };
            match directions {
                Directions::All => self.look_over(ground, opposite, view, trail, 0, watch),
                Directions::Within(arcs) => {
                    for view in arcs.into_iter().filter_map(|arc| view.within(arc)) {
                        self.look_over(ground, opposite, view, trail, 0, watch);
                    }
                }
            }
        }
        self.look(watch);
    }

    /// Looks around from a place on the ground.
    pub(super) fn look_from_place(&mut self, ground: u32, at: Point, watch: &mut impl Watch) {
        let trail = self.stand(at, ground);
        for first in self.joined.grounds[ground as usize].mesh.triangles_at(at) {
            for edge in [first, first.next(), first.previous()] {
                self.look_from_within(ground, edge, trail, watch);
            }
        }
        self.look(watch);
    }

    /// Looks around from the middle of a door, to both sides.
    pub(super) fn look_from_door(&mut self, door: u32, at: Point, watch: &mut impl Watch) {
        let joined = self.joined;
        for (ground, threshold) in joined.thresholds[door as usize].into_iter().flatten() {
            let here = joined.grounds[ground as usize];
            let trail = self.stand(at, ground);
            let stands_on = |edge: &Edge| {
                let [a, b] = here.mesh.ends(*edge);
                let (ahead, back) = (Vector::between(a, b), Vector::between(a, at));
                ahead.dot(back) >= 0 && ahead.dot(back) <= ahead.dot(ahead)
            };
            for below in here.portals[threshold as usize].iter().filter(|edge| stands_on(edge)) {
                for edge in [below.next(), below.previous()] {
                    self.look_from_within(ground, edge, trail, watch);
                }
            }
            self.look(watch);
        }
    }

    /// Looks over an edge of the triangle that one stands in; an edge that one stands on is no edge to look over.
    fn look_from_within(&mut self, ground: u32, edge: Edge, trail: Trail, watch: &mut impl Watch) {
        let here = self.joined.grounds[ground as usize];
        let ends = [here.mesh.start(edge), here.mesh.start(edge.next())];
        let (right, left) = (self.towards(ground, ends[0]), self.towards(ground, ends[1]));
        if here.is_turn(ends[0]) && !right.is_zero() {
            watch.turn(self, ground, ends[0], trail);
        }
        if right.cross(left) > 0 {
            let (right_ends, left_ends) = (here.is_turn(ends[0]), here.is_turn(ends[1]));
            self.look_over(ground, edge, View { right, left, right_ends, left_ends }, trail, 0, watch);
        }
    }

    /// Looks over an edge, from inside its triangle.
    fn look_over(&mut self, ground: u32, edge: Edge, view: View, trail: Trail, depth: usize, watch: &mut impl Watch) {
        let joined = self.joined;
        let mesh = &joined.grounds[ground as usize].mesh;
        match mesh.link(edge) {
            Link::Inside(beyond) => {
                if watch.looks_beyond(self, ground, edge) {
                    self.glances.push(Glance { ground, edge: beyond, view, trail, depth: depth + 1 });
                }
            }
            Link::Side => watch.side(self, ground, edge, &view, trail),
            Link::Portal(threshold) => {
                let door = joined.doors[ground as usize][threshold as usize];
                watch.portal(self, door, self.ends(ground, edge), &view, trail);
                if !watch.looks_beyond(self, ground, edge) {
                    return;
                }
                let here = (ground, threshold);
                let others = joined.thresholds[door as usize].into_iter().flatten().filter(|other| *other != here);
                for (ground, threshold) in others {
                    let trail = self.enter(ground, Some(trail));
                    let beyond = joined.grounds[ground as usize];
                    for edge in &beyond.portals[threshold as usize] {
                        let [left, right] = self.ends(ground, *edge);
                        if let Some(view) = view.through(right, left) {
                            self.glances.push(Glance { ground, edge: *edge, view, trail, depth: depth + 1 });
                        }
                    }
                }
            }
        }
    }

    fn look(&mut self, watch: &mut impl Watch) {
        while let Some(glance) = self.glances.pop() {
            self.follow(glance, watch);
        }
    }

    /// Follows a view for as long as it passes whole from triangle to triangle.
    fn follow(&mut self, Glance { ground, edge, view, trail, depth }: Glance, watch: &mut impl Watch) {
        let (mut edge, mut depth) = (edge, depth);
        let here = self.joined.grounds[ground as usize];
        while depth <= self.deepest {
            let (to_right, to_left) = (edge.next(), edge.previous());
            let apex = here.mesh.start(to_left);
            let towards = Vector::between(self.from, here.mesh.corner(apex));
            let (from_right, from_left) = (view.right.cross(towards), towards.cross(view.left));
            if from_right >= 0 && from_left >= 0 {
                let is_turn = here.is_turn(apex);
                if is_turn && view.has(towards) {
                    watch.turn(self, ground, apex, trail);
                }
                let right_ends = is_turn || (from_right == 0 && view.right_ends);
                let left_ends = is_turn || (from_left == 0 && view.left_ends);
                if let Some(view) = (View { right: towards, right_ends, ..view }).some() {
                    self.look_over(ground, to_left, view, trail, depth, watch);
                }
                if let Some(view) = (View { left: towards, left_ends, ..view }).some() {
                    self.look_over(ground, to_right, view, trail, depth, watch);
                }
                return;
            }
            let passed = if from_right < 0 { to_left } else { to_right };
            match here.mesh.link(passed) {
                Link::Inside(beyond) if watch.looks_beyond(self, ground, passed) => edge = beyond,
                Link::Inside(_) => return,
                Link::Side | Link::Portal(_) => return self.look_over(ground, passed, view, trail, depth, watch),
            }
            depth += 1;
        }
    }
}
