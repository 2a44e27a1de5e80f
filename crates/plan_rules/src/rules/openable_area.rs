use std::sync::Arc;

use super::light::{Asked, Share, has_whole_house_ventilation};
use crate::book::Entry;
use crate::rule::{Case, Check};
use crate::{Outcome, Rule, Verdict};

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

const OPENABLE: Asked = Asked { what: "openable area to outdoors", figure: |light| &light.openable };

impl Check for OpenableArea {
    fn check(&self, case: &Case<'_>) -> Vec<Verdict> {
        let mut verdicts = self.share.check(case, &OPENABLE);
        if self.waived_by_ventilation && has_whole_house_ventilation(case) {
            for verdict in verdicts.iter_mut().filter(|verdict| verdict.outcome != Outcome::Met) {
                verdict.outcome = Outcome::Met;
                verdict.notes.push("whole-house mechanical ventilation stands in for openings".to_owned());
            }
        }
        verdicts
    }

    fn applies(&self, case: &Case<'_>) -> bool {
        self.share.applies(case)
    }
}
