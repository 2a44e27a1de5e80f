use std::sync::Arc;

use super::light::{Asked, Share, has_whole_house_ventilation};
use crate::book::Entry;
use crate::rule::{Case, Check, Subject};
use crate::{Exception, Outcome, Rule, Verdict};

pub(super) static RULE: Rule = Rule {
    id: "openable-area",
    name: "Openings for air of habitable rooms",
    measures: "The area of windows and glazed doors to outdoors that can be opened, of each habitable space against a part \
               of its floor; not asked for where a whole-house ventilator does instead, if the book says so.",
    read,
};

#[derive(Debug)]
struct OpenableArea {
    share: Share,
    waived_by_ventilation: bool,
}

fn read(entry: &Entry<'_>) -> Arc<dyn Check> {
    Arc::new(OpenableArea {
        share: Share::read(entry),
        waived_by_ventilation: entry.is_said("waived_by_whole_house_ventilation"),
    })
}

/// The exception that lets spaces off.
const WAIVED: &str = "Whole-house mechanical ventilation stands in for openings.";

const OPENABLE: Asked = Asked {
    what: "openable area to outdoors",
    figure: |light| &light.openable,
    enter: |case, openings| case.enter_openable(openings),
};

impl Check for OpenableArea {
    fn check(&self, case: &Case<'_>) -> Vec<Verdict> {
        let mut verdicts = self.share.check(case, &OPENABLE);
        if self.waived_by_ventilation && has_whole_house_ventilation(case) {
            let exception = Exception { text: WAIVED.to_owned(), section: case.rule.section.clone() };
            for verdict in verdicts.iter_mut().filter(|verdict| verdict.outcome != Outcome::Met) {
                let place = verdict.place.clone();
                let subject = Subject { id: verdict.subject.clone(), name: verdict.subject_name.clone(), place };
                let rests_on = verdict.rests_on.clone();
                let let_off = case.does_not_apply(subject, WAIVED.to_owned(), Some(exception.clone()));
                *verdict = let_off.resting_on(rests_on);
            }
        }
        verdicts
    }
}
