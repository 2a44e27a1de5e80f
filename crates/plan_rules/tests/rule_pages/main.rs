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

fn folder() -> PathBuf {
    PathBuf::from(env!("CARGO_MANIFEST_DIR")).join("tests/rules")
}

/// The measured figure as the page would write it, and the outcome.
fn judge(case: &Case, rule: &str) -> (String, String) {
    let book = RuleBook::built_in(&case.book).unwrap_or_else(|| panic!("there is no book {}", case.book));
    let mut plan = case.plan();
    plan.home.legal_kind = book.facts().legal_kind.unwrap_or(LegalKind::StateLabel);
    let home = plan.home(&Selection::included(&plan));
    let judgement = plan_rules::judge(&home, &derive(&home), &book).expect("book and home are of one kind");
    let verdicts = || judgement.verdicts.iter().filter(|verdict| verdict.rule == rule);
    // What falls short is what the case is about.
    let Some(verdict) = verdicts().min_by_key(|verdict| verdict.outcome) else {
        return (case.measured.clone(), "no verdict".to_owned());
    };
    let outcome = match verdict.outcome {
        Outcome::Correction => "correction",
        Outcome::Unknown => "unknown",
        Outcome::Advisory => "advisory",
        Outcome::Met => "met",
    };
    (measured_as_written(case, verdict), outcome.to_owned())
}

fn measured_as_written(case: &Case, verdict: &Verdict) -> String {
    let Some(measured) = verdict.measured else {
        return if verdict.outcome == Outcome::Correction { "none" } else { "unknown" }.to_owned();
    };
    let expected = match verdict.quantity {
        Quantity::CountAtLeast => case.measured.parse().ok().map(i128::into),
        Quantity::Possible => Some(i128::from(case.measured == "yes").into()),
        _ => Limit::parse(&case.measured).ok().map(|limit| match limit {
            Limit::Length(figure) | Limit::Area(figure) | Limit::Share(figure) | Limit::Count(figure) => figure,
        }),
    };
    if expected == Some(measured) { case.measured.clone() } else { verdict.message.clone() }
}
