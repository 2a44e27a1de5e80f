use plan_model::elements::{Fixture, FixtureKind};
use plan_model::{Id, Length, Point};

use super::Kitchen;
use super::standing::Standing;
use crate::passage::distance;
use crate::rooms::middle;
use crate::{Amount, Mark, Measure, MeasureName, Measured, OFF_AXIS_SLACK};

/// The straight ways between sink, range and refrigerator of a kitchen, from the middle of one front to the middle of another,
/// whatever stands between. Of several sinks, ranges or refrigerators those count that make the shortest triangle.
///
/// Source of what is measured: published planning guidelines for kitchens.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct WorkTriangle {
    /// The kitchen.
    pub room: Id,
    /// From the sink to the range, from there to the refrigerator, and back to the sink.
    pub legs: [TriangleLeg; 3],
}

/// One side of a work triangle.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct TriangleLeg {
    /// What it leads between.
    pub between: [Id; 2],
    /// How long it is, rounded down to the step.
    pub length: Measured,
    /// The middles of the two fronts.
    pub span: [Point; 2],
}

impl WorkTriangle {
    pub(super) fn measures(&self) -> impl Iterator<Item = Measure> + '_ {
        self.legs.iter().map(|leg| Measure {
            name: MeasureName::WorkTriangleLeg,
            part: None,
            of: std::iter::once(&self.room).chain(&leg.between).cloned().collect(),
            amount: Amount::Length(leg.length),
            marks: vec![Mark::Span(leg.span)],
        })
    }
}

/// The front of a sink, range or refrigerator.
struct Front {
    id: Id,
    at: Point,
    is_square: bool,
}

/// The triangle of a kitchen that has all three.
pub(super) fn work_triangle(standing: &Standing<'_>, kitchen: &Kitchen) -> Option<WorkTriangle> {
    let fronts = |is_one: fn(FixtureKind) -> bool| -> Vec<Front> {
        let front = |(index, fixture): (usize, &Fixture)| {
            let [left, right] = standing.front_edge(index)?;
            let (at, is_square) = (middle(left, right), left.x == right.x || left.y == right.y);
            kitchen.region.contains(at).then(|| Front { id: fixture.id.clone(), at, is_square })
        };
        standing.of_kinds(is_one).filter_map(front).collect()
    };
    let sinks = fronts(|kind| kind == FixtureKind::Sink);
    let ranges = fronts(|kind| kind == FixtureKind::Range);
    let refrigerators = fronts(|kind| kind == FixtureKind::Refrigerator);
    let leg = |from: &Front, to: &Front| TriangleLeg {
        between: [from.id.clone(), to.id.clone()],
        length: Measured {
            value: distance(from.at, to.at),
            // Each end may be off its true place.
            slack: if from.is_square && to.is_square { Length::ZERO } else { OFF_AXIS_SLACK * 2 },
        },
        span: [from.at, to.at],
    };
    let triangles = sinks.iter().flat_map(|sink| ranges.iter().map(move |range| (sink, range)));
    let triangles = triangles.flat_map(|pair| refrigerators.iter().map(move |refrigerator| (pair, refrigerator)));
    let legs = triangles
        .map(|((sink, range), refrigerator)| [leg(sink, range), leg(range, refrigerator), leg(refrigerator, sink)]);
    let around = |legs: &[TriangleLeg; 3]| legs.iter().map(|leg| leg.length.value).sum::<Length>();
    Some(WorkTriangle { room: kitchen.room.clone(), legs: legs.min_by_key(around)? })
}
