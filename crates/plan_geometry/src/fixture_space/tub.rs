use plan_model::elements::{Fixture, FixtureKind};
use plan_model::{Id, Length};

use super::ahead::{Ahead, Base};
use super::clearance::Clearance;
use super::standing::Standing;
use crate::{Measure, MeasureName};

/// How wide the free floor before a tub is looked for in the list of measures; a book may ask for another width.
pub(super) const FREE_WIDTH: Length = Length::inches(24);

/// Free space at a tub. Its open side is its front.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct TubSpace {
    /// The tub.
    pub id: Id,
    ahead: Ahead,
}

impl TubSpace {
    /// The deepest free rectangle of at least this width that stands against the open side, within its length; over the
    /// whole length where the tub is shorter. A toilet beside the rectangle takes nothing from it.
    ///
    /// Source of what is measured: IRC figure R307.1; the width is the book's.
    #[must_use]
    pub fn front(&self, least_width: Length) -> Option<Clearance> {
        self.ahead.rectangle(least_width)
    }

    pub(super) fn measures(&self) -> Option<Measure> {
        Some(self.front(FREE_WIDTH)?.measure_of_strip(MeasureName::TubFront, &self.id))
    }
}

pub(super) fn tubs(standing: &Standing<'_>) -> Vec<TubSpace> {
    let tub = |(index, fixture): (usize, &Fixture)| {
        let base = Base::outside(standing.front_edge(index)?)?;
        Some(TubSpace { id: fixture.id.clone(), ahead: standing.ahead(base, index) })
    };
    standing.of_kinds(|kind| kind == FixtureKind::Tub).filter_map(tub).collect()
}
