//! Conflicts in space: what stands where something else stands.

use plan_model::elements::{Elements, Fixture};
use plan_model::{Facing, Id, Length, Point};

use crate::kernel::{Bounds, Whereabouts, along, offset, rectangle};
use crate::region::{cross, sides_of};
use crate::walls::WallSolid;
use crate::{Problem, ProblemKind};

/// Something that takes up floor.
pub(crate) struct Solid<'a> {
    pub(crate) id: &'a Id,
    pub(crate) outline: [Point; 4],
    bounds: Bounds,
    is_wall: bool,
}

impl Solid<'_> {
    /// Whether a convex shape within these bounds shares ground with it.
    pub(crate) fn overlaps(&self, outline: &[Point], within: Bounds) -> bool {
        self.bounds.touches(within) && convex_overlap(&self.outline, outline)
    }
}

/// The corners of a fixture, counter-clockwise from the back left as seen from its front.
#[must_use]
pub fn outline(at: Point, faces: Facing, width: Length, depth: Length) -> [Point; 4] {
    let (dx, dy) = faces.direction();
    let ahead = at + Point::inches(dx.into(), dy.into());
    let half = Length::from_steps(width.steps() / 2);
    let corner = |forward: Length, left: Length| offset(along(at, ahead, forward), at, ahead, left);
    [corner(Length::ZERO, half - width), corner(depth, half - width), corner(depth, half), corner(Length::ZERO, half)]
}

pub(crate) fn fixture_outline(fixture: &Fixture) -> [Point; 4] {
    outline(fixture.at, fixture.faces, fixture.width, fixture.depth)
}

/// Walls, columns and fixtures that stand in the way, in this order.
pub(crate) struct Solids<'a> {
    pub(crate) list: Vec<Solid<'a>>,
    whereabouts: Whereabouts,
}

impl<'a> Solids<'a> {
    pub(crate) fn of(elements: &'a Elements, walls: &'a [WallSolid]) -> Self {
        let solid = |id: &'a Id, outline: [Point; 4], is_wall: bool| Solid {
            id,
            outline,
            bounds: Bounds::around(&outline),
            is_wall,
        };
        let fixtures = elements.fixtures.iter().filter(|fixture| fixture.kind.is_obstruction());
        let list: Vec<Solid<'a>> = walls
            .iter()
            .map(|wall| solid(&wall.id, wall.faces.outline(), true))
            .chain(elements.columns.iter().map(|column| solid(&column.id, rectangle(column.from, column.to), false)))
            .chain(fixtures.map(|fixture| solid(&fixture.id, fixture_outline(fixture), false)))
            .collect();
        Self { whereabouts: Whereabouts::of(list.iter().map(|solid| solid.bounds)), list }
    }

    /// Fixtures and columns that share floor with a wall or with each other. A joint of walls is none, and a column may
    /// stand in a wall.
    pub(crate) fn conflicts(&self, elements: &Elements, problems: &mut Vec<Problem>) {
        let is_column = |id: &Id| elements.columns.iter().any(|column| column.id == *id);
        for (index, second) in self.list.iter().enumerate().filter(|(_, solid)| !solid.is_wall) {
            let earlier = self.whereabouts.touching(second.bounds).into_iter().take_while(|first| *first < index);
            for first in earlier.map(|first| &self.list[first]) {
                if !convex_overlap(&first.outline, &second.outline) || (first.is_wall && is_column(second.id)) {
                    continue;
                }
                let kind = if first.is_wall {
                    ProblemKind::InWall { thing: second.id.clone(), wall: first.id.clone() }
                } else {
                    ProblemKind::Overlap { first: first.id.clone(), second: second.id.clone() }
                };
                problems.push(Problem::shared(kind, &first.outline, &second.outline));
            }
        }
    }
}

/// Whether two convex shapes, both counter-clockwise, share ground of some width.
///
/// Off the axes, faces stand within a step of true, and things that touch may seem to overlap by as much: such ground
/// is no wider than the slack and does not count.
pub(crate) fn convex_overlap(a: &[Point], b: &[Point]) -> bool {
    !separates(a, b) && !separates(b, a)
}

/// Whether one side of `a` has all of `b` on its outer side.
fn separates(a: &[Point], b: &[Point]) -> bool {
    sides_of(a).any(|(p, q)| {
        let slack = if p.x == q.x || p.y == q.y {
            0
        } else {
            let length = crate::kernel::project(p, q, q).0;
            i128::from(length.steps()) * i128::from(crate::OFF_AXIS_SLACK.steps())
        };
        b.iter().all(|corner| cross(p, q, *corner) <= slack)
    })
}
