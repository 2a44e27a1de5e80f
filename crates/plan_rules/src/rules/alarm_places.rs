//! What the rules on places of alarms share.

use plan_geometry::{DetectorFigures, OutsideBedroom};
use plan_model::Exact;
use plan_model::elements::DetectorKind;

use super::listed::{not_known, told};
use crate::rule::{Case, Subject, exact};
use crate::{Place, RestsOn, Verdict, What, show};

/// What an alarm senses.
pub(super) struct Sense {
    /// In words: "smoke alarm".
    pub(super) alarm: &'static str,
    pub(super) has: fn(DetectorKind) -> bool,
    pub(super) outside: fn(&OutsideBedroom) -> Option<&plan_geometry::AlarmDistance>,
}

/// A verdict for every sleeping area: whether an alarm hangs outside it within a distance of each bedroom's doorway.
pub(super) fn outside_sleeping_areas(case: &Case<'_>, within: Exact, sense: &Sense) -> Vec<Verdict> {
    let alarms = case.derived.alarms();
    let areas = case.derived.room_graph().sleeping_areas().iter().enumerate();
    let judge = |(index, area): (usize, &plan_geometry::SleepingArea)| {
        let outside: Vec<&OutsideBedroom> =
            alarms.outside_bedrooms.iter().filter(|outside| outside.area == index).collect();
        let near = |outside: &&OutsideBedroom| {
            (sense.outside)(outside).is_some_and(|nearest| exact(nearest.distance.value) <= within)
        };
        let is_so = !outside.is_empty() && outside.iter().all(near);
        let names: Vec<&str> = area.bedrooms.iter().filter_map(|id| Some(case.room(id)?.name.as_str())).collect();
        let names = super::spaces::list(names.into_iter());
        let within = show::length(within, case.units());
        let message = if is_so {
            format!("A {} hangs outside {names}, within {within} of each door.", sense.alarm)
        } else {
            format!("No {} hangs outside {names} within {within} of each door; one is asked for.", sense.alarm)
        };
        let at = area.bedrooms.first().and_then(|id| case.room(id)).map_or_else(|| case.first_room(), |room| room.at);
        let subject = Subject { id: area.bedrooms.first().cloned(), name: names, place: Place::point(at) };
        if !is_so && !case.every_room_closes() {
            let whether = format!("a {} hangs outside {}", sense.alarm, subject.name);
            return not_known(case, subject, &whether);
        }
        told(case, subject, is_so, message).resting_on(RestsOn::Neighbours).of_the(What::BelowCeiling)
    };
    areas.map(judge).collect()
}

/// Whether an alarm of this sense hangs in a room.
pub(super) fn hangs_in(case: &Case<'_>, room: &plan_model::Id, sense: &Sense) -> bool {
    let has = |alarm: &DetectorFigures| (sense.has)(alarm.kind);
    case.derived.alarms().in_room(room).any(has)
}

pub(super) const SMOKE: Sense =
    Sense { alarm: "smoke alarm", has: plan_geometry::senses_smoke, outside: |outside| outside.smoke.as_ref() };

pub(super) const CARBON_MONOXIDE: Sense = Sense {
    alarm: "carbon monoxide alarm",
    has: plan_geometry::senses_carbon_monoxide,
    outside: |outside| outside.carbon_monoxide.as_ref(),
};
