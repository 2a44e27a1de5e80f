use plan_model::elements::{Fixture, FixtureKind};
use plan_model::{Id, Length};

use super::clearance::Clearance;
use super::standing::Standing;
use crate::{Measure, MeasureName, Part};

/// How wide a lavatory bowl is taken to be, rim to rim; the plan holds the centres of bowls only.
///
/// Common practice, no source: bowls set into a vanity are 19 to 20 in wide.
const BOWL_WIDTH: Length = Length::inches(20);

/// Free space at one bowl of a vanity.
///
/// Source of what is measured: IRC figure R307.1, IPC 405.3.1.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct LavatorySpace {
    /// The vanity.
    pub id: Id,
    /// Which of its bowls, counted from its left end as seen from the front.
    pub bowl: usize,
    /// How many bowls the vanity has.
    pub bowls: usize,
    /// How wide the bowl is taken to be: 20 in (common practice, no source), or what fits into a smaller vanity about
    /// the bowl's centre. An assumption, to be told with the figure.
    pub assumed_width: Length,
    /// From the bowl's centre line, square to it, to the nearest thing on the left as seen from the front; along the
    /// depth of the vanity. Counters (base cabinets, sinks, other vanities) are what a bowl stands in: they do not end
    /// the free space beside it, and bowls in them are told by their distance from centre to centre.
    pub left: Clearance,
    /// The same on the right.
    pub right: Clearance,
    /// From the front of the vanity, over a strip as wide as the bowl.
    pub front: Clearance,
}

impl LavatorySpace {
    /// The lesser of both sides; the left one if they are equal.
    #[must_use]
    pub fn side(&self) -> &Clearance {
        if self.right.clear.value < self.left.clear.value { &self.right } else { &self.left }
    }

    /// Which bowl it is, counted from one, if the vanity has several.
    pub(super) fn number(&self) -> Option<usize> {
        (self.bowls > 1).then_some(self.bowl + 1)
    }

    pub(super) fn measures(&self) -> [Measure; 3] {
        let part = self.number().map(Part::Bowl);
        [
            Measure { part, ..self.left.measure(MeasureName::LavatoryLeft, &self.id) },
            Measure { part, ..self.right.measure(MeasureName::LavatoryRight, &self.id) },
            Measure { part, ..self.front.measure_of_strip(MeasureName::LavatoryFront, &self.id) },
        ]
    }
}

/// From the left end of a vanity to the centres of its bowls, in order.
pub(super) fn centres(vanity: &Fixture) -> Vec<Length> {
    if vanity.bowls.is_empty() {
        return vec![vanity.width - Length::from_steps(vanity.width.steps() / 2)];
    }
    let mut centres = vanity.bowls.clone();
    centres.sort_unstable();
    centres
}

pub(super) fn lavatories(standing: &Standing<'_>) -> Vec<LavatorySpace> {
    let vanities = standing.of_kinds(|kind| kind == FixtureKind::Vanity);
    let lavatory = |index: usize, fixture: &Fixture, bowl: usize, centre: Length| {
        let room = (centre.min(fixture.width - centre)) * 2;
        let assumed_width = if room > Length::ZERO { BOWL_WIDTH.min(room) } else { BOWL_WIDTH };
        let line = standing.centre_line(index, centre)?;
        let [left, right] = standing.sides(line, |other, kind| other != index && !is_counter(kind))?;
        let front = standing.front_strip(index, centre, assumed_width)?;
        let bowls = fixture.bowls.len().max(1);
        Some(LavatorySpace { id: fixture.id.clone(), bowl, bowls, assumed_width, left, right, front })
    };
    let bowls = vanities.flat_map(|(index, fixture)| {
        centres(fixture).into_iter().enumerate().map(move |(bowl, centre)| (index, fixture, bowl, centre))
    });
    bowls.filter_map(|(index, fixture, bowl, centre)| lavatory(index, fixture, bowl, centre)).collect()
}

const fn is_counter(kind: FixtureKind) -> bool {
    matches!(kind, FixtureKind::Vanity | FixtureKind::BaseCabinet | FixtureKind::Sink)
}
