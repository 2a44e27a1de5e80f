use std::fmt;

use plan_model::{Alternate, AlternateRef, Choice, Plan, Selection};

/// Why a selection cannot be sold: one alternate stands against another.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Refusal {
    /// The alternate that was chosen.
    pub answer: AlternateRef,
    /// The alternate of another choice that it names.
    pub other: AlternateRef,
    /// Whether the other one is missing or in the way.
    pub kind: RefusalKind,
    names: Names,
}

/// Whether an alternate misses another one or cannot stand beside it.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum RefusalKind {
    /// The other alternate is needed and not chosen.
    Needs,
    /// The other alternate is chosen and excluded.
    Excludes,
}

/// The two alternates as people call them.
#[derive(Clone, Debug, PartialEq, Eq)]
struct Names {
    choice: String,
    alternate: String,
    other_choice: String,
    other_alternate: String,
}

impl fmt::Display for Refusal {
    /// One sentence without its full stop: `Flex room "Fourth bedroom" needs Laundry "Stacked in the pantry"`.
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let Names { choice, alternate, other_choice, other_alternate } = &self.names;
        match self.kind {
            RefusalKind::Needs => write!(f, "{choice} \"{alternate}\" needs {other_choice} \"{other_alternate}\""),
            RefusalKind::Excludes => {
                write!(f, "{choice} \"{alternate}\" cannot be had with {other_choice} \"{other_alternate}\"")
            }
        }
    }
}

/// Every reason that the plan declares against a selection, in the order of the file; empty where there is none.
#[must_use]
pub fn refusals(plan: &Plan, selection: &Selection) -> Vec<Refusal> {
    plan.choices
        .iter()
        .filter_map(|choice| Some((choice, choice.alternate(selection.alternate(&choice.id)?)?)))
        .flat_map(|(choice, alternate)| of_alternate(plan, selection, choice, alternate))
        .collect()
}

fn of_alternate(plan: &Plan, selection: &Selection, choice: &Choice, alternate: &Alternate) -> Vec<Refusal> {
    let missing = alternate.needs.iter().filter(|other| !selection.takes(other));
    let in_the_way = alternate.excludes.iter().filter(|other| selection.takes(other));
    missing
        .map(|other| (other, RefusalKind::Needs))
        .chain(in_the_way.map(|other| (other, RefusalKind::Excludes)))
        .map(|(other, kind)| {
            let other_choice = plan.choice(&other.choice);
            let other_alternate = other_choice.and_then(|choice| choice.alternate(&other.alternate));
            Refusal {
                answer: AlternateRef { choice: choice.id.clone(), alternate: alternate.id.clone() },
                other: other.clone(),
                kind,
                names: Names {
                    choice: choice.name.clone(),
                    alternate: alternate.name.clone(),
                    other_choice: other_choice.map_or_else(|| other.choice.to_string(), |choice| choice.name.clone()),
                    other_alternate: other_alternate
                        .map_or_else(|| other.alternate.to_string(), |alternate| alternate.name.clone()),
                },
            }
        })
        .collect()
}

#[cfg(test)]
pub(crate) mod tests {
    use super::*;

    /// A plan without a house: three choices that know of each other.
    pub(crate) fn plan() -> Plan {
        let text = r#"{
            "mateline_plan": 1, "name": "Test", "maker": "Test", "units": "in", "currency": "USD",
            "base_price": "100000", "home": { "legal_kind": "state-label" }, "modules": [], "base": {},
            "choices": [
                { "id": "flex", "name": "Flex room", "alternates": [
                    { "id": "study", "name": "Study", "included": true },
                    { "id": "bedroom", "name": "Fourth bedroom", "price": "1500", "needs": ["laundry=stacked"] } ] },
                { "id": "laundry", "name": "Laundry", "alternates": [
                    { "id": "side", "name": "Side by side", "included": true },
                    { "id": "stacked", "name": "Stacked in the pantry", "excludes": ["porch=none"] } ] },
                { "id": "porch", "name": "Porch", "alternates": [
                    { "id": "small", "name": "Small", "included": true },
                    { "id": "none", "name": "None", "price": "-400" } ] }
            ]
        }"#;
        plan_model::file::read(text).unwrap_or_else(|error| panic!("{error}"))
    }

    pub(crate) fn answer(text: &str) -> AlternateRef {
        text.parse().expect("CHOICE=ALTERNATE")
    }

    fn refused(answers: &[&str]) -> Vec<String> {
        let plan = plan();
        let take = |selection: Selection, text: &&str| selection.with(&plan, &answer(text)).expect("the plan has it");
        let selection = answers.iter().fold(Selection::included(&plan), take);
        refusals(&plan, &selection).iter().map(Refusal::to_string).collect()
    }

    #[test]
    fn the_included_selection_is_not_refused() {
        assert!(refused(&[]).is_empty());
        assert!(refused(&["flex=bedroom", "laundry=stacked"]).is_empty());
    }

    #[test]
    fn a_missing_need_is_named() {
        assert_eq!(refused(&["flex=bedroom"]), [r#"Flex room "Fourth bedroom" needs Laundry "Stacked in the pantry""#]);
    }

    #[test]
    fn an_excluded_alternate_is_named_once() {
        let sentence = r#"Laundry "Stacked in the pantry" cannot be had with Porch "None""#;
        assert_eq!(refused(&["laundry=stacked", "porch=none"]), [sentence]);
    }
}
