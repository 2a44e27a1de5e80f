//! Every selection of a plan, one after the other, to compare with what is known of all at once.

use plan_model::{Alternate, AlternateRef, Choice, Plan, Selection};

/// Every selection of some choices of a plan, with what is included in all others.
#[must_use]
pub fn every_selection<'plan>(plan: &'plan Plan, of: impl Iterator<Item = &'plan Choice>) -> Vec<Selection> {
    let mut all = vec![Selection::included(plan)];
    for choice in of {
        let answered = |selection: &Selection| {
            let answer =
                |alternate: &Alternate| AlternateRef { choice: choice.id.clone(), alternate: alternate.id.clone() };
            let taken = choice.alternates.iter().map(answer).map(|answer| selection.with(plan, &answer));
            taken.map(|selection| selection.expect("the plan has it")).collect::<Vec<_>>()
        };
        all = all.iter().flat_map(answered).collect();
    }
    all
}
