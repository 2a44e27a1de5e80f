//! A rule of a book that says nothing would look like one that is met: every rule ends in a verdict of some kind.

use std::collections::BTreeSet;
use std::fs;
use std::path::Path;

use plan_geometry::derive;
use plan_model::{LegalKind, Length, Plan, Selection, file};
use plan_rules::{Outcome, RuleBook, judge};
use plan_testkit::SmallHome;

/// Every sample plan.
fn sample_plans() -> Vec<Plan> {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("../../sample-plans");
    let files = fs::read_dir(folder).expect("the samples are there").map(|entry| entry.expect("a file").path());
    let plans = files.filter(|path| path.extension().is_some_and(|extension| extension == "json"));
    let read = |path| file::read(&fs::read_to_string(path).expect("a readable plan")).expect("a sound plan");
    plans.map(read).collect()
}

/// Every book and example of an amendment.
fn books() -> Vec<RuleBook> {
    let ids = RuleBook::built_in_ids().chain(RuleBook::example_ids());
    ids.map(|id| RuleBook::built_in(id).expect("it is built in")).collect()
}

/// The rules of a book that leave no verdict of a plan with a selection.
fn silent(plan: &Plan, selection: &Selection, book: &RuleBook) -> Vec<&'static str> {
    let home = plan.home(selection);
    let judgement = judge(&home, &derive(&home), book).expect("book and home are of one kind");
    let told: BTreeSet<&str> = judgement.verdicts.iter().map(|verdict| verdict.rule).collect();
    book.rules().iter().map(|rule| rule.rule.id).filter(|rule| !told.contains(rule)).collect()
}

#[test]
fn no_rule_of_the_book_is_silent() {
    let plans = sample_plans();
    assert!(plans.len() >= 5, "the samples were looked for in the wrong place");
    let books = books();
    for plan in &plans {
        let included = Selection::included(plan);
        let alternates = plan.choices.iter().flat_map(|choice| choice.alternates.iter().map(move |one| (choice, one)));
        let others = alternates.filter_map(|(choice, alternate)| {
            let answer = format!("{}={}", choice.id, alternate.id).parse().expect("an answer");
            included.with(plan, &answer).ok()
        });
        for selection in std::iter::once(included.clone()).chain(others) {
            for book in books.iter().filter(|book| book.is_for(plan.home.legal_kind)) {
                let silent = silent(plan, &selection, book);
                assert!(silent.is_empty(), "{} by {}: {silent:?}", plan.name, book.facts().id);
            }
        }
    }
}

#[test]
fn nor_where_a_room_does_not_close() {
    for book in books() {
        let mut plan = SmallHome::new("bedroom", Length::inches(120), Length::inches(144)).plan();
        plan.base.walls.retain(|wall| wall.id.as_str() != "front");
        plan.home.legal_kind = book.facts().legal_kind.unwrap_or(LegalKind::StateLabel);
        let selection = Selection::included(&plan);
        assert_eq!(silent(&plan, &selection, &book), [] as [&str; 0], "{}", book.facts().id);
        // What would be judged if the room closed is not said not to apply.
        let home = plan.home(&selection);
        let judgement = judge(&home, &derive(&home), &book).expect("book and home are of one kind");
        let area = judgement.verdicts.iter().find(|verdict| verdict.rule == "habitable-area");
        let unknown = judgement.unknown().find(|verdict| verdict.enter.is_none());
        assert_eq!(unknown, None, "whatever is not known can be entered");
        assert!(area.is_none_or(|verdict| verdict.outcome == Outcome::Unknown), "{area:?}");
    }
}
