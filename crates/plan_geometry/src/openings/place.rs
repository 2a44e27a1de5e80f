//! Where openings stand in their walls, what they lead to on both sides, and what stands in them.

use std::collections::HashMap;

use plan_model::elements::{Column, Door, Room, Wall};
use plan_model::{Id, Length, Point};

use crate::kernel::{Bounds, Whereabouts, along, offset, project, rectangle};
use crate::region::{cross, sides_of};
use crate::rooms::NamedFloor;
use crate::walls::WallSolid;
use crate::{OFF_AXIS_SLACK, Problem, ProblemKind, Region};

/// One side of an opening.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Side {
    /// The room on this side, if there is one that closed.
    pub room: Option<Id>,
    /// Whether this side lies outside the house.
    pub is_outdoors: bool,
    /// The opening's line on the face of this side, jamb to jamb.
    pub line: [Point; 2],
}

/// What lies on the two sides of a wall: the outer boundary and the named floors within.
pub(crate) struct House<'a> {
    footprint: &'a [Region],
    floors: &'a [NamedFloor],
    whereabouts: Whereabouts,
}

impl<'a> House<'a> {
    pub(crate) fn of(footprint: &'a [Region], floors: &'a [NamedFloor]) -> Self {
        let whereabouts = Whereabouts::of(floors.iter().map(|floor| Bounds::around(&floor.region.outer)));
        Self { footprint, floors, whereabouts }
    }

    fn floor_at(&self, place: Point) -> Option<&'a NamedFloor> {
        let near = self.whereabouts.touching(Bounds::around(&[place])).into_iter().map(|index| &self.floors[index]);
        { near }.find(|floor| floor.region.contains_inside(place))
    }
}

/// The walls of a home, found by name and by where they are.
pub(super) struct Walls<'a> {
    drawn: &'a [Wall],
    solids: &'a [WallSolid],
    by_name: HashMap<&'a Id, usize>,
    whereabouts: Whereabouts,
}

impl<'a> Walls<'a> {
    pub(super) fn of(drawn: &'a [Wall], solids: &'a [WallSolid]) -> Self {
        let by_name = drawn.iter().enumerate().map(|(index, wall)| (&wall.id, index)).collect();
        let whereabouts = Whereabouts::of(solids.iter().map(|wall| Bounds::around(&wall.outline)));
        Self { drawn, solids, by_name, whereabouts }
    }

    /// Walls whose bounds touch a box, in the order of the home's list.
    pub(super) fn near(&self, bounds: Bounds) -> impl Iterator<Item = &'a WallSolid> + use<'a> {
        let solids = self.solids;
        self.whereabouts.touching(bounds).into_iter().map(move |index| &solids[index])
    }

    /// The wall of an opening.
    pub(super) fn host(&self, opening: &Id, wall: &Id, problems: &mut Vec<Problem>) -> Option<Host<'a>> {
        let Some(&index) = self.by_name.get(wall) else {
            let kind = ProblemKind::NoHost { opening: opening.clone(), wall: wall.clone() };
            problems.push(Problem::at(kind, Point::default()));
            return None;
        };
        Some(Host { wall: &self.drawn[index], solid: &self.solids[index] })
    }
}

/// The stretches of walls that openings take.
#[derive(Default)]
pub(super) struct AllTaken<'a> {
    list: Vec<Taken<'a>>,
    /// Indices, by wall.
    on_wall: HashMap<usize, Vec<usize>>,
}

/// A stretch of a wall that an opening takes, and who takes it.
pub(super) struct Taken<'a> {
    opening: &'a Id,
    from: Length,
    to: Length,
    outline: [Point; 4],
    hosts: [Option<&'a str>; 2],
}

/// The wall of an opening.
pub(super) struct Host<'a> {
    pub(super) wall: &'a Wall,
    solid: &'a WallSolid,
}

impl<'a> Host<'a> {
    /// The stretch from `at` over `width`, unless it leaves the wall or meets another opening.
    pub(super) fn cut(
        &self,
        opening: &'a Id,
        at: Length,
        width: Length,
        taken: &mut AllTaken<'a>,
        problems: &mut Vec<Problem>,
    ) -> Option<Cut> {
        let length = project(self.wall.from, self.wall.to, self.wall.to).0;
        let place = |along_wall: Length| along(self.wall.from, self.wall.to, along_wall);
        if at < Length::ZERO || at + width > length + OFF_AXIS_SLACK {
            let kind = ProblemKind::OpeningLeavesWall { opening: opening.clone(), wall: self.wall.id.clone() };
            problems.push(Problem::at(kind, place(at)));
            return None;
        }
        let faces = self.solid.faces;
        let on = |face: [Point; 2]| [along(face[0], face[1], at), along(face[0], face[1], at + width)];
        let cut = Cut { left: on(faces.left), right: on(faces.right) };
        taken.take(problems, opening, self.solid.index, [at, at + width], &cut, [Some(self.wall.id.as_str()), None]);
        Some(cut)
    }
}

impl<'a> AllTaken<'a> {
    fn take(
        &mut self,
        problems: &mut Vec<Problem>,
        opening: &'a Id,
        wall: usize,
        [from, to]: [Length; 2],
        cut: &Cut,
        hosts: [Option<&'a str>; 2],
    ) {
        let on_wall = self.on_wall.entry(wall).or_default();
        let mut others = on_wall.iter().map(|index| &self.list[*index]);
        if let Some(other) = others.find(|other| other.from < to && from < other.to) {
            let kind = ProblemKind::OpeningsOverlap { first: other.opening.clone(), second: opening.clone() };
            problems.push(Problem::shared(kind, &other.outline, &cut.outline()));
        }
        on_wall.push(self.list.len());
        self.list.push(Taken { opening, from, to, outline: cut.outline(), hosts });
    }
}

/// The part of a wall that an opening takes: its lines on both faces, walking with the host wall.
#[derive(Clone, Copy)]
pub(super) struct Cut {
    left: [Point; 2],
    right: [Point; 2],
}

impl Cut {
    pub(super) fn outline(&self) -> [Point; 4] {
        [self.right[0], self.right[1], self.left[1], self.left[0]]
    }

    /// What the opening leads to on both sides; a wall right before it is a conflict.
    pub(super) fn sides(
        &self,
        opening: &Id,
        rooms: &[Room],
        walls: &Walls<'_>,
        house: &House<'_>,
        problems: &mut Vec<Problem>,
    ) -> [Side; 2] {
        [(self.left, BESIDE), (self.right, -BESIDE)].map(|(line, left)| {
            let beside = offset(crate::rooms::middle(line[0], line[1]), line[0], line[1], left);
            if let Some(floor) = house.floor_at(beside) {
                return Side { room: Some(rooms[floor.room].id.clone()), is_outdoors: false, line };
            }
            let is_outdoors = !house.footprint.iter().any(|outside| outside.contains(beside));
            let mut near = walls.near(Bounds::around(&[beside]));
            let wall = near.find(|wall| sides_of(&wall.outline).all(|(a, b)| cross(a, b, beside) >= 0));
            if let Some(wall) = wall.filter(|_| !is_outdoors) {
                let kind = ProblemKind::OpensIntoWall { opening: opening.clone(), wall: wall.id.clone() };
                problems.push(Problem::at(kind, beside));
            }
            Side { room: None, is_outdoors, line }
        })
    }
}

/// How far beside a face the room on that side is looked for: more than rounding, less than any room.
const BESIDE: Length = Length::from_steps(Length::INCH.steps() / 8);

/// Carries an opening on through the other wall of a doubled mate wall.
pub(super) fn through_other<'a>(
    walls: &Walls<'a>,
    door: &'a Door,
    through: &'a Id,
    cut: Cut,
    taken: &mut AllTaken<'a>,
    problems: &mut Vec<Problem>,
) -> Cut {
    let hosts = [Some(door.wall.as_str()), Some(through.as_str())];
    if let Some(own) = taken.list.last_mut().filter(|own| own.opening == &door.id) {
        own.hosts = hosts;
    }
    let Some(other) = walls.host(&door.id, through, problems) else { return cut };
    let faces = other.solid.faces;
    let aside = |point: Point| project(cut.left[0], cut.left[1], point).1;
    // Facing the same way as the host, its left face is the one further left.
    let (near, far) = if aside(faces.left[0]) > aside(faces.right[0]) {
        (faces.right, faces.left)
    } else {
        (faces.left, faces.right)
    };
    let thickness = project(cut.right[0], cut.right[1], cut.left[0]).1;
    let against_left = near.iter().all(|end| aside(*end).abs() <= OFF_AXIS_SLACK);
    let against_right = far.iter().all(|end| (aside(*end) + thickness).abs() <= OFF_AXIS_SLACK);
    let [start, end] = cut.left.map(|point| project(other.wall.from, other.wall.to, point).0);
    let [start, end] = [start.min(end), start.max(end)];
    let length = project(other.wall.from, other.wall.to, other.wall.to).0;
    let stands = start >= -OFF_AXIS_SLACK && end <= length + OFF_AXIS_SLACK;
    if !stands || !(against_left || against_right) {
        let kind = ProblemKind::NotThrough { opening: door.id.clone(), wall: through.clone() };
        problems.push(Problem::at(kind, cut.left[0]));
        return cut;
    }
    let beyond = |line: [Point; 2], by: Length| line.map(|point| offset(point, cut.left[0], cut.left[1], by));
    let both = if against_left {
        Cut { left: beyond(cut.left, aside(far[0])), right: cut.right }
    } else {
        Cut { left: cut.left, right: beyond(cut.left, aside(near[0])) }
    };
    let beyond_own = if against_left {
        Cut { left: both.left, right: cut.left }
    } else {
        Cut { left: cut.right, right: both.right }
    };
    taken.take(problems, &door.id, other.solid.index, [start, end], &beyond_own, hosts);
    both
}

/// The part of a wall that an opening takes, and a little of the floor before it on both sides.
pub(super) fn with_ground_before(&[a, b, c, d]: &[Point; 4]) -> [Point; 4] {
    [offset(a, a, b, -BESIDE), offset(b, a, b, -BESIDE), offset(c, a, b, BESIDE), offset(d, a, b, BESIDE)]
}

/// A column must not stand in an opening, nor right before it.
pub(super) fn columns_at_openings(columns: &[Column], taken: &AllTaken<'_>, problems: &mut Vec<Problem>) {
    if columns.is_empty() {
        return;
    }
    let before: Vec<[Point; 4]> = taken.list.iter().map(|opening| with_ground_before(&opening.outline)).collect();
    let whereabouts = Whereabouts::of(before.iter().map(|ground| Bounds::around(ground)));
    for column in columns {
        let solid = rectangle(column.from, column.to);
        for index in whereabouts.touching(Bounds::around(&solid)) {
            let (opening, before) = (taken.list[index].opening, &before[index]);
            if crate::conflict::convex_overlap(before, &solid) {
                let kind = ProblemKind::ColumnAtOpening { column: column.id.clone(), opening: opening.clone() };
                problems.push(Problem::shared(kind, before, &solid));
            }
        }
    }
}

/// A wall that is no host of an opening must not stand in it, nor end on the host where the opening is: it is taken up to
/// where it was drawn into the walls that it meets.
pub(super) fn walls_in_openings(walls: &Walls<'_>, taken: &AllTaken<'_>, problems: &mut Vec<Problem>) {
    for opening in &taken.list {
        let near = walls.near(Bounds::around(&opening.outline));
        for wall in near.filter(|wall| !opening.hosts.contains(&Some(wall.id.as_str()))) {
            if crate::conflict::convex_overlap(&opening.outline, &wall.outline) {
                let kind = ProblemKind::WallInOpening { wall: wall.id.clone(), opening: opening.opening.clone() };
                problems.push(Problem::shared(kind, &opening.outline, &wall.outline));
            }
        }
    }
}
