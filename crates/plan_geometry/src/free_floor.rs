//! The floor of a space that nothing stands on.

use std::sync::Arc;

use plan_model::elements::Elements;
use plan_model::{Id, Point};

use crate::asked::Question;
use crate::conflict::fixture_outline;
use crate::kernel::{Bounds, Whereabouts, difference};
use crate::rooms::middle;
use crate::{Region, Space};

/// A fixture, appliance or cabinet that stands on the floor of a space.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Obstruction {
    /// The fixture.
    pub id: Id,
    /// Its corners, counter-clockwise from the back left as seen from its front.
    pub outline: [Point; 4],
}

/// Everything that stands on the floor of a home, found by where it is.
pub(crate) struct Standing {
    list: Vec<Obstruction>,
    whereabouts: Whereabouts,
}

impl Standing {
    pub(crate) fn of(elements: &Elements) -> Self {
        let standing = elements.fixtures.iter().filter(|fixture| fixture.kind.is_obstruction());
        let list: Vec<Obstruction> =
            standing.map(|fixture| Obstruction { id: fixture.id.clone(), outline: fixture_outline(fixture) }).collect();
        Self { whereabouts: Whereabouts::of(list.iter().map(|one| Bounds::around(&[one.middle()]))), list }
    }

    /// What stands on one floor: everything whose middle is over it.
    pub(crate) fn on(&self, region: &Region) -> Vec<Obstruction> {
        let near = self.whereabouts.touching(Bounds::around(&region.outer)).into_iter();
        near.map(|index| &self.list[index]).filter(|one| region.contains(one.middle())).cloned().collect()
    }
}

impl Obstruction {
    pub(crate) fn middle(&self) -> Point {
        middle(self.outline[0], self.outline[2])
    }
}

/// What of the things in a space stands over one room's part of it.
pub(crate) fn over(region: &Region, obstructions: &[Obstruction]) -> Vec<Obstruction> {
    let bounds = Bounds::around(&region.outer);
    let standing = obstructions.iter().filter(|standing| bounds.touches(Bounds::around(&standing.outline)));
    standing.cloned().collect()
}

/// Which parts of a floor nothing stands on.
#[derive(Debug, PartialEq, Eq)]
pub(crate) struct FreeFloor {
    pub(crate) region: Arc<Region>,
    pub(crate) obstructions: Vec<Obstruction>,
}

impl Question for FreeFloor {
    type Answer = Vec<Region>;

    fn answer(&self) -> Vec<Region> {
        if self.obstructions.is_empty() {
            return vec![(*self.region).clone()];
        }
        difference(&self.region, self.obstructions.iter().map(|obstruction| obstruction.outline.as_slice()))
    }
}

impl Space {
    /// What stands on its floor. Doors count as closed, and furniture does not stand in the way.
    #[must_use]
    pub fn obstructions(&self) -> &[Obstruction] {
        &self.free_floor.question().obstructions
    }

    /// The parts of its floor that nothing stands on; worked out when they are first asked for.
    #[must_use]
    pub fn free_floor(&self) -> &[Region] {
        self.free_floor.get()
    }
}
