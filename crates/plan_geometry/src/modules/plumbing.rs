//! Plumbing that stands together, module by module.

use plan_model::elements::{Elements, End, Fixture, FixtureKind};
use plan_model::{Id, Length, Point};

use super::doubled_middle;
use crate::asked::Question;
use crate::conflict::fixture_outline;
use crate::heated::ModuleOutline;
use crate::kernel::project;
use crate::walls::{WallFaces, WallSolid};

/// How far the back or drain end of a fixture may stand off a wall's face and still stand against it: the hoses of a washer
/// take 5 to 6 in. Source: common practice, no source.
const AGAINST: Length = Length::inches(6);

/// Plumbing fixtures of one module that stand against the same wall, on either side of it.
///
/// A fixture stands against a wall with its back, or, where the plan says at which end its drain is, with that end. One that
/// stands against no wall is a group by itself. Plumbing fixtures are toilets, vanities, tubs, showers, sinks, dishwashers,
/// washers, stacked laundries and water heaters.
///
/// Source: common practice, no source.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct PlumbingGroup {
    /// The module in whose outline the middle of each fixture lies; none in no outline, or in several as on the mate line.
    pub module: Option<Id>,
    /// The wall; none for a fixture that stands free.
    pub wall: Option<Id>,
    /// The fixtures, in the order of the file.
    pub fixtures: Vec<Id>,
    /// The outline of each fixture, counter-clockwise.
    pub grounds: Vec<[Point; 4]>,
}

/// Plumbing fixtures and the walls that they may stand against.
#[derive(Debug, PartialEq)]
pub(super) struct Plumbing {
    modules: Vec<ModuleOutline>,
    fixtures: Vec<Wet>,
    walls: Vec<(Id, WallFaces)>,
}

/// A plumbing fixture.
#[derive(Debug, PartialEq)]
struct Wet {
    id: Id,
    outline: [Point; 4],
    /// The side at which its pipes are, with the fixture to its left.
    side: [Point; 2],
}

impl Wet {
    fn of(fixture: &Fixture) -> Self {
        let outline = fixture_outline(fixture);
        // From the back left, as seen from its front: left end, front, right end, back.
        let [back_left, front_left, front_right, back_right] = outline;
        let side = match fixture.drain {
            Some(End::Left) => [back_left, front_left],
            Some(End::Right) => [front_right, back_right],
            None => [back_right, back_left],
        };
        Self { id: fixture.id.clone(), outline, side }
    }

    fn reach(&self) -> (Length, Length) {
        let [a, b] = self.side;
        (a.x.min(b.x), a.x.max(b.x))
    }
}

const fn has_plumbing(kind: FixtureKind) -> bool {
    matches!(
        kind,
        FixtureKind::Toilet
            | FixtureKind::Vanity
            | FixtureKind::Tub
            | FixtureKind::Shower
            | FixtureKind::Sink
            | FixtureKind::Dishwasher
            | FixtureKind::Washer
            | FixtureKind::StackedLaundry
            | FixtureKind::WaterHeater
    )
}

impl Plumbing {
    pub(super) fn of(elements: &Elements, walls: &[WallSolid], modules: &[ModuleOutline]) -> Self {
        let fixtures: Vec<Wet> =
            elements.fixtures.iter().filter(|fixture| has_plumbing(fixture.kind)).map(Wet::of).collect();
        let walls = if fixtures.is_empty() { &[] } else { walls };
        Self {
            modules: modules.to_vec(),
            fixtures,
            walls: walls.iter().map(|wall| (wall.id.clone(), wall.faces)).collect(),
        }
    }

    /// The wall against which each fixture stands.
    fn walls(&self) -> Vec<Option<usize>> {
        // By where their sides begin, so that each wall looks at those near it only.
        let mut by_start: Vec<usize> = (0..self.fixtures.len()).collect();
        by_start.sort_by_key(|fixture| self.fixtures[*fixture].reach().0);
        let widest =
            self.fixtures.iter().map(|fixture| fixture.reach().1 - fixture.reach().0).max().unwrap_or_default();
        let mut best: Vec<Option<(Length, Length, usize)>> = vec![None; self.fixtures.len()];
        for (wall, (_, faces)) in self.walls.iter().enumerate() {
            let ends = faces.left.iter().chain(&faces.right).map(|corner| corner.x);
            let (left, right) = (ends.clone().min().unwrap_or_default(), ends.max().unwrap_or_default());
            let start = |fixture: usize| self.fixtures[fixture].reach().0;
            let first = by_start.partition_point(|fixture| start(*fixture) + widest + AGAINST < left);
            let near = by_start[first..].iter().take_while(|fixture| start(**fixture) <= right + AGAINST);
            for fixture in near {
                // Of each face, walked with the room to its left.
                let rooms = [faces.left, [faces.right[1], faces.right[0]]];
                let closest = rooms.iter().filter_map(|face| stands_against(self.fixtures[*fixture].side, *face)).min();
                let Some((off, beside)) = closest else { continue };
                if best[*fixture].is_none_or(|best| (off, beside, wall) < best) {
                    best[*fixture] = Some((off, beside, wall));
                }
            }
        }
        best.into_iter().map(|best| best.map(|(.., wall)| wall)).collect()
    }

    /// The module in which a fixture stands.
    fn module(&self, fixture: &Wet) -> Option<usize> {
        let twice_middle = doubled_middle(&fixture.outline);
        let holds = |corners: &[Point; 4]| {
            let [low, high] = [corners[0], corners[2]].map(|corner| corner + corner);
            (low.x..=high.x).contains(&twice_middle.x) && (low.y..=high.y).contains(&twice_middle.y)
        };
        let mut holding = (0..self.modules.len()).filter(|module| holds(&self.modules[*module].corners));
        let first = holding.next()?;
        holding.next().is_none().then_some(first)
    }
}

/// How far the side of a fixture stands off a face with the room to its left, and how much of the side no face is beside, so
/// that less is better of both; none where it does not stand against the face.
fn stands_against([a, b]: [Point; 2], face: [Point; 2]) -> Option<(Length, Length)> {
    let [(start, start_off), (end, end_off)] = [a, b].map(|corner| project(face[0], face[1], corner));
    let off = start_off.abs().max(end_off.abs());
    let reaches = end.min(project(face[0], face[1], face[1]).0) - start.max(Length::ZERO);
    (off <= AGAINST && reaches > Length::ZERO).then(|| (off, end - start - reaches))
}

impl Question for Plumbing {
    type Answer = Vec<PlumbingGroup>;

    fn answer(&self) -> Vec<PlumbingGroup> {
        let mut placed: Vec<(usize, Option<usize>, usize)> = self
            .walls()
            .into_iter()
            .enumerate()
            .map(|(fixture, wall)| (self.module(&self.fixtures[fixture]).unwrap_or(usize::MAX), wall, fixture))
            .collect();
        placed.sort_unstable();
        let together = placed.chunk_by(|one, next| one.0 == next.0 && one.1.is_some() && one.1 == next.1);
        let mut groups: Vec<&[(usize, Option<usize>, usize)]> = together.collect();
        groups.sort_by_key(|group| group.first().map(|(module, _, fixture)| (*module, *fixture)));
        let group = |group: &[(usize, Option<usize>, usize)]| {
            let (module, wall, _) = *group.first()?;
            let fixtures = || group.iter().map(|(.., fixture)| &self.fixtures[*fixture]);
            Some(PlumbingGroup {
                module: self.modules.get(module).map(|module| module.id.clone()),
                wall: wall.map(|wall| self.walls[wall].0.clone()),
                fixtures: fixtures().map(|fixture| fixture.id.clone()).collect(),
                grounds: fixtures().map(|fixture| fixture.outline).collect(),
            })
        };
        groups.into_iter().filter_map(group).collect()
    }
}
