//! The shortest way among all sight lines of a plan whose faces are square to the axes: between every two corners it is
//! tried whether the line runs over floor and through openings. Worked in `f64` inches, without triangles and without
//! knowing how the program does it.

use std::f64::consts::TAU;

use plan_geometry::Derived;
use plan_model::{Length, Point};

/// Far under the 1/2 in that places in these plans are apart, far over what `f64` rounds.
const NEAR: f64 = 1e-6;

/// How far beside a line it is looked whether there is floor.
const ASIDE: f64 = 1e-3;

/// Gaps under this are closed.
const GAP: f64 = 18.0;

#[derive(Clone, Copy, Debug, PartialEq)]
struct Place {
    x: f64,
    y: f64,
}

impl Place {
    fn to(self, other: Self, part: f64) -> Self {
        Self { x: self.x + (other.x - self.x) * part, y: self.y + (other.y - self.y) * part }
    }

    fn distance(self, other: Self) -> f64 {
        (other.x - self.x).hypot(other.y - self.y)
    }

    fn angle_to(self, other: Self) -> f64 {
        (other.y - self.y).atan2(other.x - self.x)
    }

    fn is_near(self, other: Self) -> bool {
        self.distance(other) < NEAR
    }

    fn moved(self, angle: f64, by: f64) -> Self {
        Self { x: self.x + angle.cos() * by, y: self.y + angle.sin() * by }
    }
}

#[expect(clippy::cast_precision_loss, reason = "exact in f64 below 2^53")]
fn place(point: Point) -> Place {
    let inches = |length: Length| length.steps() as f64 / Length::INCH.steps() as f64;
    Place { x: inches(point.x), y: inches(point.y) }
}

/// A line from one node to another, with the directions in which it leaves and arrives.
struct Line {
    from: usize,
    to: usize,
    leaves: f64,
    /// Seen from the end, back along the line.
    arrives: f64,
    length: f64,
}

/// A plan as its floors and openings.
pub(crate) struct SightLines {
    /// Corners of floors and openings as closed boundaries; holes as well.
    floors: Vec<Vec<Vec<Place>>>,
    openings: Vec<[Place; 4]>,
    /// Where openings lead outdoors: no way goes there, and no wall is there either.
    outdoors: Vec<[Place; 2]>,
    doors: Vec<(String, usize)>,
    nodes: Vec<Place>,
    lines: Vec<Line>,
    /// Closed gaps: segments that are not crossed.
    closed: Vec<[Place; 2]>,
}

impl SightLines {
    pub(crate) fn of(derived: &Derived) -> Self {
        let free = derived.spaces.iter().flat_map(plan_geometry::Space::free_floor);
        let ring = |boundary: &Vec<Point>| boundary.iter().copied().map(place).collect::<Vec<_>>();
        let floors: Vec<Vec<Vec<Place>>> = free.map(|region| region.boundaries().map(ring).collect()).collect();
        let open = derived.doors.iter().filter(|door| {
            let [a, b] = door.sides[0].line.map(place);
            a.distance(b) >= GAP
        });
        let openings: Vec<[Place; 4]> = open.map(|door| door.outline.map(place)).collect();
        let sides = derived.doors.iter().flat_map(|door| &door.sides).filter(|side| side.room.is_none());
        let outdoors = sides.map(|side| side.line.map(place)).collect();
        let mut lines = Self {
            floors,
            openings,
            outdoors,
            doors: Vec::new(),
            nodes: Vec::new(),
            lines: Vec::new(),
            closed: Vec::new(),
        };
        let floors = lines.floors.iter().flatten().flatten();
        let corners: Vec<Place> = floors.chain(lines.openings.iter().flatten()).copied().collect();
        for corner in corners {
            if lines.juts_in(corner) && !lines.nodes.contains(&corner) {
                lines.nodes.push(corner);
            }
        }
        lines.close_gaps();
        for door in &derived.doors {
            let [a, _, c, _] = door.outline.map(place);
            lines.doors.push((door.id.to_string(), lines.nodes.len()));
            lines.nodes.push(a.to(c, 0.5));
        }
        for from in 0..lines.nodes.len() {
            for to in 0..lines.nodes.len() {
                lines.draw(from, to);
            }
        }
        lines
    }

    /// Whether a place lies on a floor or in an opening, edges included.
    fn is_ground(&self, at: Place) -> bool {
        let in_opening = |corners: &[Place; 4]| {
            let xs = corners.map(|corner| corner.x);
            let ys = corners.map(|corner| corner.y);
            let within = |value: f64, all: [f64; 4]| {
                value >= all.into_iter().fold(f64::INFINITY, f64::min) - NEAR
                    && value <= all.into_iter().fold(f64::NEG_INFINITY, f64::max) + NEAR
            };
            within(at.x, xs) && within(at.y, ys)
        };
        self.openings.iter().any(in_opening) || self.floors.iter().any(|floor| on_floor(floor, at))
    }

    /// Whether there is ground in three quarters around a corner.
    fn juts_in(&self, at: Place) -> bool {
        (0..4).filter(|quarter| self.is_ground(at.moved(TAU * (f64::from(*quarter) + 0.5) / 4.0, ASIDE))).count() == 3
    }

    /// The sides of all floors but for the parts where openings are, and the jambs of these.
    fn sides(&self) -> Vec<[Place; 2]> {
        let rings = self.floors.iter().flatten();
        let around = |ring: &Vec<Place>| -> Vec<[Place; 2]> {
            ring.iter().zip(ring.iter().cycle().skip(1)).map(|(a, b)| [*a, *b]).collect()
        };
        let sides = rings.flat_map(around);
        let jambs = self.openings.iter().flat_map(|corners| around(&corners.to_vec()));
        let mut pieces = Vec::new();
        for [a, b] in sides.chain(jambs) {
            let all = self.floors.iter().flatten().flatten().chain(self.openings.iter().flatten());
            for [start, end] in parts(a, b, all.filter(|corner| is_on(**corner, [a, b])).copied()) {
                let middle = start.to(end, 0.5);
                let square = start.angle_to(end) + TAU / 4.0;
                let both = self.is_ground(middle.moved(square, ASIDE)) && self.is_ground(middle.moved(square, -ASIDE));
                let outdoors = self.outdoors.iter().any(|line| is_on(middle, *line));
                if !both && !outdoors {
                    pieces.push([start, end]);
                }
            }
        }
        pieces
    }

    /// From every corner that juts in to the nearest place of every side that is nearer than the least gap.
    fn close_gaps(&mut self) {
        let sides = self.sides();
        for corner in &self.nodes {
            for [a, b] in &sides {
                let (dx, dy) = (b.x - a.x, b.y - a.y);
                let part = ((corner.x - a.x) * dx + (corner.y - a.y) * dy) / (dx * dx + dy * dy);
                let near = a.to(*b, part.clamp(0.0, 1.0));
                let length = corner.distance(near);
                let is_gap = length > NEAR && length < GAP - NEAR && self.runs_over_ground(*corner, near, true);
                let known = |[c, d]: &[Place; 2]| c.is_near(*corner) && d.is_near(near);
                if is_gap && !self.closed.iter().any(known) {
                    self.closed.push([*corner, near]);
                }
            }
        }
    }

    /// Whether a line runs over ground all along; `inside` wants ground on both sides of it as well.
    fn runs_over_ground(&self, from: Place, to: Place, inside: bool) -> bool {
        let rings =
            self.floors.iter().flatten().map(Vec::as_slice).chain(self.openings.iter().map(<[Place; 4]>::as_slice));
        let crossings = rings.flat_map(|ring| ring.iter().zip(ring.iter().cycle().skip(1))).flat_map(|(c, d)| {
            let touching = [*c, *d].into_iter().filter(|end| is_on(*end, [from, to]));
            crossing([from, to], [*c, *d]).into_iter().chain(touching).collect::<Vec<_>>()
        });
        let aside = from.angle_to(to) + TAU / 4.0;
        parts(from, to, crossings).into_iter().all(|[start, end]| {
            let middle = start.to(end, 0.5);
            self.is_ground(middle)
                && (!inside || [ASIDE, -ASIDE].iter().all(|by| self.is_ground(middle.moved(aside, *by))))
        })
    }

    /// Draws the line between two nodes if it is a sight line.
    fn draw(&mut self, from: usize, to: usize) {
        let (a, b) = (self.nodes[from], self.nodes[to]);
        let passes = |node: &Place| !node.is_near(a) && !node.is_near(b) && is_on(*node, [a, b]) && self.juts_in(*node);
        if from == to || a.is_near(b) || self.nodes.iter().any(passes) || !self.runs_over_ground(a, b, false) {
            return;
        }
        // Where two corners touch, there is no gap at all.
        let corners = self.floors.iter().flatten().flatten().chain(self.openings.iter().flatten());
        let mut passed = corners.filter(|at| !at.is_near(a) && !at.is_near(b) && is_on(**at, [a, b]));
        if !passed.all(|at| self.turns(*at, at.angle_to(a), at.angle_to(b))) {
            return;
        }
        let crosses = |[c, d]: &[Place; 2]| {
            // Drawn on beyond a side, but not beyond a corner that juts in: there its directions are compared.
            let beyond = if self.nodes.iter().any(|node| node.is_near(*d)) { 0.0 } else { ASIDE };
            let d = d.moved(c.angle_to(*d), beyond);
            let ends = [a, b].iter().any(|end| is_on(*end, [*c, d]));
            !ends && crossing([a, b], [*c, d]).is_some_and(|at| !at.is_near(*c) && !at.is_near(d))
        };
        if self.closed.iter().any(crosses) {
            return;
        }
        let (leaves, arrives, length) = (a.angle_to(b), b.angle_to(a), a.distance(b));
        let along = |[c, d]: &[Place; 2]| (c.is_near(a) && d.is_near(b)) || (c.is_near(b) && d.is_near(a));
        // Along a closed gap one walks on one side of it or on the other.
        let sides: &[f64] = if self.closed.iter().any(along) { &[-1e-7, 1e-7] } else { &[0.0] };
        for side in sides {
            self.lines.push(Line { from, to, leaves: leaves + side, arrives: arrives - side, length });
        }
    }

    /// Whether one can turn at a place from one direction to another without crossing a wall or a closed gap.
    fn turns(&self, at: Place, one: f64, other: f64) -> bool {
        let closed: Vec<f64> = self
            .closed
            .iter()
            .filter_map(
                |[c, d]| {
                    if c.is_near(at) { Some(c.angle_to(*d)) } else { d.is_near(at).then(|| d.angle_to(*c)) }
                },
            )
            .collect();
        let is_free = |from: f64, to: f64| {
            let sweep = (to - from).rem_euclid(TAU);
            let within = |angle: f64| {
                let ahead = (angle - from).rem_euclid(TAU);
                ahead > 1e-9 && ahead < sweep - 1e-9
            };
            let barred = closed.iter().any(|angle| within(*angle));
            // The quarters around the corner are ground or none as a whole.
            let quarters = (0..4).map(|quarter| TAU * (f64::from(quarter) + 0.5) / 4.0);
            let solid = quarters.filter(|angle| !self.is_ground(at.moved(*angle, ASIDE))).any(within);
            !barred && !solid
        };
        is_free(one, other) || is_free(other, one)
    }

    /// The length of the shortest way from one door to another, rounded down to the grid.
    pub(crate) fn shortest(&self, from: &str, to: &str) -> Option<Length> {
        let node = |id: &str| self.doors.iter().find(|(door, _)| door == id).map(|(_, node)| *node);
        let (from, to) = (node(from)?, node(to)?);
        let is_door = |node: usize| self.doors.iter().any(|(_, door)| *door == node);
        // By lines, since where one can go on depends on where one comes from.
        let mut best: Vec<f64> =
            self.lines.iter().map(|line| if line.from == from { line.length } else { f64::INFINITY }).collect();
        let mut done = vec![false; self.lines.len()];
        loop {
            let open = (0..self.lines.len()).filter(|line| !done[*line] && best[*line].is_finite());
            let next = open.min_by(|a, b| best[*a].total_cmp(&best[*b]))?;
            done[next] = true;
            let at = &self.lines[next];
            if at.to == to {
                #[expect(
                    clippy::cast_possible_truncation,
                    clippy::cast_precision_loss,
                    reason = "a few hundred inches"
                )]
                return Some(Length::from_steps((best[next] * Length::INCH.steps() as f64 + NEAR).floor() as i64));
            }
            if is_door(at.to) {
                continue;
            }
            for (index, line) in self.lines.iter().enumerate() {
                if line.from == at.to && !done[index] && self.turns(self.nodes[at.to], at.arrives, line.leaves) {
                    best[index] = best[index].min(best[next] + line.length);
                }
            }
        }
    }
}

/// The parts of a segment between its ends and some places on it.
fn parts(from: Place, to: Place, places: impl Iterator<Item = Place>) -> Vec<[Place; 2]> {
    let mut all: Vec<Place> = places.chain([from, to]).collect();
    all.sort_by(|a, b| from.distance(*a).total_cmp(&from.distance(*b)));
    all.windows(2).map(|pair| [pair[0], pair[1]]).filter(|[a, b]| !a.is_near(*b)).collect()
}

fn is_on(at: Place, [a, b]: [Place; 2]) -> bool {
    (a.distance(at) + at.distance(b) - a.distance(b)).abs() < NEAR * NEAR || at.is_near(a) || at.is_near(b)
}

/// Where two segments that are not parallel meet.
fn crossing([a, b]: [Place; 2], [c, d]: [Place; 2]) -> Option<Place> {
    let turn = (b.x - a.x) * (d.y - c.y) - (b.y - a.y) * (d.x - c.x);
    if turn.abs() < NEAR {
        return None;
    }
    let part = ((c.x - a.x) * (d.y - c.y) - (c.y - a.y) * (d.x - c.x)) / turn;
    let other = ((c.x - a.x) * (b.y - a.y) - (c.y - a.y) * (b.x - a.x)) / turn;
    let within = |part: f64| (-1e-9..=1.0 + 1e-9).contains(&part);
    (within(part) && within(other)).then(|| a.to(b, part))
}

/// By counting the sides to the right of a place; on a side counts.
fn on_floor(floor: &[Vec<Place>], at: Place) -> bool {
    let sides = || floor.iter().flat_map(|ring| ring.iter().zip(ring.iter().cycle().skip(1)));
    let on_side = |(a, b): (&Place, &Place)| {
        let near = |value: f64, one: f64, other: f64| value >= one.min(other) - NEAR && value <= one.max(other) + NEAR;
        near(at.x, a.x, b.x) && near(at.y, a.y, b.y)
    };
    let crossed =
        sides().filter(|(a, b)| (a.y > at.y) != (b.y > at.y) && at.x < a.x + (b.x - a.x) * (at.y - a.y) / (b.y - a.y));
    crossed.count() % 2 == 1 || sides().any(on_side)
}
