use std::sync::Arc;

use plan_geometry::MeasureName;
use plan_model::Id;

use super::listed::{place, told};
use crate::book::Entry;
use crate::rule::{Case, Check, Subject};
use crate::{Place, RestsOn, Rule, Verdict};

pub(super) static RULE: Rule = Rule {
    id: "straddling",
    name: "What stands on both sides of the mate line",
    measures: "Whether anything built in the factory stands on both sides of the mate line, where it could not be built in \
               one module.",
    read,
};

#[derive(Debug)]
struct Straddling;

fn read(_: &Entry<'_>) -> Arc<dyn Check> {
    Arc::new(Straddling)
}

impl Check for Straddling {
    fn check(&self, case: &Case<'_>) -> Vec<Verdict> {
        if self.nothing(case).is_some() {
            return Vec::new();
        }
        let mut told_of: Vec<&Id> = Vec::new();
        let mut verdicts = Vec::new();
        for measure in case.measures().iter().filter(|measure| measure.name == MeasureName::StraddlesMateLine) {
            let Some(id) = measure.of.first().filter(|id| !told_of.contains(id)) else { continue };
            told_of.push(id);
            let named = case.named_or_home(Some(id));
            let message = format!("\"{id}\" stands on both sides of the mate line; nothing may.");
            let place = place(measure).unwrap_or_else(|| Place::point(named.at));
            verdicts.push(told(case, Subject { id: Some(id.clone()), name: named.name, place }, false, message));
        }
        if verdicts.is_empty() {
            let subject = Subject { id: None, name: "the home".to_owned(), place: Place::point(case.first_room()) };
            verdicts.push(
                told(case, subject, true, "Nothing stands on both sides of the mate line.".to_owned())
                    .resting_on(RestsOn::Others),
            );
        }
        verdicts
    }

    fn nothing(&self, case: &Case<'_>) -> Option<String> {
        case.home.plan.mate_line.is_none().then(|| "The home has no mate line.".to_owned())
    }
}
