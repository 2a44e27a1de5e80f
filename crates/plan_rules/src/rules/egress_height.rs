use std::sync::Arc;

use plan_model::Exact;
use plan_model::elements::{Room, RoomUse};

use super::egress_opening::{Limits, Opening, chosen, no_opening};
use crate::book::Entry;
use crate::rule::{Case, Check};
use crate::{Quantity, Rule, Verdict};

pub(super) static RULE: Rule = Rule {
    id: "egress-height",
    name: "Height of the escape opening",
    measures: "Net clear height of the opening that each bedroom's escape is judged by.",
    read,
};

#[derive(Debug)]
struct EgressHeight {
    rooms: Vec<RoomUse>,
    required: Exact,
    limits: Limits,
}

fn read(entry: &Entry<'_>) -> Arc<dyn Check> {
    let (rooms, required, limits) = (entry.rooms(), limit(entry), Limits::beside(entry));
    Arc::new(EgressHeight { rooms, required, limits })
}

pub(super) fn limit(entry: &Entry<'_>) -> Exact {
    entry.length("height")
}

impl Check for EgressHeight {
    fn check(&self, case: &Case<'_>) -> Vec<Verdict> {
        let judge = |(room, opening): (&Room, Option<Opening<'_>>)| match opening {
            Some(opening) => self.judge(case, room, &opening),
            None => no_opening(case, room, "clear height"),
        };
        chosen(case, &self.rooms, &self.limits).map(judge).collect()
    }
}

impl EgressHeight {
    fn judge(&self, case: &Case<'_>, room: &Room, opening: &Opening<'_>) -> Verdict {
        opening.judged(room, "clear height", opening.height, Quantity::LengthAtLeast, self.required).verdict(case)
    }
}
