//! Each rule has a page in `tests/rules`: prose for people, and tables of cases that this test builds and judges.
//!
//! A table has the columns `case`, `input`, `measured` and `outcome`. The input is a small home in words, apart by
//! semicolons: `bedroom 120 x 144` (use and clear size in inches) and then any of
//! `ceiling H`, `ceiling H rising R` (for each foot from the front), `soffit D at H` or `beam D at H` (so deep along the back
//! wall, so high), `chase W x L` (a corner taken from the room),
//! `window clear W x H`, `window OPERATION W x H` (frame size), either with `sill S`,
//! `door OPERATION W x H` (leaf), `door OPERATION clear W x H`, both with `in WALL`,
//! `USE L behind a wall`, `behind a doorway`, `behind an opening of W x H`, `behind a door of W` or `behind an open boundary`
//! (a further room that takes the back of the first), `floor H above ground`, `front wall missing`, and `no deductions` (of the
//! catalogue).
//! Further: `KIND W x D at X,Y facing WAY` (a fixture by the middle of its back, in inches from the left front corner of the
//! room; a shower with `entry E`, a vanity with `bowls A B`), `bed W x D at X,Y facing WAY`, `alarm KIND at X,Y`, `fan N cfm`
//! or `fan N cfm all the time`, `whole-house ventilation`, `ventilation N cfm`, `glass W x H` (of all windows), `module W x L`,
//! `eave D on the road`, `landing at X w W d D below B` (before the front door), `mate line at Y`.
//! A line `Book: id` says by which book the tables after it are judged; the model code until then. What stands after `with` is
//! laid over the page's rule of that book: Book: `irc-2021` with `area = "0.530 sq m"`.
//! The measured figure carries its unit, or is `unknown`, or `none` where there is nothing to measure; the outcome is `met`,
//! `correction`, `unknown`, `advisory` or `does not apply`. After `unknown` may stand what must be entered: `unknown: the
//! ceiling over Bedroom`. Of what does not apply the column of the figure may hold the reason, in the words of the verdict.

mod home;

use std::fs;
use std::path::PathBuf;

use plan_geometry::derive;
use plan_model::{LegalKind, Selection};
use plan_rules::{Limit, Outcome, Quantity, RuleBook, Verdict, judge, registry};

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
            let found = case.judge(rule.id);
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

/// The cases of a page.
fn cases(page: &str) -> Vec<Case> {
    let mut book = "irc-2021";
    let mut cases = Vec::new();
    for line in page.lines() {
        if let Some(named) = line.strip_prefix("Book: ") {
            book = named;
        }
        cases.extend(Case::of_line(line, book));
    }
    cases
}

fn folder() -> PathBuf {
    PathBuf::from(env!("CARGO_MANIFEST_DIR")).join("tests/rules")
}

struct Case {
    book: String,
    name: String,
    input: String,
    measured: String,
    outcome: String,
}

impl Case {
    /// A row of a table of cases; none for prose, heads and rules between.
    fn of_line(line: &str, book: &str) -> Option<Self> {
        let cells: Vec<&str> = line.strip_prefix('|')?.strip_suffix('|')?.split('|').map(str::trim).collect();
        let [name, input, measured, outcome, ..] = cells[..] else { return None };
        if name == "case" || name.starts_with("--") {
            return None;
        }
        let [name, input, measured, outcome] = [name, input, measured, outcome].map(str::to_owned);
        Some(Self { book: book.to_owned(), name, input, measured, outcome })
    }

    /// The book, with what the page lays over its rule.
    fn book(&self, rule: &str) -> RuleBook {
        let mut parts = self.book.split('`').map(str::trim);
        let id = if self.book.contains('`') { parts.nth(1) } else { parts.next() }.unwrap_or_default();
        let book = RuleBook::built_in(id).unwrap_or_else(|| panic!("there is no book {id}"));
        let Some(changed) = parts.nth(1) else { return book };
        let text = format!(
            "mateline_amendment = 1\nid = \"page\"\nname = \"Page\"\namends = \"{id}\"\nauthority = \"Page\"\ndate = \"-\"\n\
             reason = \"Page\"\n[rules.{rule}]\n{changed}\n"
        );
        book.amended(&text).unwrap_or_else(|error| panic!("{error}"))
    }

    /// The measured figure as the page would write it, and the outcome.
    fn judge(&self, rule: &str) -> (String, String) {
        let book = self.book(rule);
        let mut plan = home::plan(&self.input);
        plan.home.legal_kind = book.facts().legal_kind.unwrap_or(LegalKind::StateLabel);
        let home = plan.home(&Selection::included(&plan));
        let judgement = judge(&home, &derive(&home), &book).expect("book and home are of one kind");
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
        (self.measured_as_written(verdict), outcome.to_owned())
    }

    fn measured_as_written(&self, verdict: &Verdict) -> String {
        if verdict.outcome == Outcome::DoesNotApply {
            return if self.measured.is_empty() { String::new() } else { verdict.message.clone() };
        }
        let Some(measured) = verdict.measured else {
            // Whatever is not known can be entered, and there is nothing to enter where there is nothing to measure.
            return match &verdict.enter {
                Some(what) if self.measured.starts_with("unknown: ") => format!("unknown: {what}"),
                Some(_) => "unknown".to_owned(),
                None if verdict.outcome == Outcome::Unknown => "unknown, with nothing to enter".to_owned(),
                None => "none".to_owned(),
            };
        };
        assert_eq!(verdict.enter, None, "{}: the figure is known", self.name);
        let expected = match verdict.quantity {
            Quantity::CountAtLeast => self.measured.parse().ok().map(i128::into),
            Quantity::Possible => Some(i128::from(self.measured == "yes").into()),
            _ => Limit::parse(&self.measured).ok().map(|limit| match limit {
                Limit::Length(figure) | Limit::Area(figure) | Limit::Share(figure) | Limit::Count(figure) => figure,
            }),
        };
        if expected == Some(measured) { self.measured.clone() } else { verdict.message.clone() }
    }
}
