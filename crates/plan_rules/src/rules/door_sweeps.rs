use std::sync::Arc;

use plan_geometry::MeasureName;

use super::listed::{place, told};
use crate::book::Entry;
use crate::rule::{Case, Check, Subject};
use crate::{Place, RestsOn, Rule, Verdict};

pub(super) static RULE: Rule = Rule {
    id: "door-sweeps",
    name: "Sweeps of doors",
    measures: "Whether the leaves of two doors sweep the same ground, the leaf of one sweeps the floor right before another, \
               or a leaf is stopped before it stands open at 90 degrees.",
    read,
};

#[derive(Debug)]
struct DoorSweeps;

fn read(_: &Entry<'_>) -> Arc<dyn Check> {
    Arc::new(DoorSweeps)
}

impl Check for DoorSweeps {
    fn check(&self, case: &Case<'_>) -> Vec<Verdict> {
        if self.nothing(case).is_some() {
            return Vec::new();
        }
        let mut verdicts = Vec::new();
        for measure in case.measures() {
            let names = || measure.of.iter().map(|id| case.named_or_home(Some(id)).name).collect::<Vec<_>>();
            let message = match (measure.name, &names()[..]) {
                (MeasureName::SweepCrossing, [one, other, ..]) => format!("The leaves of {one} and of {other} meet."),
                (MeasureName::SweptDoorway, [one, other, ..]) => {
                    format!("The leaf of {one} sweeps the floor before {other}.")
                }
                (MeasureName::LeafAngle, [one, ..]) => {
                    format!("The leaf of {one} is stopped before it stands open at 90 degrees.")
                }
                _ => continue,
            };
            let Some(id) = measure.of.first() else { continue };
            let named = case.named_or_home(Some(id));
            let place = place(measure).unwrap_or_else(|| Place::point(named.at));
            verdicts.push(told(case, Subject { id: Some(id.clone()), name: named.name, place }, false, message));
        }
        if verdicts.is_empty() {
            let subject = Subject { id: None, name: "the home".to_owned(), place: Place::point(case.first_room()) };
            verdicts.push(
                told(case, subject, true, "No leaf of a door is in the way of another.".to_owned())
                    .resting_on(RestsOn::Others),
            );
        }
        verdicts
    }

    fn nothing(&self, case: &Case<'_>) -> Option<String> {
        let has_leaf = case.derived.doors.iter().any(|door| door.leaf.is_some());
        (!has_leaf).then(|| "The home has no door with a leaf that swings.".to_owned())
    }
}
