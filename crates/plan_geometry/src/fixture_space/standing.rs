use plan_model::elements::{Fixture, FixtureKind};
use plan_model::{Length, Point};

use super::ahead::{Ahead, Base};
use super::clearance::Clearance;
use crate::conflict::fixture_outline;
use crate::kernel::along;
use crate::{Obstruction, Region};

/// What stands on the floor of one open space, as the figures of each fixture look at it.
pub(super) struct Standing<'a> {
    pub(super) region: &'a Region,
    pub(super) fixtures: &'a [Fixture],
    /// The same, as they stand in the way.
    pub(super) obstructions: Vec<Obstruction>,
}

impl<'a> Standing<'a> {
    pub(super) fn new(region: &'a Region, fixtures: &'a [Fixture]) -> Self {
        let obstruction = |fixture: &Fixture| Obstruction { id: fixture.id.clone(), outline: fixture_outline(fixture) };
        Self { region, fixtures, obstructions: fixtures.iter().map(obstruction).collect() }
    }

    /// The fixtures of some kinds, with where they are in the list.
    pub(super) fn of_kinds(&self, is_one: fn(FixtureKind) -> bool) -> impl Iterator<Item = (usize, &'a Fixture)> {
        self.fixtures.iter().enumerate().filter(move |(_, fixture)| is_one(fixture.kind))
    }

    /// The corners of a fixture, counter-clockwise from the back left as seen from its front.
    pub(super) fn outline(&self, index: usize) -> Option<[Point; 4]> {
        self.obstructions.get(index).map(|obstruction| obstruction.outline)
    }

    /// What lies ahead of a line, a fixture itself left out.
    pub(super) fn ahead(&self, base: Base, index: usize) -> Ahead {
        self.ahead_of(base, |other, _| other != index)
    }

    /// The same, where only some things count, told by where they are in the list and what they are.
    pub(super) fn ahead_of(&self, base: Base, counts: impl Fn(usize, FixtureKind) -> bool) -> Ahead {
        let standing = self.obstructions.iter().zip(self.fixtures).enumerate();
        let counted = standing.filter(|(index, (_, fixture))| counts(*index, fixture.kind));
        Ahead::of(base, self.region, counted.map(|(_, (obstruction, _))| obstruction))
    }

    /// The front of a fixture from its left end, as seen from the front.
    pub(super) fn front_edge(&self, index: usize) -> Option<[Point; 2]> {
        let [_, left, right, _] = self.outline(index)?;
        Some([left, right])
    }

    /// Free floor before the whole front of a fixture.
    pub(super) fn front(&self, index: usize) -> Option<Clearance> {
        self.ahead(Base::outside(self.front_edge(index)?)?, index).clearance()
    }

    /// Free floor before a part of a front, given by its middle from the left end and its width.
    pub(super) fn front_strip(&self, index: usize, middle: Length, width: Length) -> Option<Clearance> {
        let [left, right] = self.front_edge(index)?;
        let from = middle - Length::from_steps(width.steps() / 2);
        let strip = [from, from + width].map(|at| along(left, right, at));
        self.ahead(Base::outside(strip)?, index).clearance()
    }

    /// The line across a fixture, from its back to its front, at a distance from its left end as seen from the front.
    pub(super) fn centre_line(&self, index: usize, centre: Length) -> Option<[Point; 2]> {
        let [back_left, front_left, front_right, back_right] = self.outline(index)?;
        Some([along(back_left, back_right, centre), along(front_left, front_right, centre)])
    }

    /// Free floor square to a line across a fixture: to the left as seen from its front, and to the right.
    pub(super) fn sides(
        &self,
        [back, front]: [Point; 2],
        counts: impl Fn(usize, FixtureKind) -> bool,
    ) -> Option<[Clearance; 2]> {
        let left = self.ahead_of(Base::new(front, back)?, &counts).clearance()?;
        let right = self.ahead_of(Base::new(back, front)?, &counts).clearance()?;
        Some([left, right])
    }
}
