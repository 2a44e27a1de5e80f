use std::fmt::Write as _;

use crate::{BookRule, Clause, Confidence, RuleBook};

/// What stands in place of a section's number that was not seen in print.
const UNCERTAIN: &str = "*number to be confirmed with the adopted text*";

/// What becomes of every section of some books, as a page for people: the same lists from which reports tell what was judged.
///
/// A number that is to be confirmed with the adopted text is not printed: whoever reads a page away from its book would take
/// it for the number.
#[must_use]
pub fn clauses_page(books: &[RuleBook]) -> String {
    let mut page = String::from(
        "# What is judged, section by section\n\n\
         Every section on the list of each rule book that comes with Mateline: whether its rules judge all of it that a plan \
         can show, a part\nof it, or nothing, and which rules these are (`mateline explain RULE` tells of each). Sections that \
         are not listed are not judged.\nThe adopted text governs; no text of any code is repeated here.\n\n\
         This page is generated from the rule books by `cargo dev clauses`, and never edited by hand.\n",
    );
    for book in books {
        page.push_str(&of_book(book));
    }
    page
}

fn of_book(book: &RuleBook) -> String {
    let facts = book.facts();
    let mut text = format!("\n## {}\n\nBook `{}`, edition: {}.", facts.name, facts.id, facts.edition);
    text.extend(facts.note.iter().map(|note| format!(" {note}")));
    text.push('\n');
    if !facts.clauses.is_empty() {
        text.push_str("\n| section | subject | judged | by |\n| --- | --- | --- | --- |\n");
        text.extend(facts.clauses.iter().map(row));
    }
    let outside = |rule: &&BookRule| !facts.clauses.iter().any(|clause| clause.rules.contains(&rule.rule.id));
    let outside: Vec<&str> = book.rules().iter().filter(outside).map(|rule| rule.rule.id).collect();
    if !outside.is_empty() {
        let _ = writeln!(text, "\nRules that stand with no section: {}.", rules(&outside));
    }
    text
}

fn row(clause: &Clause) -> String {
    let section = match clause.confidence {
        Confidence::Confirmed => cell(&clause.section),
        Confidence::ConfirmWithAdoptedText => UNCERTAIN.to_owned(),
    };
    format!("| {section} | {} | {} | {} |\n", cell(&clause.subject), clause.status.words(), rules(&clause.rules))
}

fn rules(ids: &[&str]) -> String {
    ids.iter().map(|id| format!("`{id}`")).collect::<Vec<_>>().join(", ")
}

/// Text that does not end its cell.
fn cell(text: &str) -> String {
    text.replace('|', "\\|")
}
