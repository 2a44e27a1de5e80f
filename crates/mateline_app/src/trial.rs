//! What would come of an alternate before it is chosen.

use plan_choices::{Conflict, RefusalKind};
use plan_model::{Alternate, AlternateRef, Choice, Plan};

use crate::session::Shown;

/// What would come of an alternate if it were chosen with all else as it is.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Trial {
    /// Nothing stands against it.
    Fits,
    /// Why the home could not be had, in a few words: `does not fit with 36 x 66 water-closet room`.
    Not(String),
}

/// Tries every alternate of a choice, in their order.
pub(crate) fn try_alternates(shown: &Shown, choice: &Choice) -> Vec<Trial> {
    choice.alternates.iter().map(|alternate| try_alternate(shown, choice, alternate)).collect()
}

fn try_alternate(shown: &Shown, choice: &Choice, alternate: &Alternate) -> Trial {
    let plan = &shown.document.plan;
    let answer = AlternateRef { choice: choice.id.clone(), alternate: alternate.id.clone() };
    let Ok(selection) = shown.document.selection.with(plan, &answer) else { return Trial::Fits };
    for refusal in plan_choices::refusals(plan, &selection) {
        match refusal.kind {
            RefusalKind::Needs if refusal.answer == answer => {
                return Trial::Not(format!("needs {}", name(plan, &refusal.other)));
            }
            RefusalKind::Excludes if refusal.answer == answer => return does_not_fit(plan, &refusal.other),
            _ if refusal.other.choice == answer.choice => return does_not_fit(plan, &refusal.answer),
            _ => {}
        }
    }
    let home = plan.home(&selection);
    let conflicts = plan_choices::conflicts(&home, &plan_geometry::derive_after(&shown.derived, &home));
    let mut mine = conflicts.iter().filter(|conflict| conflict.alternates.contains(&answer));
    if let Some(conflict) = mine.next() {
        let other = conflict.alternates.iter().find(|other| **other != answer);
        return other.map_or_else(|| Trial::Not("does not fit here".to_owned()), |other| does_not_fit(plan, other));
    }
    let is_new = |conflict: &Conflict| shown.conflicts.iter().all(|known| known.sentence != conflict.sentence);
    if conflicts.iter().any(is_new) {
        return Trial::Not("does not fit here".to_owned());
    }
    Trial::Fits
}

fn does_not_fit(plan: &Plan, other: &AlternateRef) -> Trial {
    Trial::Not(format!("does not fit with {}", name(plan, other)))
}

fn name<'a>(plan: &'a Plan, answer: &'a AlternateRef) -> &'a str {
    let alternate = plan.choice(&answer.choice).and_then(|choice| choice.alternate(&answer.alternate));
    alternate.map_or(answer.alternate.as_str(), |alternate| &alternate.name)
}
