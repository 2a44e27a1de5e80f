//! Where openings stand in their walls, what they lead to on both sides, and what stands in them.

use plan_model::elements::{Door, Elements, Wall};
use plan_model::{Id, Length, Point};

use crate::kernel::{along, offset, project, rectangle};
use crate::region::{cross, sides_of};
use crate::rooms::NamedFloor;
use crate::walls::{Bounds, WallSolid};
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
    floors: Vec<(Bounds, &'a NamedFloor)>,
}

impl<'a> House<'a> {
    pub(crate) fn of(footprint: &'a [Region], floors: &'a [NamedFloor]) -> Self {
        let floors = floors.iter().map(|floor| (Bounds::around(&floor.region.outer), floor)).collect();
        Self { footprint, floors }
    }

    fn floor_at(&self, place: Point) -> Option<&'a NamedFloor> {
        let here = Bounds::around(&[place]);
        let near = self.floors.iter().filter(|(bounds, _)| bounds.touches(here)).map(|(_, floor)| *floor);
        { near }.find(|floor| floor.region.contains_inside(place))
    }
}

/// A stretch of a wall that an opening takes, and who takes it.
pub(super) struct Taken<'a> {
    opening: &'a Id,
    wall: usize,
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
    pub(super) fn find(
        elements: &'a Elements,
        walls: &'a [WallSolid],
        opening: &Id,
        wall: &Id,
        problems: &mut Vec<Problem>,
    ) -> Option<Self> {
        let Some(index) = elements.walls.iter().position(|candidate| candidate.id == *wall) else {
            let kind = ProblemKind::NoHost { opening: opening.clone(), wall: wall.clone() };
            problems.push(Problem::at(kind, Point::default()));
            return None;
        };
        Some(Self { wall: &elements.walls[index], solid: &walls[index] })
    }

    /// The stretch from `at` over `width`, unless it leaves the wall or meets another opening.
    pub(super) fn cut(
        &self,
        opening: &'a Id,
        at: Length,
        width: Length,
        taken: &mut Vec<Taken<'a>>,
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
        take(taken, problems, opening, self.solid.index, [at, at + width], &cut, [Some(self.wall.id.as_str()), None]);
        Some(cut)
    }
}

fn take<'a>(
    taken: &mut Vec<Taken<'a>>,
    problems: &mut Vec<Problem>,
    opening: &'a Id,
    wall: usize,
    [from, to]: [Length; 2],
    cut: &Cut,
    hosts: [Option<&'a str>; 2],
) {
    if let Some(other) = taken.iter().find(|other| other.wall == wall && other.from < to && from < other.to) {
        let kind = ProblemKind::OpeningsOverlap { first: other.opening.clone(), second: opening.clone() };
        problems.push(Problem::shared(kind, &other.outline, &cut.outline()));
    }
    taken.push(Taken { opening, wall, from, to, outline: cut.outline(), hosts });
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
        elements: &Elements,
        walls: &[WallSolid],
        house: &House<'_>,
        problems: &mut Vec<Problem>,
    ) -> [Side; 2] {
        [(self.left, BESIDE), (self.right, -BESIDE)].map(|(line, left)| {
            let beside = offset(crate::rooms::middle(line[0], line[1]), line[0], line[1], left);
            if let Some(floor) = house.floor_at(beside) {
                return Side { room: Some(elements.rooms[floor.room].id.clone()), is_outdoors: false, line };
            }
            let is_outdoors = !house.footprint.iter().any(|outside| outside.contains(beside));
            let wall = walls.iter().find(|wall| sides_of(&wall.outline).all(|(a, b)| cross(a, b, beside) >= 0));
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
    elements: &'a Elements,
    walls: &'a [WallSolid],
    door: &'a Door,
    through: &'a Id,
    cut: Cut,
    taken: &mut Vec<Taken<'a>>,
    problems: &mut Vec<Problem>,
) -> Cut {
    let hosts = [Some(door.wall.as_str()), Some(through.as_str())];
    if let Some(own) = taken.iter_mut().find(|own| own.opening == &door.id) {
        own.hosts = hosts;
    }
    let Some(other) = Host::find(elements, walls, &door.id, through, problems) else { return cut };
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
    take(taken, problems, &door.id, other.solid.index, [start, end], &beyond_own, hosts);
    both
}

/// The part of a wall that an opening takes, and a little of the floor before it on both sides.
pub(super) fn with_ground_before(&[a, b, c, d]: &[Point; 4]) -> [Point; 4] {
    [offset(a, a, b, -BESIDE), offset(b, a, b, -BESIDE), offset(c, a, b, BESIDE), offset(d, a, b, BESIDE)]
}

/// A column must not stand in an opening, nor right before it.
pub(super) fn columns_at_openings(elements: &Elements, taken: &[Taken<'_>], problems: &mut Vec<Problem>) {
    for column in &elements.columns {
        let solid = rectangle(column.from, column.to);
        for opening in taken {
            let before = with_ground_before(&opening.outline);
            if crate::conflict::convex_overlap(&before, &solid) {
                let kind = ProblemKind::ColumnAtOpening { column: column.id.clone(), opening: opening.opening.clone() };
                problems.push(Problem::shared(kind, &before, &solid));
            }
        }
    }
}

/// A wall that is no host of an opening must not stand in it, nor end on the host where the opening is: it is taken up to
/// where it was drawn into the walls that it meets.
pub(super) fn walls_in_openings(walls: &[WallSolid], taken: &[Taken<'_>], problems: &mut Vec<Problem>) {
    for opening in taken {
        let bounds = Bounds::around(&opening.outline);
        for wall in walls.iter().filter(|wall| !opening.hosts.contains(&Some(wall.id.as_str()))) {
            if bounds.touches(Bounds::around(&wall.outline))
                && crate::conflict::convex_overlap(&opening.outline, &wall.outline)
            {
                let kind = ProblemKind::WallInOpening { wall: wall.id.clone(), opening: opening.opening.clone() };
                problems.push(Problem::shared(kind, &opening.outline, &wall.outline));
            }
        }
    }
}
