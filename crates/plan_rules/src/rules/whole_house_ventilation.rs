use std::sync::Arc;

use plan_model::{Exact, Length};

use super::light::has_whole_house_ventilation;
use crate::book::Entry;
use crate::rule::{Case, Check, Figures, Subject, exact};
use crate::{Outcome, Place, Quantity, RestsOn, Rule, Verdict};

pub(super) static RULE: Rule = Rule {
    id: "whole-house-ventilation",
    name: "Whole-house ventilation",
    measures: "The air that the whole-house ventilator moves, as the plan states it, against the floor of all heated rooms.",
    read,
};

/// Figures in cubic feet a minute.
#[derive(Debug)]
struct WholeHouseVentilation {
    /// For each 1,000 sq ft of floor.
    per_thousand: Exact,
    least: Exact,
    most: Exact,
}

fn read(entry: &Entry<'_>) -> Arc<dyn Check> {
    Arc::new(WholeHouseVentilation {
        per_thousand: entry.count("cfm_for_1000_sq_ft"),
        least: entry.count("least_cfm"),
        most: entry.count("most_cfm"),
    })
}

impl Check for WholeHouseVentilation {
    fn check(&self, case: &Case<'_>) -> Vec<Verdict> {
        let heated = case.derived.rooms.iter().filter(|room| room.usage.is_heated());
        let floor: Exact = heated.map(|room| room.floor_area.exact()).sum();
        let square_feet = floor / (exact(Length::FOOT) * exact(Length::FOOT));
        let required = (square_feet * self.per_thousand / Exact::from(1000)).clamp(self.least, self.most);
        // The floor of rooms that do not close is missing, unless the most that is ever asked for is reached without.
        let floor_is_known = case.every_room_closes() || required == self.most;
        let stated =
            case.home.plan.home.whole_house_ventilation.as_ref().and_then(|ventilation| ventilation.airflow_cfm);
        let measured = match stated {
            _ if !has_whole_house_ventilation(case) => Some(Exact::from(0)),
            Some(airflow) if Exact::from(i128::from(airflow)) >= required && !floor_is_known => None,
            airflow => airflow.map(|airflow| Exact::from(i128::from(airflow))),
        };
        let asked = format!("{} cfm are asked for", required.ceil());
        let message = match measured {
            Some(measured) => format!("The whole-house ventilator moves {measured} cfm; {asked}."),
            None if stated.is_some() => {
                format!(
                    "How much floor the whole-house ventilator serves is not known; at least {} cfm are asked for.",
                    required.ceil()
                )
            }
            None => format!("The plan does not state the air that the whole-house ventilator moves; {asked}."),
        };
        let subject = Subject { id: None, name: "the home".to_owned(), place: Place::point(case.first_room()) };
        let figures = Figures { quantity: Quantity::CountAtLeast, measured, required };
        let outcome = if measured.is_none() { Outcome::Unknown } else { figures.outcome() };
        let air = || "the air that the whole-house ventilator moves".to_owned();
        let enter = || case.enter_walls().filter(|_| stated.is_some()).unwrap_or_else(air);
        let verdict = case.verdict(outcome, subject, figures, message, Vec::new());
        vec![verdict.entering(enter).resting_on(RestsOn::Floors)]
    }

    fn nothing(&self, _: &Case<'_>) -> Option<String> {
        None
    }
}
