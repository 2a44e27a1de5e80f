use plan_model::elements::{Fixture, FixtureKind};
use plan_model::{Id, Length};

use super::clearance::Clearance;
use super::standing::Standing;
use crate::{Measure, MeasureName};

/// Free space at a toilet.
///
/// Source of what is measured: IPC 405.3.1, IRC P2705.1 and figure R307.1, 24 CFR 3280.111(a).
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct ToiletSpace {
    /// The toilet.
    pub id: Id,
    /// From the bowl's centre line, square to it, to the nearest thing on the left as seen from the front; along the
    /// whole depth of the fixture from its back to its front, so that tank and bowl are both beside what counts.
    pub left: Clearance,
    /// The same on the right.
    pub right: Clearance,
    /// From the front, the rim of the bowl, over a strip as wide as the fixture. The plan holds one width for tank and
    /// bowl: the strip is never narrower than the bowl.
    pub front: Clearance,
}

impl ToiletSpace {
    /// The lesser of both sides; the left one if they are equal.
    #[must_use]
    pub fn side(&self) -> &Clearance {
        if self.right.clear.value < self.left.clear.value { &self.right } else { &self.left }
    }

    pub(super) fn measures(&self) -> [Measure; 3] {
        [
            self.left.measure(MeasureName::ToiletLeft, &self.id),
            self.right.measure(MeasureName::ToiletRight, &self.id),
            self.front.measure_of_strip(MeasureName::ToiletFront, &self.id),
        ]
    }
}

/// From the left end of a toilet to the centre line of its bowl.
pub(super) fn centre(toilet: &Fixture) -> Length {
    // The middle of the back is where the toilet stands; of an odd number of steps its left part is the longer.
    toilet.width - Length::from_steps(toilet.width.steps() / 2)
}

pub(super) fn toilets(standing: &Standing<'_>) -> Vec<ToiletSpace> {
    let toilet = |(index, fixture): (usize, &Fixture)| {
        let line = standing.centre_line(index, centre(fixture))?;
        let [left, right] = standing.sides(line, |other, _| other != index)?;
        Some(ToiletSpace { id: fixture.id.clone(), left, right, front: standing.front(index)? })
    };
    standing.of_kinds(|kind| kind == FixtureKind::Toilet).filter_map(toilet).collect()
}
