use std::sync::Arc;

use plan_model::Exact;
use plan_model::elements::{Room, RoomUse};

use super::egress_opening::{Limits, Opening, chosen, no_opening};
use super::opening_figure::OpeningFigure;
use crate::book::Entry;
use crate::rule::{Case, Check};
use crate::{Quantity, Rule, Verdict};

pub(super) static RULE: Rule = Rule {
    id: "egress-width",
    name: "Width of the escape opening",
    measures: "Net clear width of the opening that each bedroom's escape is judged by.",
    read,
};

#[derive(Debug)]
struct EgressWidth {
    rooms: Vec<RoomUse>,
    required: Exact,
    limits: Limits,
}

fn read(entry: &Entry<'_>) -> Arc<dyn Check> {
    let (rooms, required, limits) = (entry.rooms(), limit(entry), Limits::beside(entry));
    Arc::new(EgressWidth { rooms, required, limits })
}

pub(super) fn limit(entry: &Entry<'_>) -> Exact {
    entry.length("width")
}

impl Check for EgressWidth {
    fn check(&self, case: &Case<'_>) -> Vec<Verdict> {
        let judge = |(room, opening): (&Room, Option<Opening<'_>>)| match opening {
            Some(opening) => self.judge(case, room, &opening),
            None => no_opening(case, room, "clear width"),
        };
        chosen(case, &self.rooms, &self.limits).map(judge).collect()
    }
}

impl EgressWidth {
    fn judge(&self, case: &Case<'_>, room: &Room, opening: &Opening<'_>) -> Verdict {
        let judged = opening.judged(room, "clear width", opening.width, Quantity::LengthAtLeast, self.required);
        OpeningFigure { dimension: Some(opening.line), ..judged }.verdict(case)
    }
}
