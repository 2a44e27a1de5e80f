use plan_model::{Id, Length, Point};

use crate::kernel::offset;
use crate::{Amount, Mark, Measure, MeasureName, Measured};

/// What ends free floor.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Met {
    /// The face of a wall, column or chase; doors and cased openings count as closed.
    Wall,
    /// A fixture, appliance or cabinet.
    Fixture(Id),
}

/// Free floor measured square to a line, as far as the first thing that stands in the strip ahead of the line.
///
/// The strip is open: what only touches its edges is not in it. Unit: grid steps. Method: exact where the line and what
/// is met are square to the axes; elsewhere rounded down and within [`OFF_AXIS_SLACK`](crate::OFF_AXIS_SLACK). Zero
/// where something touches the line or stands on it, and where there is no floor ahead of a part of it.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Clearance {
    /// How deep the strip is free.
    pub clear: Measured,
    /// The line from which it is measured; the strip lies to its left.
    pub base: [Point; 2],
    /// Where it is least: a place on the line, and the place on what is met.
    pub span: [Point; 2],
    /// What is met first.
    pub met: Met,
}

impl Clearance {
    /// The corners of the free strip, counter-clockwise.
    #[must_use]
    pub fn ground(&self) -> [Point; 4] {
        let [from, to] = self.base;
        let ahead = |point: Point| offset(point, from, to, self.clear.value);
        [from, to, ahead(to), ahead(from)]
    }

    /// As a measure of something and of what is met, shown by a span.
    pub(crate) fn measure(&self, name: MeasureName, of: &Id) -> Measure {
        let met = match &self.met {
            Met::Wall => None,
            Met::Fixture(id) => Some(id.clone()),
        };
        Measure {
            name,
            part: None,
            of: std::iter::once(of.clone()).chain(met).collect(),
            amount: Amount::Length(self.clear),
            marks: vec![Mark::Span(self.span)],
        }
    }

    /// The same, shown by the ground of the strip as well.
    pub(crate) fn measure_of_strip(&self, name: MeasureName, of: &Id) -> Measure {
        let mut measure = self.measure(name, of);
        if self.clear.value > Length::ZERO {
            measure.marks.push(Mark::Ground(self.ground().to_vec()));
        }
        measure
    }
}
