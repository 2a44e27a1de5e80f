//! Each rule has a page in `tests/rules`: prose for people, and tables of cases that this test builds and judges. What a page
//! may say is told in `plan_testkit::rule_page`.

use std::fs;
use std::path::PathBuf;

use plan_geometry::derive;
use plan_model::{LegalKind, Selection};
use plan_rules::{Limit, Outcome, Quantity, RuleBook, Verdict, registry};
use plan_testkit::rule_page::{Case, cases};

#[test]
fn every_rule_has_a_page_and_every_page_a_rule() {
    let mut pages: Vec<String> = fs::read_dir(folder())
        .expect("the pages are there")
        .map(|page| page.expect("a page can be listed").path())
        .map(|path| path.file_stem().expect("a page has a name").to_string_lossy().into_owned())
        .collect();
    pages.sort();
    let mut rules: Vec<&str> = registry().map(|rule| rule.id).collect();
    rules.sort_unstable();
    assert_eq!(pages, rules);
}

#[test]
fn every_case_comes_out_as_its_page_says() {
    let mut wrong = Vec::new();
    for rule in registry() {
        let page = fs::read_to_string(folder().join(rule.id).with_extension("md")).expect("the rule has a page");
        let cases = cases(&page);
        let comes_out = |outcomes: &[&str]| cases.iter().any(|case| outcomes.contains(&case.outcome.as_str()));
        assert!(comes_out(&["met"]), "{}: no case is met", rule.id);
        assert!(comes_out(&["correction", "advisory"]), "{}: no case falls short", rule.id);
        for case in cases {
            let found = judge(&case, rule.id);
            if found != (case.measured.clone(), case.outcome.clone()) {
                wrong.push(format!("{} {}: {} came out as {found:?}", rule.id, case.name, case.input));
            }
        }
    }
    assert!(wrong.is_empty(), "{}", wrong.join("\n"));
}

/// A figure that the plan may not hold has a case without it, and of every other the page says why it is always known. (Rooms
/// that do not close keep any rule from judging; that is no matter of its figure.)
#[test]
fn every_page_has_a_case_that_cannot_be_told_or_says_why_there_is_none() {
    for rule in registry() {
        let page = fs::read_to_string(folder().join(rule.id).with_extension("md")).expect("the rule has a page");
        let cannot_be_told = cases(&page).iter().any(|case| case.measured.starts_with("unknown"));
        let says_why = page.lines().any(|line| line.starts_with("Never unknown: "));
        assert!(cannot_be_told != says_why, "{}: one of the two, not both", rule.id);
    }
}

#[test]
fn every_worked_example_stands_on_a_page_or_is_said_to_be_on_none() {
    let page = |rule: &str| fs::read_to_string(folder().join(rule).with_extension("md")).expect("the rule has a page");
    let pages: Vec<String> = registry().map(|rule| page(rule.id)).collect();
    let others = fs::read_to_string(folder().with_file_name("worked_examples.md")).expect("the list is there");
    for number in 1..=52 {
        let name = format!("W{number}");
        let is_named = |text: &str| text.split(|letter: char| !letter.is_alphanumeric()).any(|word| word == name);
        let told = others.lines().any(|line| line.starts_with(&format!("| {name} |")));
        assert!(pages.iter().any(|page| is_named(page)) != told, "{name}: on a page or in the list, not both");
    }
}

fn folder() -> PathBuf {
    PathBuf::from(env!("CARGO_MANIFEST_DIR")).join("tests/rules")
}

/// The book of a case, with what the page lays over its rule.
fn book(case: &Case, rule: &str) -> RuleBook {
    let id = &case.book;
    let book = RuleBook::built_in(id).unwrap_or_else(|| panic!("there is no book {id}"));
    let Some(laid_over) = &case.laid_over else { return book };
    let text = format!(
        "mateline_amendment = 1\nid = \"page\"\nname = \"Page\"\namends = \"{id}\"\nauthority = \"Page\"\ndate = \"-\"\n\
         reason = \"Page\"\n[rules.{rule}]\n{laid_over}\n"
    );
    book.amended(&text).unwrap_or_else(|error| panic!("{error}"))
}

/// The measured figure as the page would write it, and the outcome.
fn judge(case: &Case, rule: &str) -> (String, String) {
    let book = book(case, rule);
    let mut plan = case.plan();
    plan.home.legal_kind = book.facts().legal_kind.unwrap_or(LegalKind::StateLabel);
    let home = plan.home(&Selection::included(&plan));
    let judgement = plan_rules::judge(&home, &derive(&home), &book).expect("book and home are of one kind");
    let verdicts = || judgement.verdicts.iter().filter(|verdict| verdict.rule == rule);
    // What falls short is what the case is about.
    let verdict = verdicts().min_by_key(|verdict| verdict.outcome).expect("no rule of the book is silent");
    let outcome = match verdict.outcome {
        Outcome::Correction => "correction",
        Outcome::Unknown => "unknown",
        Outcome::Advisory => "advisory",
        Outcome::Met => "met",
        Outcome::DoesNotApply => "does not apply",
    };
    (measured_as_written(case, verdict), outcome.to_owned())
}

fn measured_as_written(case: &Case, verdict: &Verdict) -> String {
    if verdict.outcome == Outcome::DoesNotApply {
        return if case.measured.is_empty() { String::new() } else { verdict.message.clone() };
    }
    let Some(measured) = verdict.measured else {
        // Whatever is not known can be entered, and there is nothing to enter where there is nothing to measure.
        return match &verdict.enter {
            Some(what) if case.measured.starts_with("unknown: ") => format!("unknown: {what}"),
            Some(_) => "unknown".to_owned(),
            None if verdict.outcome == Outcome::Unknown => "unknown, with nothing to enter".to_owned(),
            None => "none".to_owned(),
        };
    };
    assert_eq!(verdict.enter, None, "{}: the figure is known", case.name);
    let expected = match verdict.quantity {
        Quantity::CountAtLeast => case.measured.parse().ok().map(i128::into),
        Quantity::Possible => Some(i128::from(case.measured == "yes").into()),
        _ => Limit::parse(&case.measured).ok().map(|limit| match limit {
            Limit::Length(figure) | Limit::Area(figure) | Limit::Share(figure) | Limit::Count(figure) => figure,
        }),
    };
    if expected == Some(measured) { case.measured.clone() } else { verdict.message.clone() }
}
