//! Moving a wall square to itself, with everything that is attached to it.

mod anchors;
mod band;
mod follow;
mod there_and_back;

use std::sync::Arc;

use plan_model::elements::{ColumnKind, Wall};
use plan_model::{Elements, Id, Length, Plan, Point};

use crate::standing::{Standing, lists_beside_mut};
use crate::{Document, Refused};
use band::Band;
use follow::Stretch;

/// The plan after the wall moved; the very same plan if it moves by zero.
pub(crate) fn move_wall(document: &Document, id: &Id, by: Length) -> Result<Arc<Plan>, Refused> {
    let standing = Standing::in_home(document);
    let wall = standing.wall(id).ok_or_else(|| Refused::NoSuchWall { wall: id.clone() })?;
    if !wall.movable {
        return Err(Refused::NotMovable { wall: id.clone() });
    }
    if by == Length::ZERO {
        return Ok(Arc::clone(&document.plan));
    }
    let moved = Move::new(&standing, wall, by)?.carry_out(document)?;
    let plan = Arc::new(moved.plan);
    if !moved.off_axis.is_empty() {
        there_and_back::check(document, &plan, id, by, &moved.off_axis)?;
    }
    Ok(plan)
}

/// One wall on its way.
struct Move<'doc> {
    standing: &'doc Standing<'doc>,
    wall: &'doc Wall,
    /// Where it stood.
    band: Band,
    /// How far it goes to its left, in grid steps.
    by: i64,
    /// The same on the drawing: rounded to the grid off the axes.
    shift: Point,
}

/// A plan after a move.
struct Moved {
    plan: Plan,
    /// Walls and open boundaries that were rounded to the grid on the way, the moved one included.
    off_axis: Vec<Id>,
}

impl<'doc> Move<'doc> {
    fn new(standing: &'doc Standing<'doc>, wall: &'doc Wall, by: Length) -> Result<Self, Refused> {
        if by.abs() > Length::LARGEST * 2 {
            return Err(Refused::TooFar { wall: wall.id.clone() });
        }
        let band = Band::of(wall);
        let shift = band.line.aside(by.steps());
        Ok(Self { standing, wall, band, by: by.steps(), shift })
    }

    fn carry_out(&self, document: &Document) -> Result<Moved, Refused> {
        let own = self.own_stretch()?;
        let mut moved = Moved { plan: Plan::clone(&document.plan), off_axis: Vec::new() };
        let mut stretched = Vec::new();
        for elements in lists_beside_mut(&mut moved.plan, &self.wall.id) {
            self.carry_walls(elements, &own, &mut stretched)?;
            self.carry_boundaries(elements, &mut moved.off_axis)?;
            self.carry_things(elements)?;
            self.push_anchors(elements, &own);
        }
        for (id, stretch) in &stretched {
            self.hold_openings(&mut moved.plan, id, stretch.openings_by)?;
        }
        let rounded = stretched.into_iter().filter(|(_, stretch)| !stretch.is_exact).map(|(id, _)| id);
        moved.off_axis.extend(rounded);
        Ok(moved)
    }

    /// The wall itself, and the walls that end on it.
    fn carry_walls(
        &self,
        elements: &mut Elements,
        own: &Stretch,
        stretched: &mut Vec<(Id, Stretch)>,
    ) -> Result<(), Refused> {
        for wall in &mut elements.walls {
            let stretch = if wall.id == self.wall.id { Some(*own) } else { self.stretch_wall(wall)? };
            if let Some(stretch) = stretch {
                [wall.from, wall.to] = stretch.ends;
                stretched.push((wall.id.clone(), stretch));
            }
        }
        Ok(())
    }

    /// Open boundaries that end on the wall.
    fn carry_boundaries(&self, elements: &mut Elements, off_axis: &mut Vec<Id>) -> Result<(), Refused> {
        for boundary in &mut elements.open_boundaries {
            if let Some(stretch) = self.stretch_boundary(boundary)? {
                [boundary.from, boundary.to] = stretch.ends;
                if !stretch.is_exact {
                    off_axis.push(boundary.id.clone());
                }
            }
        }
        Ok(())
    }

    /// What stands against the wall. Posts stay: they carry the house, wherever a partition goes.
    fn carry_things(&self, elements: &mut Elements) -> Result<(), Refused> {
        for fixture in &mut elements.fixtures {
            if self.band.backs(fixture.at, fixture.faces, fixture.width) {
                fixture.at = self.within_reach(fixture.at + self.shift)?;
            }
        }
        for piece in &mut elements.furniture {
            if self.band.backs(piece.at, piece.faces, piece.width) {
                piece.at = self.within_reach(piece.at + self.shift)?;
            }
        }
        for column in elements.columns.iter_mut().filter(|column| column.kind == ColumnKind::Chase) {
            if self.band.has_beside(column.from, column.to) {
                column.from = self.within_reach(column.from + self.shift)?;
                column.to = self.within_reach(column.to + self.shift)?;
            }
        }
        Ok(())
    }

    /// Corrects the openings of a wall whose start moved along it, so that they keep their place on the drawing.
    /// Openings of alternates that are not chosen hang in the same wall: they too stay where they were drawn.
    fn hold_openings(&self, plan: &mut Plan, wall: &Id, by: Length) -> Result<(), Refused> {
        if by == Length::ZERO {
            return Ok(());
        }
        for elements in plan.all_elements_mut() {
            let doors = elements.doors.iter_mut().map(|door| (&door.wall, &mut door.at));
            let windows = elements.windows.iter_mut().map(|window| (&window.wall, &mut window.at));
            for (_, at) in doors.chain(windows).filter(|(host, _)| *host == wall) {
                *at += by;
                if at.abs() > Length::LARGEST {
                    return Err(self.too_far());
                }
            }
        }
        Ok(())
    }

    /// The point, unless it lies farther out than a plan may hold.
    fn within_reach(&self, point: Point) -> Result<Point, Refused> {
        let fits = point.x.abs() <= Length::LARGEST && point.y.abs() <= Length::LARGEST;
        if fits { Ok(point) } else { Err(self.too_far()) }
    }

    fn too_far(&self) -> Refused {
        Refused::TooFar { wall: self.wall.id.clone() }
    }
}
