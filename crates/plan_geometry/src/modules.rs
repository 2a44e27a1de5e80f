//! Factory-built halves and the line where they join.
//!
//! Modules are rectangles square to the axes; the mate line may run at any angle. What is told here: the sizes of each
//! module's body and of what goes on the road ([`ModuleFigures`]), what has ground on both sides of the mate line
//! ([`Straddler`]), the openings through it ([`MateOpening`]), and the plumbing that stands together ([`PlumbingGroup`]).

mod mate_frame;
mod mate_openings;
mod plumbing;
mod sizes;
mod straddling;
mod told;

use plan_model::{Home, Point};

use crate::asked::Asked;
use crate::heated::ModuleOutline;
use crate::kernel::rectangle;
use crate::openings::Openings;
use crate::walls::WallSolid;
use crate::{Derived, Region};

pub use mate_openings::{ClearSpan, MateOpening, MateOpeningKind};
pub use plumbing::PlumbingGroup;
pub use sizes::{BodySize, ModuleFigures, Overhang, OverhangOf};
pub use straddling::{Straddler, StraddlerKind, StraddlerSide};
pub(crate) use told::measures;

/// The questions about a home's modules.
#[derive(Clone, Debug)]
pub(crate) struct Modules {
    sizes: Asked<sizes::Sizes>,
    straddling: Option<Asked<straddling::Straddling>>,
    openings: Option<Asked<mate_openings::ThroughMateLine>>,
    plumbing: Asked<plumbing::Plumbing>,
}

impl Modules {
    /// The questions of a home, with the answers that an earlier derivation gave.
    pub(crate) fn of(
        home: &Home<'_>,
        walls: &[WallSolid],
        footprint: &[Region],
        openings: &Openings,
        earlier: Option<&Self>,
    ) -> Self {
        let modules = outlines(home);
        let line = home.plan.mate_line;
        let straddling = line.map(|line| straddling::Straddling::of(home, walls, openings, line, &modules));
        let through = line.map(|line| mate_openings::ThroughMateLine::of(home, walls, footprint, openings, line));
        let plumbing = plumbing::Plumbing::of(&home.elements, walls, &modules);
        let sizes = sizes::Sizes::of(home, walls, modules);
        Self {
            sizes: Asked::after(earlier.map(|earlier| &earlier.sizes), sizes),
            straddling: straddling
                .map(|asked| Asked::after(earlier.and_then(|earlier| earlier.straddling.as_ref()), asked)),
            openings: through.map(|asked| Asked::after(earlier.and_then(|earlier| earlier.openings.as_ref()), asked)),
            plumbing: Asked::after(earlier.map(|earlier| &earlier.plumbing), plumbing),
        }
    }
}

/// The outlines of a home's modules, in the order of the file.
pub(crate) fn outlines(home: &Home<'_>) -> Vec<ModuleOutline> {
    let modules = home.plan.modules.iter();
    modules.map(|module| ModuleOutline { id: module.id.clone(), corners: rectangle(module.from, module.to) }).collect()
}

/// The middle of a shape with four corners, twice as far from the origin so that it lies on the grid.
fn doubled_middle(corners: &[Point; 4]) -> Point {
    corners[0] + corners[2]
}

impl Derived {
    /// Sizes of each module, in the order of the file.
    #[must_use]
    pub fn modules(&self) -> &[ModuleFigures] {
        self.modules.sizes.get()
    }

    /// What has ground on both sides of the mate line.
    #[must_use]
    pub fn straddlers(&self) -> &[Straddler] {
        self.modules.straddling.as_ref().map(|asked| asked.get().as_slice()).unwrap_or_default()
    }

    /// The openings through the mate line: those between its walls along the line, then doors.
    #[must_use]
    pub fn mate_openings(&self) -> &[MateOpening] {
        self.modules.openings.as_ref().map(|asked| asked.get().as_slice()).unwrap_or_default()
    }

    /// Plumbing that stands together, by module.
    #[must_use]
    pub fn plumbing_groups(&self) -> &[PlumbingGroup] {
        self.modules.plumbing.get()
    }
}
