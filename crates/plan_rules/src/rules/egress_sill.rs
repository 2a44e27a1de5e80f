use std::sync::Arc;

use plan_model::Exact;
use plan_model::elements::{Room, RoomUse};

use super::egress_opening::{Limits, Opening, chosen, no_opening};
use crate::book::Entry;
use crate::rule::{Case, Check};
use crate::{Quantity, Rule, Verdict};

pub(super) static RULE: Rule = Rule {
    id: "egress-sill",
    name: "Sill of the escape opening",
    measures: "Finished floor to the bottom of the net clear opening that each bedroom's escape is judged by.",
    read,
};

#[derive(Debug)]
struct EgressSill {
    rooms: Vec<RoomUse>,
    required: Exact,
    limits: Limits,
}

fn read(entry: &Entry<'_>) -> Arc<dyn Check> {
    let (rooms, required, limits) = (entry.rooms(), limit(entry), Limits::beside(entry));
    Arc::new(EgressSill { rooms, required, limits })
}

pub(super) fn limit(entry: &Entry<'_>) -> Exact {
    entry.length("sill")
}

impl Check for EgressSill {
    fn check(&self, case: &Case<'_>) -> Vec<Verdict> {
        let judge = |(room, opening): (&Room, Option<Opening<'_>>)| match opening {
            Some(opening) => self.judge(case, room, &opening),
            None => no_opening(case, room, "sill"),
        };
        chosen(case, &self.rooms, &self.limits).map(judge).collect()
    }
}

impl EgressSill {
    fn judge(&self, case: &Case<'_>, room: &Room, opening: &Opening<'_>) -> Verdict {
        opening
            .judged(room, "sill of the clear opening", &opening.sill, Quantity::LengthAtMost, self.required)
            .verdict(case)
    }
}
