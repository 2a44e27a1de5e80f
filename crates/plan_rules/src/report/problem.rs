use plan_geometry::{Derived, Problem};
use plan_model::{Exact, Id, Length, Units};
use schemars::JsonSchema;
use serde::Serialize;

use super::decimal::Decimal;
use super::units::point;
use crate::show;

/// Something wrong with the drawing.
#[derive(Debug, Serialize, JsonSchema)]
pub(super) struct ProblemReport {
    message: String,
    /// The elements concerned.
    elements: Vec<Id>,
    /// Whether the home cannot be built as drawn.
    conflict: bool,
    /// The place on the plan, in the plan's unit.
    at: [Decimal; 2],
    /// The ground that two things both need, if that is what is wrong.
    #[serde(skip_serializing_if = "Option::is_none")]
    outline: Option<Vec<[Decimal; 2]>>,
}

/// Everything that is wrong with a drawing.
pub(super) fn problem_reports(derived: &Derived, units: Units) -> Vec<ProblemReport> {
    derived.problems.iter().map(|problem| ProblemReport::of(problem, units)).collect()
}

/// What is wrong in one sentence, with its place in the plan's unit.
pub(super) fn problem_text(problem: &Problem, units: Units) -> String {
    match units {
        Units::In => problem.to_string(),
        Units::Mm => {
            let place = |length: Length| show::length(Exact::from(i128::from(length.steps())), units);
            let [along, from_front] = [problem.at.x, problem.at.y].map(place);
            format!("{}, at {along} along the house and {from_front} from the front", problem.kind)
        }
    }
}

impl ProblemReport {
    fn of(problem: &Problem, units: Units) -> Self {
        let outline = (!problem.outline.is_empty()).then_some(&problem.outline);
        Self {
            message: problem_text(problem, units),
            elements: problem.kind.ids().into_iter().cloned().collect(),
            conflict: problem.kind.is_conflict(),
            at: point(problem.at, units),
            outline: outline.map(|corners| corners.iter().map(|corner| point(*corner, units)).collect()),
        }
    }
}
