//! What is proven of all selections against judging each of them by itself.

use std::ops::ControlFlow;

use plan_choices::refusals;
use plan_geometry::derive;
use plan_model::{AlternateRef, Plan, Selection, file};
use plan_proof::{Proof, prove};
use plan_rules::{RuleBook, judge};

fn sample(name: &str) -> Plan {
    let path = format!("{}/../../sample-plans/{name}.json", env!("CARGO_MANIFEST_DIR"));
    let text = std::fs::read_to_string(&path).unwrap_or_else(|error| panic!("{path}: {error}"));
    file::read(&text).unwrap_or_else(|error| panic!("{error}"))
}

fn proven<'plan>(plan: &'plan Plan, book: &RuleBook) -> Proof<'plan> {
    prove(plan, book, &mut |_| ControlFlow::Continue(())).unwrap_or_else(|error| panic!("{error:?}"))
}

/// The selections of the choices that change what is drawn: finishes change nothing that is judged.
fn every_drawing(plan: &Plan) -> Vec<Selection> {
    let changes = |choice: &&plan_model::Choice| {
        choice.alternates.iter().any(|a| !a.brings.is_empty() || !a.removes.is_empty() || !a.needs.is_empty())
    };
    let mut all = vec![Selection::included(plan)];
    for choice in plan.choices.iter().filter(changes) {
        let answered = |selection: &Selection| {
            let answer = |alternate: &plan_model::Alternate| AlternateRef {
                choice: choice.id.clone(),
                alternate: alternate.id.clone(),
            };
            let taken = choice.alternates.iter().map(answer).map(|answer| selection.with(plan, &answer));
            taken.map(|selection| selection.expect("the plan has it")).collect::<Vec<_>>()
        };
        all = all.iter().flat_map(answered).collect();
    }
    all
}

/// Whether a selection can be sold, and the rules that it falls short of with their subjects.
fn judged_alone(plan: &Plan, selection: &Selection, book: &RuleBook) -> (bool, Vec<(String, String)>) {
    let home = plan.home(selection);
    let derived = derive(&home);
    let possible =
        refusals(plan, selection).is_empty() && !derived.problems.iter().any(|problem| problem.kind.is_conflict());
    let judgement = judge(&home, &derived, book).expect("the book is for the plan's label");
    let name = |verdict: &plan_rules::Verdict| {
        let subject = verdict.subject.as_ref().filter(|_| !verdict.is_of_home());
        (verdict.rule.to_owned(), subject.map_or_else(String::new, ToString::to_string))
    };
    let mut short: Vec<(String, String)> = judgement.corrections().map(name).collect();
    short.sort();
    short.dedup();
    (possible, short)
}

fn compare(plan: &Plan, selections: &[Selection], book: &RuleBook) {
    let proof = proven(plan, book);
    for selection in selections {
        let (possible, short) = judged_alone(plan, selection, book);
        let answers: Vec<String> =
            selection.iter().map(|(choice, alternate)| format!("{choice}={alternate}")).collect();
        let answers = answers.join(" ");
        assert_eq!(proof.is_possible(selection), possible, "{answers}");
        if possible {
            assert_eq!(proof.falls_short(selection), !short.is_empty(), "{answers}: {short:?}");
            let told = proof
                .faults
                .iter()
                .filter(|fault| fault.caused_by.iter().any(|part| part.iter().all(|answer| selection.takes(answer))));
            let subject = |fault: &plan_proof::Fault| fault.of.first().map_or_else(String::new, ToString::to_string);
            let mut told: Vec<(String, String)> =
                told.map(|fault| (fault.rule.unwrap_or_default().to_owned(), subject(fault))).collect();
            told.sort();
            assert_eq!(told, short, "{answers}");
        }
    }
}

#[test]
fn every_drawing_of_the_demo_home_comes_out_as_proven() {
    let plan = sample("dunlin-58");
    let all = every_drawing(&plan);
    let some: Vec<Selection> = if cfg!(debug_assertions) { all.into_iter().step_by(23).collect() } else { all };
    compare(&plan, &some, &RuleBook::built_in("irc-2021").expect("a built-in book"));
}
