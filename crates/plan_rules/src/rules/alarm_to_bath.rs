use std::sync::Arc;

use plan_geometry::{DetectorFigures, senses_smoke};
use plan_model::Exact;

use crate::book::Entry;
use crate::rule::{Case, Check, Figures, Subject, exact, middle, within_slack};
use crate::{Place, Quantity, RestsOn, Rule, Verdict, What, show};

pub(super) static RULE: Rule = Rule {
    id: "alarm-to-bath",
    name: "Smoke alarms near baths",
    measures: "The distance from each smoke alarm to the nearest door of a room with a tub or shower that it has in the open.",
    read,
};

#[derive(Debug)]
struct AlarmToBath {
    distance: Exact,
}

fn read(entry: &Entry<'_>) -> Arc<dyn Check> {
    Arc::new(AlarmToBath { distance: entry.length("distance") })
}

impl Check for AlarmToBath {
    fn check(&self, case: &Case<'_>) -> Vec<Verdict> {
        let alarms = case.derived.alarms().detectors.iter().filter(|alarm| senses_smoke(alarm.kind));
        let judge = |alarm: &DetectorFigures| {
            let nearest = alarm.bath_door.in_the_open.as_ref()?;
            let measured = within_slack(exact(nearest.distance.value), self.distance, exact(nearest.distance.slack));
            let named = case.named_or_home(Some(&alarm.id));
            let message = format!(
                "From {} to the door of a bath it is {}; {} is asked for.",
                named.name,
                case.length(measured, self.distance),
                show::length(self.distance, case.units())
            );
            let [from, to] = nearest.span;
            let place = Place { at: middle(from, to), dimension: Some(nearest.span), outline: Vec::new() };
            let subject = Subject { id: Some(alarm.id.clone()), name: named.name, place };
            let figures =
                Figures { quantity: Quantity::LengthAtLeast, measured: Some(measured), required: self.distance };
            Some(
                case.compare(subject, figures, message, Vec::new())
                    .resting_on(RestsOn::Neighbours)
                    .of_the(What::BelowCeiling),
            )
        };
        alarms.filter_map(judge).collect()
    }

    fn nothing(&self, case: &Case<'_>) -> Option<String> {
        let has_alarm = case.home.elements.detectors.iter().any(|alarm| senses_smoke(alarm.kind));
        let none_in_the_open = "No smoke alarm has the door of a room with a tub or shower in the open.";
        case.without(has_alarm, "The home has no smoke alarm.", none_in_the_open)
    }
}
