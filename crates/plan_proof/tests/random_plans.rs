//! What is proven of all selections of random plans against judging each of them by itself.

mod common;

use plan_rules::RuleBook;
use plan_testkit::{every_selection, plan_with_choices};

use common::compare;

/// Seed 1. Prints the plan's number where it differs.
#[test]
#[cfg_attr(debug_assertions, ignore = "thousands of plans take too long without optimisation")]
fn random_plans_come_out_as_proven() {
    let books = ["irc-2021", "property-maintenance"].map(|id| RuleBook::built_in(id).expect("a built-in book"));
    let (mut sold, mut short) = (0, 0);
    for index in 0..3_000 {
        let plan = plan_with_choices(1, index);
        let all = every_selection(&plan, plan.choices.iter());
        println!("plan {index} of seed 1: {} selections", all.len());
        let (sold_here, short_here) = compare(&plan, &all, &books[usize::from(index % 2 == 1)]);
        (sold, short) = (sold + sold_here, short + short_here);
    }
    // Both ways out are met with often.
    assert!(sold > 5_000 && short > 1_000 && short < sold, "{sold} could be sold, {short} of them fell short");
}
