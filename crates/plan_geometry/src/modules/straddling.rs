//! What has ground on both sides of the mate line, and so cannot be built whole in one module.

use std::collections::HashSet;

use plan_model::elements::{ColumnKind, FixtureKind, WallKind};
use plan_model::{Home, Id, Length, MateLine, Point};

use super::mate_frame::{MateFrame, between, reach};
use crate::asked::Question;
use crate::conflict::{convex_overlap, fixture_outline};
use crate::heated::ModuleOutline;
use crate::kernel::rectangle;
use crate::openings::Openings;
use crate::region::{cross, sides_of, twice_area};
use crate::walls::WallSolid;
use crate::{Area, OFF_AXIS_SLACK};

/// Something that has ground on both sides of the mate line.
///
/// Looked at are fixtures and cabinets, columns and chases, partitions, windows, doors that are not in a mate wall, soffits
/// and porches built in the factory. Mate walls themselves and doors in them are not, nor are outside walls: an end wall may
/// be drawn as one across both modules. Ground no wider than what faces off the axes may be off by does not count.
///
/// Source: common practice, no source.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Straddler {
    /// The element.
    pub id: Id,
    /// What it is.
    pub kind: StraddlerKind,
    /// What of it lies to the left of the mate line, walking from its `from` to its `to`, then to the right.
    pub sides: [StraddlerSide; 2],
}

/// What kind of element straddles the mate line.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum StraddlerKind {
    /// A fixture, appliance or cabinet.
    Fixture(FixtureKind),
    /// A column.
    Column,
    /// A boxed-in run of pipes or ducts.
    Chase,
    /// A wall inside the house that is no mate wall.
    Partition,
    /// A window.
    Window,
    /// A door or cased opening in a wall that is no mate wall.
    Door,
    /// A lowered part of a ceiling.
    Soffit,
    /// A porch built in the factory.
    Porch,
}

impl StraddlerKind {
    /// The word for it, as people say it.
    #[must_use]
    pub const fn word(self) -> &'static str {
        match self {
            Self::Fixture(kind) => kind.word(),
            Self::Column => "column",
            Self::Chase => "chase",
            Self::Partition => "partition",
            Self::Window => "window",
            Self::Door => "door",
            Self::Soffit => "soffit",
            Self::Porch => "porch",
        }
    }
}

/// The ground of an element on one side of the mate line.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct StraddlerSide {
    /// The module that it lies in, if it shares ground with one.
    pub module: Option<Id>,
    /// Its corners, counter-clockwise.
    pub ground: Vec<Point>,
    /// Its area.
    pub area: Area,
}

/// The mate line, and what has corners on both sides of it.
#[derive(Debug, PartialEq)]
pub(super) struct Straddling {
    line: MateLine,
    modules: Vec<ModuleOutline>,
    crossing: Vec<(Id, StraddlerKind, [Point; 4])>,
}

impl Straddling {
    pub(super) fn of(
        home: &Home<'_>,
        walls: &[WallSolid],
        openings: &Openings,
        line: MateLine,
        modules: &[ModuleOutline],
    ) -> Self {
        let elements = &home.elements;
        let mut crossing = Vec::new();
        let mut look = |id: &Id, kind: StraddlerKind, outline: [Point; 4]| {
            let side = |corner: &Point| cross(line.from, line.to, *corner);
            if outline.iter().any(|corner| side(corner) > 0) && outline.iter().any(|corner| side(corner) < 0) {
                crossing.push((id.clone(), kind, outline));
            }
        };
        let is_kind = |index: usize, kind: WallKind| elements.walls[index].kind == kind;
        for fixture in &elements.fixtures {
            look(&fixture.id, StraddlerKind::Fixture(fixture.kind), fixture_outline(fixture));
        }
        for column in &elements.columns {
            let kind = match column.kind {
                ColumnKind::Column => StraddlerKind::Column,
                ColumnKind::Chase => StraddlerKind::Chase,
            };
            look(&column.id, kind, rectangle(column.from, column.to));
        }
        for wall in walls.iter().filter(|wall| is_kind(wall.index, WallKind::Partition)) {
            look(&wall.id, StraddlerKind::Partition, wall.faces.outline());
        }
        for window in &openings.windows {
            look(&window.id, StraddlerKind::Window, window.outline);
        }
        let in_mate_wall = hang_in_mate_walls(home);
        for door in openings.doors.iter().filter(|door| !in_mate_wall[door.index]) {
            look(&door.id, StraddlerKind::Door, door.outline);
        }
        for soffit in &elements.soffits {
            look(&soffit.id, StraddlerKind::Soffit, rectangle(soffit.from, soffit.to));
        }
        for porch in elements.porches.iter().filter(|porch| !porch.site_built) {
            look(&porch.id, StraddlerKind::Porch, rectangle(porch.from, porch.to));
        }
        // Where nothing straddles, the modules do not matter.
        let modules = if crossing.is_empty() { Vec::new() } else { modules.to_vec() };
        Self { line, modules, crossing }
    }

    fn sides(&self, outline: &[Point; 4]) -> Option<[StraddlerSide; 2]> {
        let frame = MateFrame(self.line);
        let seen = frame.shape(outline);
        let is_square = sides_of(outline).all(|(a, b)| a.x == b.x || a.y == b.y);
        let slack = if is_square { frame.slack() } else { OFF_AXIS_SLACK };
        let low = seen.iter().map(|corner| corner.y).min()?;
        let high = seen.iter().map(|corner| corner.y).max()?;
        let [start, end] = reach(&between(&seen, Length::ZERO, Length::ZERO))?;
        let meets_line = start.max(Length::ZERO) + slack < end.min(frame.length());
        if !meets_line || low >= -slack || high <= slack {
            return None;
        }
        let side = |low: Length, high: Length| {
            let ground: Vec<Point> = between(&seen, low, high).into_iter().map(|corner| frame.place(corner)).collect();
            let module = self.modules.iter().find(|module| convex_overlap(&module.corners, &ground));
            StraddlerSide {
                module: module.map(|module| module.id.clone()),
                area: Area::from_square_steps(twice_area(&ground).abs() / 2),
                ground,
            }
        };
        Some([side(Length::ZERO, high), side(low, Length::ZERO)])
    }
}

/// Which of a home's doors, by index, hang in a mate wall.
pub(super) fn hang_in_mate_walls(home: &Home<'_>) -> Vec<bool> {
    let elements = &home.elements;
    let mate: HashSet<&Id> =
        elements.walls.iter().filter(|wall| wall.kind == WallKind::Mate).map(|wall| &wall.id).collect();
    elements.doors.iter().map(|door| mate.contains(&door.wall)).collect()
}

impl Question for Straddling {
    type Answer = Vec<Straddler>;

    fn answer(&self) -> Vec<Straddler> {
        let straddler = |(id, kind, outline): &(Id, StraddlerKind, [Point; 4])| {
            Some(Straddler { id: id.clone(), kind: *kind, sides: self.sides(outline)? })
        };
        self.crossing.iter().filter_map(straddler).collect()
    }
}
