use std::sync::Arc;

use plan_model::elements::FixtureKind;

use super::listed::told;
use crate::book::Entry;
use crate::rule::{Case, Check, Subject};
use crate::{Place, RestsOn, Rule, Verdict, What};

pub(super) static RULE: Rule = Rule {
    id: "sanitation",
    name: "Toilet, lavatory, tub or shower, kitchen sink",
    measures: "Whether the home has a toilet, a lavatory, a tub or shower, and a kitchen sink.",
    read,
};

#[derive(Debug)]
struct Sanitation;

fn read(_: &Entry<'_>) -> Arc<dyn Check> {
    Arc::new(Sanitation)
}

const NEEDED: [(&str, &[FixtureKind]); 4] = [
    ("a toilet", &[FixtureKind::Toilet]),
    ("a lavatory", &[FixtureKind::Vanity]),
    ("a tub or shower", &[FixtureKind::Tub, FixtureKind::Shower]),
    ("a sink", &[FixtureKind::Sink]),
];

impl Check for Sanitation {
    fn check(&self, case: &Case<'_>) -> Vec<Verdict> {
        let judge = |(what, kinds): (&str, &[FixtureKind])| {
            let fixture = case.home.elements.fixtures.iter().find(|fixture| kinds.contains(&fixture.kind));
            let is_so = fixture.is_some();
            let message =
                if is_so { format!("The home has {what}.") } else { format!("The home has no place for {what}.") };
            let place = Place::point(fixture.map_or_else(|| case.first_room(), |fixture| fixture.at));
            let subject = Subject { id: fixture.map(|fixture| fixture.id.clone()), name: what.to_owned(), place };
            let found = subject.id.iter().cloned().collect();
            told(case, subject, is_so, message).held_by(RestsOn::OneOfMany(Some(found))).of_the(What::Presence)
        };
        NEEDED.into_iter().map(judge).collect()
    }

    fn nothing(&self, _: &Case<'_>) -> Option<String> {
        None
    }
}
