use std::sync::Arc;

use plan_geometry::{DoorFigures, LandingFigures};
use plan_model::Exact;

use super::listed;
use crate::book::Entry;
use crate::rule::{Case, Check, Figures, Subject, exact, within_slack};
use crate::{Place, Quantity, Rule, Verdict, show};

pub(super) static RULE: Rule = Rule {
    id: "landing",
    name: "Landings at exterior doors",
    measures: "The landing outside each exterior door: whether it lies before the whole door, how deep it is from the wall, and \
               how far it lies below the threshold.",
    read,
};

const NO_EXTERIOR_DOOR: &str = "The home has no exterior door.";

#[derive(Debug)]
struct Landing {
    depth: Exact,
    below_threshold: Exact,
}

fn read(entry: &Entry<'_>) -> Arc<dyn Check> {
    Arc::new(Landing { depth: entry.length("depth"), below_threshold: entry.length("below_threshold") })
}

impl Check for Landing {
    fn check(&self, case: &Case<'_>) -> Vec<Verdict> {
        let doors = case.derived.doors.iter().filter(|door| door.is_exterior);
        let landing = |door: &DoorFigures| case.derived.landings().iter().find(|landing| landing.door == door.id);
        doors.map(|door| self.judge(case, door, landing(door))).collect()
    }

    fn nothing(&self, case: &Case<'_>) -> Option<String> {
        let is_exterior = case.derived.doors.iter().any(|door| door.is_exterior);
        if is_exterior { None } else { case.without(listed::has_doors(case), NO_EXTERIOR_DOOR, NO_EXTERIOR_DOOR) }
    }
}

impl Landing {
    fn judge(&self, case: &Case<'_>, door: &DoorFigures, landing: Option<&LandingFigures>) -> Verdict {
        let units = case.units();
        let name = case.named_or_home(Some(&door.id)).name;
        let place = match landing {
            Some(landing) => Place { outline: landing.outline.to_vec(), ..Place::opening(&door.outline, None) },
            None => Place::opening(&door.outline, None),
        };
        let subject = Subject { id: Some(door.id.clone()), name: name.clone(), place };
        let depth = Figures { quantity: Quantity::LengthAtLeast, measured: None, required: self.depth };
        let asked = format!(
            "one before the whole door, {} deep and at most {} below the threshold is asked for",
            show::length(self.depth, units),
            show::length(self.below_threshold, units)
        );
        let Some(landing) = landing else {
            let message = format!("The plan draws no landing outside {name}; {asked}.");
            let enter = || format!("a landing outside door \"{}\"", door.id);
            return case.compare(subject, depth, message, Vec::new()).entering(enter);
        };
        let measured = if landing.spans_the_door {
            within_slack(exact(landing.depth.value), self.depth, exact(landing.depth.slack))
        } else {
            Exact::from(0)
        };
        let depth = Figures { measured: Some(measured), ..depth };
        let below = exact(landing.below_threshold);
        let drop = Figures { quantity: Quantity::LengthAtMost, measured: Some(below), required: self.below_threshold };
        let before = if landing.spans_the_door { "" } else { ", not before the whole door" };
        let message = format!(
            "The landing outside {name} is {} deep{before} and {} below the threshold; {asked}.",
            case.length(exact(landing.depth.value), self.depth),
            case.length(below, self.below_threshold),
        );
        let figures = if drop.outcome() < depth.outcome() { drop } else { depth };
        case.compare(subject, figures, message, Vec::new())
    }
}
