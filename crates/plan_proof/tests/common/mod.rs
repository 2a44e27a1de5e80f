//! One selection judged by itself, to compare with what is proven of all.

use std::ops::ControlFlow;

use plan_choices::refusals;
use plan_geometry::derive;
use plan_model::{Plan, Selection};
use plan_proof::{Fault, Proof, prove};
use plan_rules::{RuleBook, Verdict, judge};

/// What is proven.
pub(crate) fn proven<'plan>(plan: &'plan Plan, book: &RuleBook) -> Proof<'plan> {
    prove(plan, book, &mut |_| ControlFlow::Continue(())).unwrap_or_else(|error| panic!("{error:?}"))
}

/// Whether a selection can be sold, whether one of its rooms does not close, and the rules that it falls short of with their subjects.
fn judged_alone(plan: &Plan, selection: &Selection, book: &RuleBook) -> (bool, bool, Vec<(String, String)>) {
    let home = plan.home(selection);
    let derived = derive(&home);
    let possible =
        refusals(plan, selection).is_empty() && !derived.problems.iter().any(|problem| problem.kind.is_conflict());
    let judgement = judge(&home, &derived, book).expect("the book is for the plan's label");
    let name = |verdict: &Verdict| {
        let subject = verdict.subject.as_ref().filter(|_| !verdict.is_of_home());
        (verdict.rule.to_owned(), subject.map_or_else(String::new, ToString::to_string))
    };
    let is_open = derived.rooms.len() < home.elements.rooms.len();
    // Of a home with a room that does not close nothing is told but that.
    let is_told = |verdict: &&Verdict| !is_open || verdict.rule == "room-closes";
    let mut short: Vec<(String, String)> = judgement.corrections().filter(is_told).map(name).collect();
    short.sort();
    short.dedup();
    (possible, is_open, short)
}

/// Compares what is proven with judging each of some selections by itself. Gives how many could be sold, and how many of those
/// fell short.
pub(crate) fn compare(plan: &Plan, selections: &[Selection], book: &RuleBook) -> (usize, usize) {
    let proof = proven(plan, book);
    let (mut sold, mut fell_short) = (0, 0);
    for selection in selections {
        let (possible, is_open, short) = judged_alone(plan, selection, book);
        let answers: Vec<String> =
            selection.iter().map(|(choice, alternate)| format!("{choice}={alternate}")).collect();
        let answers = answers.join(" ");
        assert_eq!(proof.is_possible(selection), possible, "{answers} can be sold");
        if !possible {
            continue;
        }
        (sold, fell_short) = (sold + 1, fell_short + usize::from(!short.is_empty()));
        assert_eq!(proof.falls_short(selection), !short.is_empty(), "{answers} falls short: {short:?}");
        let is_here = |fault: &&Fault| {
            let is_told = !is_open || fault.rule == Some("room-closes");
            is_told && fault.caused_by.iter().any(|part| part.iter().all(|answer| selection.takes(answer)))
        };
        let subject = |fault: &Fault| fault.of.first().map_or_else(String::new, ToString::to_string);
        let told = proof.faults.iter().filter(is_here);
        let mut told: Vec<(String, String)> =
            told.map(|fault| (fault.rule.unwrap_or_default().to_owned(), subject(fault))).collect();
        told.sort();
        assert_eq!(told, short, "{answers}: the faults");
    }
    (sold, fell_short)
}
