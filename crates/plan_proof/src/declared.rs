//! What a plan itself says of alternates that go together.

use plan_model::{AlternateRef, Count, Plan};

use crate::diagram::{Selections, Variables};

/// The selections that a plan does not refuse.
pub(crate) fn declared(plan: &Plan, variables: &Variables) -> Selections {
    let mut set = variables.all();
    for (choice, one) in plan.choices.iter().enumerate() {
        for (alternate, answer) in one.alternates.iter().enumerate() {
            let taken = variables.part(&[(choice, alternate)]);
            for other in answer.needs.iter().filter_map(|other| place(plan, other)) {
                set = set.without(&taken.without(&variables.part(&[other])));
            }
            for other in answer.excludes.iter().filter_map(|other| place(plan, other)) {
                set = set.without(&taken.and(&variables.part(&[other])));
            }
        }
    }
    plan.counts.iter().fold(set, |set, count| set.without(&beyond(plan, variables, count)))
}

/// The selections that have too few or too many of what is counted.
fn beyond(plan: &Plan, variables: &Variables, count: &Count) -> Selections {
    let counted = count.of.iter().filter_map(|answer| place(plan, answer));
    let taking = variables.by_number(&variables.all(), counted.map(|answer| variables.part(&[answer])));
    let (least, most) = (count.at_least.unwrap_or(0), count.at_most.unwrap_or(usize::MAX));
    let wrong = taking.iter().enumerate().filter(|(number, _)| *number < least || *number > most);
    let wrong = wrong.fold(variables.none(), |all, (_, set)| all.or(set));
    match count.with.as_ref().and_then(|with| place(plan, with)) {
        Some(with) => wrong.and(&variables.part(&[with])),
        None => wrong,
    }
}

/// The places of an answer's choice and alternate.
pub(crate) fn place(plan: &Plan, answer: &AlternateRef) -> Option<(usize, usize)> {
    let choice = plan.choices.iter().position(|choice| choice.id == answer.choice)?;
    let alternate = plan.choices[choice].alternates.iter().position(|alternate| alternate.id == answer.alternate)?;
    Some((choice, alternate))
}
