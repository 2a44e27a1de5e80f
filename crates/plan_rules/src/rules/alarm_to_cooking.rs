use std::sync::Arc;

use plan_geometry::DetectorFigures;
use plan_model::Exact;
use plan_model::elements::DetectorKind;

use crate::book::Entry;
use crate::rule::{Case, Check, Figures, Subject, exact, middle, within_slack};
use crate::{Place, Quantity, RestsOn, Rule, Verdict, What, show};

pub(super) static RULE: Rule = Rule {
    id: "alarm-to-cooking",
    name: "Smoke alarms near cooking appliances",
    measures: "The distance from each smoke alarm to the nearest range that it has in the open, by the kind of alarm.",
    read,
};

#[derive(Debug)]
struct AlarmToCooking {
    ionization: Exact,
    photoelectric: Exact,
}

fn read(entry: &Entry<'_>) -> Arc<dyn Check> {
    let (ionization, photoelectric) = (entry.length("ionization"), entry.length("photoelectric"));
    Arc::new(AlarmToCooking { ionization, photoelectric })
}

impl AlarmToCooking {
    const fn required(&self, kind: DetectorKind) -> Option<Exact> {
        match kind {
            DetectorKind::Ionization => Some(self.ionization),
            DetectorKind::Photoelectric | DetectorKind::Combined => Some(self.photoelectric),
            DetectorKind::CarbonMonoxide => None,
        }
    }
}

impl Check for AlarmToCooking {
    fn check(&self, case: &Case<'_>) -> Vec<Verdict> {
        let judge = |alarm: &DetectorFigures| {
            let (required, nearest) = (self.required(alarm.kind)?, alarm.cooking.in_the_open.as_ref()?);
            let measured = within_slack(exact(nearest.distance.value), required, exact(nearest.distance.slack));
            let named = case.named_or_home(Some(&alarm.id));
            let message = format!(
                "From {} to the range it is {}; {} is asked for.",
                named.name,
                case.length(measured, required),
                show::length(required, case.units())
            );
            let [from, to] = nearest.span;
            let place = Place { at: middle(from, to), dimension: Some(nearest.span), outline: Vec::new() };
            let subject = Subject { id: Some(alarm.id.clone()), name: named.name, place };
            let figures = Figures { quantity: Quantity::LengthAtLeast, measured: Some(measured), required };
            Some(
                case.compare(subject, figures, message, Vec::new())
                    .resting_on(RestsOn::Neighbours)
                    .of_the(What::BelowCeiling),
            )
        };
        case.derived.alarms().detectors.iter().filter_map(judge).collect()
    }

    fn nothing(&self, case: &Case<'_>) -> Option<String> {
        let has_alarm = case.home.elements.detectors.iter().any(|alarm| self.required(alarm.kind).is_some());
        case.without(has_alarm, "The home has no smoke alarm.", "No smoke alarm has a range in the open.")
    }
}
