use std::sync::Arc;

use plan_geometry::WorkTriangle;
use plan_model::Exact;
use plan_model::elements::FixtureKind;

use crate::book::Entry;
use crate::rule::{Case, Check, Figures, Subject, exact, middle, within_slack};
use crate::{Place, Quantity, Rule, Verdict, show};

pub(super) static RULE: Rule = Rule {
    id: "work-triangle",
    name: "Work triangle of kitchens",
    measures: "The straight ways between the middles of the fronts of sink, range and refrigerator: each by its least and its \
               greatest length, and their sum.",
    read,
};

const NEEDED: [FixtureKind; 3] = [FixtureKind::Sink, FixtureKind::Range, FixtureKind::Refrigerator];
const NO_TRIANGLE: &str = "No kitchen has a sink, a range and a refrigerator.";

#[derive(Debug)]
struct Triangle {
    least_leg: Exact,
    greatest_leg: Exact,
    sum: Exact,
}

fn read(entry: &Entry<'_>) -> Arc<dyn Check> {
    let [least_leg, greatest_leg, sum] = ["least_leg", "greatest_leg", "sum"].map(|name| entry.length(name));
    Arc::new(Triangle { least_leg, greatest_leg, sum })
}

impl Check for Triangle {
    fn check(&self, case: &Case<'_>) -> Vec<Verdict> {
        let triangles = case.derived.fixture_spaces().flat_map(|space| &space.work_triangles);
        triangles.map(|triangle| self.judge(case, triangle)).collect()
    }

    fn nothing(&self, case: &Case<'_>) -> Option<String> {
        let has_all = NEEDED.iter().all(|kind| case.has_fixture(&[*kind]));
        if case.derived.fixture_spaces().any(|space| !space.work_triangles.is_empty()) {
            None
        } else {
            case.without(has_all, NO_TRIANGLE, NO_TRIANGLE)
        }
    }
}

impl Triangle {
    /// What falls short of it, else its sum.
    fn judge(&self, case: &Case<'_>, triangle: &WorkTriangle) -> Verdict {
        let units = case.units();
        let leg = |at: usize| (exact(triangle.legs[at].length.value), exact(triangle.legs[at].length.slack));
        let legs = [leg(0), leg(1), leg(2)];
        let least =
            legs.iter().map(|(value, slack)| within_slack(*value, self.least_leg, *slack)).min().unwrap_or_default();
        let most = |value: Exact, limit: Exact, slack: Exact| -within_slack(-value, -limit, slack);
        let greatest =
            legs.iter().map(|(value, slack)| most(*value, self.greatest_leg, *slack)).max().unwrap_or_default();
        let slack = legs.iter().map(|(_, slack)| *slack).sum::<Exact>();
        let sum = most(legs.iter().map(|(value, _)| *value).sum(), self.sum, slack);
        let tests = [
            Figures { quantity: Quantity::LengthAtLeast, measured: Some(least), required: self.least_leg },
            Figures { quantity: Quantity::LengthAtMost, measured: Some(greatest), required: self.greatest_leg },
            Figures { quantity: Quantity::LengthAtMost, measured: Some(sum), required: self.sum },
        ];
        let figures = *tests.iter().min_by_key(|figures| figures.outcome()).unwrap_or(&tests[2]);
        // Of those that are met the sum tells most.
        let figures = if figures.outcome() == crate::Outcome::Met { tests[2] } else { figures };
        let room = case.named_or_home(Some(&triangle.room));
        let shown = legs.map(|(value, _)| show::length(value, units)).join(", ");
        let message = format!(
            "The work triangle of {} has legs of {shown}, together {}; legs of {} to {} and at most {} together are asked for.",
            room.name,
            case.length(sum, self.sum),
            show::length(self.least_leg, units),
            show::length(self.greatest_leg, units),
            show::length(self.sum, units),
        );
        let [from, to] = triangle.legs[0].span;
        let outline = triangle.legs.iter().map(|leg| leg.span[0]).collect();
        let place = Place { at: middle(from, to), dimension: None, outline };
        case.compare(Subject { id: Some(triangle.room.clone()), name: room.name, place }, figures, message, Vec::new())
    }
}
