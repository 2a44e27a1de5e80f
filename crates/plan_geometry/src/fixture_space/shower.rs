use plan_model::elements::{Fixture, FixtureKind};
use plan_model::{Exact, Id, Length, Point};

use super::clearance::Clearance;
use super::standing::Standing;
use crate::{Amount, Area, Basis, Figure, Mark, Measure, MeasureName, Measured};

/// A shower: its finished inside, its entry and the free space before it.
///
/// Source of what is measured: IRC P2708.1, P2708.1.1 and figure R307.1.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct ShowerSpace {
    /// The shower.
    pub id: Id,
    /// The shorter side of its finished inside. A disc of this diameter fits, and none larger.
    pub least_side: Length,
    /// Area of its finished inside.
    pub area: Area,
    /// Clear finished width of its entry; unknown where the plan does not state it.
    pub entry: Figure,
    /// From the front, over a strip as wide as the entry; none where the plan does not state the entry.
    pub front: Option<Clearance>,
    outline: [Point; 4],
}

impl ShowerSpace {
    pub(super) fn measures(&self) -> [Measure; 4] {
        let measure = |name, amount, marks| Measure { name, part: None, of: vec![self.id.clone()], amount, marks };
        let inside = || vec![Mark::Ground(self.outline.to_vec())];
        let front = self.front.as_ref().map(|front| front.measure_of_strip(MeasureName::ShowerFront, &self.id));
        let unknown = || measure(MeasureName::ShowerFront, Amount::Unknown(no_entry(&self.id)), Vec::new());
        let across = self.front.as_ref().map(|front| Mark::Span(front.base));
        [
            measure(
                MeasureName::ShowerLeastSide,
                Amount::Length(Measured::exact(self.least_side)),
                vec![Mark::Span(self.across())],
            ),
            measure(MeasureName::ShowerArea, Amount::Area(self.area), inside()),
            measure(MeasureName::ShowerEntry, Amount::OpeningLength(self.entry.clone()), across.into_iter().collect()),
            front.unwrap_or_else(unknown),
        ]
    }

    /// A span over the least side, through the middle.
    fn across(&self) -> [Point; 2] {
        let [a, b, c, d] = self.outline;
        let middle = crate::rooms::middle;
        let [from_left, from_back] = [[middle(a, b), middle(c, d)], [middle(d, a), middle(b, c)]];
        let is_least = |span: [Point; 2]| {
            let length = crate::kernel::project(span[0], span[1], span[1]).0;
            (length - self.least_side).abs()
        };
        if is_least(from_left) <= is_least(from_back) { from_left } else { from_back }
    }
}

fn no_entry(id: &Id) -> String {
    format!("the plan does not state the entry of the shower \"{id}\"")
}

pub(super) fn showers(standing: &Standing<'_>) -> Vec<ShowerSpace> {
    let shower = |(index, fixture): (usize, &Fixture)| {
        let middle = fixture.width - Length::from_steps(fixture.width.steps() / 2);
        Some(ShowerSpace {
            id: fixture.id.clone(),
            least_side: fixture.width.min(fixture.depth),
            area: Area::of_rectangle(fixture.width, fixture.depth),
            entry: match fixture.entry {
                Some(entry) => Figure::Known { value: Exact::from(i128::from(entry.steps())), basis: Basis::Stated },
                None => Figure::Unknown(no_entry(&fixture.id)),
            },
            front: fixture.entry.and_then(|entry| standing.front_strip(index, middle, entry)),
            outline: standing.outline(index)?,
        })
    };
    standing.of_kinds(|kind| kind == FixtureKind::Shower).filter_map(shower).collect()
}
