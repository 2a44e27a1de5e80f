//! From a description to a plan.

use plan_model::elements::{Column, ColumnKind, OpenBoundary, PlacedBy, Room, RoomUse, Wall, WallKind};
use plan_model::{Length, Plan, Point};

use super::cell::{Cell, Corner, OnEdge, Standing};
use super::describe::{Aim, Part, RandomPlan, Reach};
use super::furnish::{PlacedDoorway, PlacedThing};
use super::plane::{Place, meeting};
use crate::empty_plan;

/// Stands for a wall along the side of a cell that is an open boundary.
pub(super) const OPEN: usize = usize::MAX;
/// A room has a place this many inches from everything that stands around it.
const CLEAR: f64 = 14.0;

#[derive(Clone, Copy)]
pub(super) struct Line {
    pub(super) ends: [Place; 2],
    pub(super) thickness: Length,
    placed_by: PlacedBy,
}

impl Line {
    /// Along the middle of the wall.
    pub(super) fn middle(&self) -> [Place; 2] {
        let [from, to] = self.ends;
        let left = to.minus(from).unit().left();
        let by = match self.placed_by {
            PlacedBy::Centre => 0.0,
            PlacedBy::LeftFace => -inches(self.thickness) / 2.0,
            PlacedBy::RightFace => inches(self.thickness) / 2.0,
        };
        self.ends.map(|end| end.plus(by, left))
    }

    /// How far it reaches into the cells beside it.
    pub(super) fn half(&self) -> f64 {
        match self.placed_by {
            // Whole steps, so that an end that is drawn to a face never ends before it.
            PlacedBy::Centre => inches(Length::from_steps(self.thickness.steps() / 2)),
            PlacedBy::LeftFace | PlacedBy::RightFace => 0.0,
        }
    }
}

pub(super) struct Growing {
    pub(super) lines: Vec<Line>,
    pub(super) cells: Vec<Cell>,
    boundaries: Vec<[Place; 2]>,
    pub(super) columns: Vec<[Place; 2]>,
    /// Walls that are drawn in pieces.
    pub(super) pieces: Vec<(usize, [i64; 2])>,
    pub(super) doorways: Vec<PlacedDoorway>,
    pub(super) things: Vec<PlacedThing>,
}

impl RandomPlan {
    /// The plan: its rooms are called `room-0`, `room-1` and so on, its walls `wall-0` and so on.
    #[must_use]
    pub fn plan(&self) -> Plan {
        let mut growing = self.begun();
        for part in &self.parts {
            growing.add(part);
        }
        growing.plan()
    }

    fn begun(&self) -> Growing {
        let outline = &self.outline;
        #[expect(clippy::cast_precision_loss, reason = "small whole numbers")]
        let (sin, cos) = (outline.turned as f64 / 10_000.0).to_radians().sin_cos();
        let corner = |(corner, moved): ([i64; 2], &[i64; 2])| {
            #[expect(clippy::cast_precision_loss, reason = "small whole numbers")]
            let [x, y] = [0, 1].map(|axis| (corner[axis] + moved[axis]) as f64);
            Place::new(x * cos - y * sin, x * sin + y * cos)
        };
        let corners: Vec<Place> =
            outline.shape.corners(outline.size).into_iter().zip(&outline.moved).map(corner).collect();
        let placed_by = if outline.by_inner_face { PlacedBy::LeftFace } else { PlacedBy::Centre };
        let line = |at: usize| Line {
            ends: [corners[at], corners[(at + 1) % corners.len()]],
            thickness: outline.thickness[at % outline.thickness.len()],
            placed_by,
        };
        let lines = (0..corners.len()).map(line).collect();
        let corners = corners.iter().enumerate().map(|(wall, at)| Corner { at: *at, wall }).collect();
        Growing {
            lines,
            cells: vec![Cell { corners, standing: Standing::default() }],
            boundaries: Vec::new(),
            columns: Vec::new(),
            pieces: Vec::new(),
            doorways: Vec::new(),
            things: Vec::new(),
        }
    }
}

impl Growing {
    /// Adds a part if it finds its place.
    fn add(&mut self, part: &Part) {
        // Nothing is kept of a part that turns out to leave a room too small.
        let _ = self.try_to_add(part);
    }

    fn try_to_add(&mut self, part: &Part) -> Option<()> {
        match part {
            Part::Wall { room, from, aim, thickness, reach } => {
                let cell = self.cell(*room);
                let [from, to] = self.line_across(cell, *from, *aim)?;
                self.on_walls(cell, &[from, to])?;
                let ends = self.drawn(cell, from, to, *reach);
                let wall = self.lines.len();
                self.lines.push(Line { ends, thickness: *thickness, placed_by: PlacedBy::Centre });
                let halves = self.cells[cell].halves(from, to, wall);
                self.replace(cell, halves.to_vec()).or_else(|| self.take_back(1))
            }
            Part::Boundary { room, from, aim } => {
                let cell = self.cell(*room);
                let [from, to] = self.line_across(cell, *from, *aim)?;
                let halves = self.cells[cell].halves(from, to, OPEN);
                self.replace(cell, halves.to_vec())?;
                self.boundaries.push([from.at, to.at]);
                Some(())
            }
            Part::Star { room, spokes } => self.star(*room, spokes),
            Part::Crossing { room, from, aim, thickness } => self.crossing(*room, *from, *aim, *thickness),
            Part::Spur { room, from, aim, hundredths, thickness } => {
                let cell = self.cell(*room);
                let [from, to] = self.line_across(cell, *from, *aim)?;
                self.on_walls(cell, &[from])?;
                #[expect(clippy::cast_precision_loss, reason = "a share from 0 to 100")]
                let end = from.at.plus(*hundredths as f64 / 100.0, to.at.minus(from.at));
                let spur = ([from.at, end], inches(*thickness) / 2.0);
                let mut grown = self.cells[cell].clone();
                grown.standing.spurs.push(spur);
                self.replace(cell, vec![grown])?;
                self.lines.push(Line { ends: spur.0, thickness: *thickness, placed_by: PlacedBy::Centre });
                Some(())
            }
            Part::Column { room, at, size } => {
                let cell = self.cell(*room);
                let column = placed(&self.cells[cell], *at, *size)?;
                let mut grown = self.cells[cell].clone();
                grown.standing.columns.push(column);
                self.replace(cell, vec![grown])?;
                self.columns.push(column);
                Some(())
            }
            Part::Pieces { wall, second_from, first_to } => {
                let wall = wall % self.lines.len();
                if self.pieces.iter().all(|(other, _)| *other != wall) {
                    self.pieces.push((wall, [*first_to, *second_from]));
                }
                Some(())
            }
            Part::Doorway(doorway) => {
                let placed = doorway.placed(self)?;
                self.doorways.push(placed);
                Some(())
            }
            Part::Thing(thing) => {
                let placed = thing.placed(self)?;
                self.things.push(placed);
                Some(())
            }
        }
    }

    pub(super) fn cell(&self, room: usize) -> usize {
        room % self.cells.len()
    }

    /// The two ends of a line across a cell.
    fn line_across(&self, cell: usize, from: (usize, i64), aim: Aim) -> Option<[OnEdge; 2]> {
        let cell = &self.cells[cell];
        let from = cell.on_edge(from.0, from.1);
        let to = match aim {
            Aim::Square => cell.across(from)?,
            Aim::To(side, hundredths) => cell.on_edge(side, hundredths),
        };
        (cell.sees(from, to)).then_some([from, to])
    }

    /// Whether these places are on walls, and not on open boundaries.
    fn on_walls(&self, cell: usize, places: &[OnEdge]) -> Option<()> {
        let corners = &self.cells[cell].corners;
        let before = |place: &OnEdge| (place.side + corners.len() - 1) % corners.len();
        let on_wall = |place: &OnEdge| {
            corners[place.side].wall != OPEN && (!place.is_corner || corners[before(place)].wall != OPEN)
        };
        places.iter().all(on_wall).then_some(())
    }

    /// The ends of a wall as drawn: to the faces, the lines or beyond the lines of the walls that it meets.
    fn drawn(&self, cell: usize, from: OnEdge, to: OnEdge, reach: [Reach; 2]) -> [Place; 2] {
        let along = to.at.minus(from.at).unit();
        let end = |end: OnEdge, out: f64, reach: Reach| {
            let [a, b] = self.cells[cell].side(end.side);
            let host = &self.lines[self.cells[cell].corners[end.side].wall];
            let slant = b.minus(a).unit().cross(along).abs();
            let by = match (reach, end.is_corner) {
                (Reach::Line, _) | (_, true) => 0.0,
                (Reach::Face, _) => -host.half() / slant,
                (Reach::Beyond, _) => inches(host.thickness) / 5.0 / slant,
            };
            end.at.plus(out * by, along)
        };
        [end(from, -1.0, reach[0]), end(to, 1.0, reach[1])]
    }

    fn star(&mut self, room: usize, spokes: &[((usize, i64), Length)]) -> Option<()> {
        let cell = self.cell(room);
        let own = &self.cells[cell];
        let (middle, _) = own.clearest(|wall| self.half(wall));
        let mut ends: Vec<(OnEdge, Length)> =
            spokes.iter().map(|((side, share), thickness)| (own.on_edge(*side, *share), *thickness)).collect();
        let from_start = |end: &OnEdge| end.at.minus(own.corners[end.side].at).length();
        ends.sort_by(|(a, _), (b, _)| a.side.cmp(&b.side).then(from_start(a).total_cmp(&from_start(b))));
        ends.dedup_by(|(a, _), (b, _)| a.at == b.at);
        let places: Vec<OnEdge> = ends.iter().map(|(end, _)| *end).collect();
        self.on_walls(cell, &places)?;
        let out = |end: &OnEdge| end.at.minus(middle);
        let next = ends.iter().cycle().skip(1);
        let fans = ends.iter().zip(next).all(|((end, _), (next, _))| Cell::apart(out(end), out(next)));
        let seen = |end: &OnEdge| {
            own.is_clear([middle, end.at]) && own.leaves_well(*end, Place::new(0.0, 0.0).minus(out(end)))
        };
        if ends.len() < 3 || !fans || !places.iter().all(seen) {
            return None;
        }
        let first = self.lines.len();
        let walls: Vec<(OnEdge, usize)> = places.iter().copied().zip(first..).collect();
        let fanned = own.fanned(middle, &walls);
        for (end, thickness) in &ends {
            self.lines.push(Line { ends: [middle, end.at], thickness: *thickness, placed_by: PlacedBy::Centre });
        }
        self.replace(cell, fanned).or_else(|| self.take_back(ends.len()))
    }

    fn crossing(&mut self, room: usize, from: [(usize, i64); 2], aim: [Aim; 2], thickness: [Length; 2]) -> Option<()> {
        let cell = self.cell(room);
        let lines = [self.line_across(cell, from[0], aim[0])?, self.line_across(cell, from[1], aim[1])?];
        self.on_walls(cell, &lines.concat())?;
        let ends = lines.map(|line| line.map(|end| end.at));
        let (one, other) = meeting(ends[0], ends[1])?;
        let inside = |share: f64| (0.15..0.85).contains(&share);
        if !inside(one) || !inside(other) || !Cell::apart(ends[0][1].minus(ends[0][0]), ends[1][1].minus(ends[1][0])) {
            return None;
        }
        let middle = ends[0][0].plus(one, ends[0][1].minus(ends[0][0]));
        let own = &self.cells[cell];
        let first = self.lines.len();
        let mut spokes: Vec<(OnEdge, usize)> =
            lines.iter().zip(first..).flat_map(|(line, wall)| line.map(|end| (end, wall))).collect();
        let from_start = |end: &OnEdge| end.at.minus(own.corners[end.side].at).length();
        spokes.sort_by(|(a, _), (b, _)| a.side.cmp(&b.side).then(from_start(a).total_cmp(&from_start(b))));
        let fanned = own.fanned(middle, &spokes);
        for (ends, thickness) in ends.into_iter().zip(thickness) {
            self.lines.push(Line { ends, thickness, placed_by: PlacedBy::Centre });
        }
        self.replace(cell, fanned).or_else(|| self.take_back(2))
    }

    /// Puts cells in the place of one, if each has room enough.
    fn replace(&mut self, cell: usize, mut by: Vec<Cell>) -> Option<()> {
        if by.len() > 1 {
            let standing = self.cells[cell].standing.clone();
            for part in &mut by {
                let holds = |[a, b]: [Place; 2]| part.holds(a.plus(0.5, b.minus(a)));
                let spurs = standing.spurs.iter().filter(|(line, _)| holds(*line)).copied().collect();
                let columns = standing.columns.iter().filter(|column| holds(**column)).copied().collect();
                part.standing = Standing { spurs, columns };
            }
        }
        if by.iter().any(|part| part.clearest(|wall| self.half(wall)).1 < CLEAR) {
            return None;
        }
        self.cells.splice(cell..=cell, by);
        Some(())
    }

    fn take_back(&mut self, walls: usize) -> Option<()> {
        self.lines.truncate(self.lines.len() - walls);
        None
    }

    pub(super) fn half(&self, wall: usize) -> f64 {
        self.lines.get(wall).map_or(0.0, Line::half)
    }

    fn plan(&self) -> Plan {
        let mut plan = empty_plan();
        for (index, line) in self.lines.iter().enumerate() {
            let shares = self.pieces.iter().find(|(wall, _)| *wall == index).map(|(_, shares)| *shares);
            let [from, to] = line.ends;
            #[expect(clippy::cast_precision_loss, reason = "a share from 0 to 100")]
            let at = |share: i64| from.plus(share as f64 / 100.0, to.minus(from));
            let pieces = shares.map_or(vec![[from, to]], |[first, second]| vec![[from, at(first)], [at(second), to]]);
            for (piece, [from, to]) in pieces.into_iter().enumerate() {
                let name = if piece == 0 { format!("wall-{index}") } else { format!("wall-{index}-more") };
                plan.base.walls.push(Wall {
                    id: name.into(),
                    kind: WallKind::Partition,
                    from: on_grid(from),
                    to: on_grid(to),
                    thickness: line.thickness,
                    placed_by: line.placed_by,
                    movable: false,
                });
            }
        }
        for (index, [from, to]) in self.boundaries.iter().enumerate() {
            let id = format!("boundary-{index}").into();
            plan.base.open_boundaries.push(OpenBoundary { id, from: on_grid(*from), to: on_grid(*to) });
        }
        for (index, [from, to]) in self.columns.iter().enumerate() {
            let id = format!("column-{index}").into();
            let (from, to) = (on_grid(*from), on_grid(*to));
            plan.base.columns.push(Column { id, kind: ColumnKind::Column, from, to });
        }
        for (index, cell) in self.cells.iter().enumerate() {
            plan.base.rooms.push(Room {
                id: format!("room-{index}").into(),
                name: format!("Room {index}"),
                usage: RoomUse::Storage,
                at: on_grid(cell.clearest(|wall| self.half(wall)).0),
            });
        }
        for (index, doorway) in self.doorways.iter().enumerate() {
            doorway.draw(index, &mut plan);
        }
        plan.base.fixtures = self.things.iter().enumerate().map(|(index, thing)| thing.fixture(index)).collect();
        plan
    }
}

/// A column of a size in a cell, if all of it lies inside.
fn placed(cell: &Cell, at: [i64; 2], size: [i64; 2]) -> Option<[Place; 2]> {
    let [low, high] = cell.bounds();
    #[expect(clippy::cast_precision_loss, reason = "small whole numbers")]
    let [x, y] = at.map(|share| share as f64 / 100.0);
    #[expect(clippy::cast_precision_loss, reason = "small whole numbers")]
    let [width, depth] = size.map(|eighths| eighths as f64 / 8.0);
    let from = Place::new(low.x + x * (high.x - low.x), low.y + y * (high.y - low.y));
    let to = Place::new(from.x + width, from.y + depth);
    let corners = [from, Place::new(to.x, from.y), to, Place::new(from.x, to.y)];
    let sides = corners.iter().zip(corners.iter().cycle().skip(1));
    let clear = sides.into_iter().all(|(a, b)| cell.is_clear([*a, *b]));
    (clear && corners.iter().all(|corner| cell.holds(*corner))).then_some([from, to])
}

#[expect(clippy::cast_precision_loss, reason = "exact in f64 below 2^53")]
pub(super) fn inches(length: Length) -> f64 {
    length.steps() as f64 / Length::INCH.steps() as f64
}

#[expect(clippy::cast_precision_loss, clippy::cast_possible_truncation, reason = "exact in f64 below 2^53")]
pub(super) fn on_grid(place: Place) -> Point {
    let nearest = |inches: f64| Length::from_steps((inches * Length::INCH.steps() as f64).round() as i64);
    Point::new(nearest(place.x), nearest(place.y))
}
