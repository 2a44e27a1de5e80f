//! Free space at fixtures, appliances and beds.
//!
//! In the way stand walls, columns, and everything else that stands on the floor; doors count as closed, open boundaries
//! and furniture do not count. What hangs on a wall stands in no way.

mod ahead;
mod aisle;
mod appliance;
mod bed;
mod bowls_apart;
mod clearance;
mod closet;
mod lavatory;
mod shower;
mod standing;
mod sweep;
mod toilet;
mod tub;
mod work_triangle;

use std::collections::HashMap;
use std::sync::Arc;

use plan_model::elements::{Elements, Fixture, FixtureKind, Furniture, FurnitureKind, RoomUse};
use plan_model::{Id, Length, Point};

pub use aisle::{Walkway, WorkAisle};
pub use appliance::ApplianceSpace;
pub use bed::BedSpace;
pub use bowls_apart::BowlsApart;
pub use clearance::{Clearance, Met};
pub use closet::ClosetDepth;
pub use lavatory::LavatorySpace;
pub use shower::ShowerSpace;
pub use sweep::SweepAcross;
pub use toilet::ToiletSpace;
pub use tub::TubSpace;
pub use work_triangle::{TriangleLeg, WorkTriangle};

use crate::asked::{Asked, Question};
use crate::conflict::{fixture_outline, outline};
use crate::kernel::{Bounds, Whereabouts, project};
use crate::rooms::middle;
use crate::{Derived, DoorFigures, Measure, MeasureName, OFF_AXIS_SLACK, Region, RoomFigures, Space, WallSolid};
use standing::Standing;
use sweep::{Sweep, SweepsOf};

/// Free space at everything that stands in one open space.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct FixtureSpace {
    /// Toilets.
    pub toilets: Vec<ToiletSpace>,
    /// Bowls of vanities.
    pub lavatories: Vec<LavatorySpace>,
    /// Bowls of toilets and vanities that stand beside each other.
    pub bowls_apart: Vec<BowlsApart>,
    /// Tubs.
    pub tubs: Vec<TubSpace>,
    /// Showers.
    pub showers: Vec<ShowerSpace>,
    /// Appliances and equipment.
    pub appliances: Vec<ApplianceSpace>,
    /// Beds.
    pub beds: Vec<BedSpace>,
    /// Aisles of its kitchens.
    pub work_aisles: Vec<WorkAisle>,
    /// Walkways of its kitchens.
    pub walkways: Vec<Walkway>,
    /// Work triangles of its kitchens.
    pub work_triangles: Vec<WorkTriangle>,
}

impl FixtureSpace {
    /// The free floor before each front; a vanity has one for each bowl, a tub one of the width that is usual.
    fn fronts(&self) -> Vec<Front<'_>> {
        let front = |(fixture, free)| Front { fixture, bowl: None, free };
        let toilets = self.toilets.iter().map(|toilet| (&toilet.id, toilet.front.clone()));
        let tubs = self.tubs.iter().filter_map(|tub| Some((&tub.id, tub.front(tub::FREE_WIDTH)?)));
        let showers = self.showers.iter().filter_map(|shower| Some((&shower.id, shower.front.clone()?)));
        let appliances = self.appliances.iter().map(|appliance| (&appliance.id, appliance.front.clone()));
        let lavatories = self.lavatories.iter().map(|lavatory| Front {
            fixture: &lavatory.id,
            bowl: lavatory.number(),
            free: lavatory.front.clone(),
        });
        let others = tubs.chain(showers).chain(appliances).map(front);
        toilets.map(front).chain(lavatories).chain(others).collect()
    }

    fn measures(&self) -> Vec<Measure> {
        let mut measures = Vec::new();
        measures.extend(self.toilets.iter().flat_map(ToiletSpace::measures));
        measures.extend(self.lavatories.iter().flat_map(LavatorySpace::measures));
        measures.extend(self.bowls_apart.iter().map(BowlsApart::measure));
        measures.extend(self.tubs.iter().filter_map(TubSpace::measures));
        measures.extend(self.showers.iter().flat_map(ShowerSpace::measures));
        let front =
            |appliance: &ApplianceSpace| appliance.front.measure_of_strip(MeasureName::ApplianceFront, &appliance.id);
        measures.extend(self.appliances.iter().map(front));
        measures.extend(self.beds.iter().flat_map(BedSpace::measures));
        measures.extend(self.work_aisles.iter().map(WorkAisle::measure));
        measures.extend(self.walkways.iter().map(Walkway::measure));
        measures.extend(self.work_triangles.iter().flat_map(WorkTriangle::measures));
        measures
    }
}

/// The free floor before something.
struct Front<'a> {
    fixture: &'a Id,
    /// Which bowl of a vanity that has several, counted from one.
    bowl: Option<usize>,
    free: Clearance,
}

/// A kitchen, which may be a part of an open space.
#[derive(Debug, PartialEq)]
struct Kitchen {
    room: Id,
    region: Arc<Region>,
}

/// An open space and everything that stands in it.
#[derive(Debug, PartialEq)]
pub(crate) struct FixturesOf {
    region: Arc<Region>,
    fixtures: Vec<Fixture>,
    beds: Vec<Furniture>,
    /// Electrical panels, which hang on walls and stand in nobody's way.
    panels: Vec<Fixture>,
    kitchens: Vec<Kitchen>,
}

impl Question for FixturesOf {
    type Answer = FixtureSpace;

    fn answer(&self) -> FixtureSpace {
        if self.fixtures.is_empty() && self.beds.is_empty() && self.panels.is_empty() {
            return FixtureSpace::default();
        }
        let standing = Standing::new(&self.region, &self.fixtures);
        let toilets = toilet::toilets(&standing);
        let lavatories = lavatory::lavatories(&standing);
        let mut space = FixtureSpace {
            bowls_apart: bowls_apart::bowls_apart(&standing, &toilets, &lavatories),
            toilets,
            lavatories,
            tubs: tub::tubs(&standing),
            showers: shower::showers(&standing),
            appliances: appliance::appliances(&standing, &self.panels),
            beds: bed::beds(&standing, &self.beds),
            work_aisles: Vec::new(),
            walkways: Vec::new(),
            work_triangles: Vec::new(),
        };
        for kitchen in &self.kitchens {
            let (aisles, walkways) = aisle::aisles(&standing, kitchen);
            space.work_aisles.extend(aisles);
            space.walkways.extend(walkways);
            space.work_triangles.extend(work_triangle::work_triangle(&standing, kitchen));
        }
        space
    }
}

/// What is asked about the things of one open space.
#[derive(Clone, Debug)]
pub(crate) struct Questions {
    fixtures: Asked<FixturesOf>,
    sweeps: Asked<SweepsOf>,
}

/// The questions of every open space, with the answers that were given before to the same ones.
pub(crate) fn questions(
    elements: &Elements,
    rooms: &[RoomFigures],
    spaces: &[Space],
    doors: &[DoorFigures],
    earlier: Option<&[Questions]>,
) -> Vec<Questions> {
    let by_id: HashMap<&Id, &Fixture> = elements.fixtures.iter().map(|fixture| (&fixture.id, fixture)).collect();
    let standing = |space: &Space| -> Vec<Fixture> {
        let fixtures = space.obstructions().iter().filter_map(|standing| by_id.get(&standing.id));
        // One without a size, which no plan file holds, has neither front nor sides.
        fixtures
            .filter(|fixture| fixture.width > Length::ZERO && fixture.depth > Length::ZERO)
            .copied()
            .cloned()
            .collect()
    };
    let mut asked: Vec<(FixturesOf, Vec<Sweep>)> = spaces
        .iter()
        .map(|space| FixturesOf {
            region: space.region.clone(),
            fixtures: standing(space),
            beds: Vec::new(),
            panels: Vec::new(),
            kitchens: Vec::new(),
        })
        .map(|fixtures| (fixtures, Vec::new()))
        .collect();
    let floors = Whereabouts::of(spaces.iter().map(|space| Bounds::around(&space.region.outer)));
    let space_at = |at: Point| {
        let mut near = floors.touching(Bounds::around(&[at])).into_iter();
        near.find(|space| spaces[*space].region.contains(at))
    };
    for bed in elements.furniture.iter().filter(|piece| piece.kind == FurnitureKind::Bed) {
        let [a, _, c, _] = outline(bed.at, bed.faces, bed.width, bed.depth);
        if let Some((fixtures, _)) = space_at(middle(a, c)).and_then(|space| asked.get_mut(space)) {
            fixtures.beds.push(bed.clone());
        }
    }
    for panel in elements.fixtures.iter().filter(|fixture| fixture.kind == FixtureKind::ElectricalPanel) {
        // One that is let into a wall shows its front only.
        let [_, left, right, _] = fixture_outline(panel);
        if let Some((fixtures, _)) = space_at(middle(left, right)).and_then(|space| asked.get_mut(space)) {
            fixtures.panels.push(panel.clone());
        }
    }
    for room in rooms.iter().filter(|room| room.usage == RoomUse::Kitchen) {
        if let Some((fixtures, _)) = asked.get_mut(room.space) {
            fixtures.kitchens.push(Kitchen { room: room.id.clone(), region: room.region.clone() });
        }
    }
    let space_by_room: HashMap<&Id, usize> = rooms.iter().map(|room| (&room.id, room.space)).collect();
    for door in doors {
        let Some(sweep) = Sweep::of(door) else { continue };
        let beside = door.sides.iter().filter_map(|side| space_by_room.get(side.room.as_ref()?).copied());
        for space in beside {
            if let Some((fixtures, sweeps)) = asked.get_mut(space)
                && !fixtures.fixtures.is_empty()
                && sweeps.last() != Some(&sweep)
            {
                sweeps.push(sweep.clone());
            }
        }
    }
    let after = |(at, (fixtures, sweeps)): (usize, (FixturesOf, Vec<Sweep>))| {
        let earlier = earlier.and_then(|earlier| about(earlier, at, &fixtures.region));
        let fixtures = Asked::after(earlier.map(|earlier| &earlier.fixtures), fixtures);
        let sweeps = SweepsOf { fixtures: fixtures.clone(), sweeps };
        Questions { sweeps: Asked::after(earlier.map(|earlier| &earlier.sweeps), sweeps), fixtures }
    };
    asked.into_iter().enumerate().map(after).collect()
}

/// The questions that were asked before about the same floor, which most often stand at the same place.
fn about<'a>(earlier: &'a [Questions], at: usize, region: &Arc<Region>) -> Option<&'a Questions> {
    let is_same = |earlier: &&Questions| Arc::ptr_eq(&earlier.fixtures.question().region, region);
    earlier.get(at).filter(is_same).or_else(|| earlier.iter().find(is_same))
}

impl Derived {
    /// Free space at what stands in each open space, in the order of [`Derived::spaces`]; worked out when it is first
    /// asked for.
    pub fn fixture_spaces(&self) -> impl Iterator<Item = &FixtureSpace> {
        self.fixture_space.iter().map(|asked| asked.fixtures.get())
    }

    /// The doors whose leaves pass over the free floor before a fixture.
    pub fn sweeps_across(&self) -> impl Iterator<Item = &SweepAcross> {
        self.fixture_space.iter().flat_map(|asked| asked.sweeps.get())
    }

    /// A wall on whose face a place lies, such as the end of the span of a [`Clearance`]; none for the face of a column.
    /// Looks through all walls: for what people are told, not for every measure.
    #[must_use]
    pub fn wall_at(&self, place: Point) -> Option<&WallSolid> {
        let around = Bounds::around(&[place]);
        let outside = |wall: &WallSolid| {
            let beyond = crate::region::sides_of(&wall.outline).map(|(a, b)| -project(a, b, place).1);
            beyond.max().unwrap_or_default()
        };
        let near = |wall: &&WallSolid| Bounds::around(&wall.outline).touches(around) && outside(wall) <= OFF_AXIS_SLACK;
        self.walls.iter().filter(near).min_by_key(|wall| outside(wall).max(Length::ZERO))
    }
}

/// Clearances of every fixture, work aisles, space beside beds, leaves that pass before fixtures, depths of closets.
pub(crate) fn measures(derived: &Derived) -> Vec<Measure> {
    let mut measures: Vec<Measure> = derived.fixture_spaces().flat_map(FixtureSpace::measures).collect();
    measures.extend(derived.sweeps_across().map(SweepAcross::measure));
    let closets = derived.rooms.iter().flat_map(RoomFigures::closet_depths);
    measures.extend(closets.map(|closet| closet.measure()));
    measures
}
