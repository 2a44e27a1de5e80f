//! What a rule is, and what a book holds: for whoever wants to know where a verdict comes from.

use std::fmt::Write as _;

use super::rule_facts::{RuleFact, Topic, rule_facts};
use super::text::paragraph;
use crate::{BookRule, CAUTIONS, Confidence, Example, Rule, RuleBook};

const INDENT: &str = "    ";

/// A rule with what its example shows, where that is drawn (a sentence), and what each of some books says of it.
#[must_use]
pub fn explain_text(rule: &Rule, books: &[RuleBook], example: Option<&Example>, drawn: &str) -> String {
    let mut text = format!("{} ({})\n", rule.name, rule.id);
    text.push_str(&paragraph("  ", rule.measures));
    if let Some(example) = example {
        text.push_str(&paragraph("  Drawing: ", &example.caption()));
        text.push_str(&paragraph("           ", drawn));
    }
    let holding = books.iter().filter_map(|book| Some((book, book.rule(rule.id)?)));
    for (book, of_book) in holding {
        let facts = book.facts();
        let _ = writeln!(text, "\n  {}, {} ({})", facts.name, facts.edition, facts.id);
        text.push_str(&rule_text(of_book));
    }
    let without: Vec<&str> =
        books.iter().filter(|book| book.rule(rule.id).is_none()).map(|book| book.facts().id.as_str()).collect();
    if !without.is_empty() {
        text.push('\n');
        text.push_str(&paragraph("  ", &format!("Not judged by: {}.", without.join(", "))));
    }
    with_cautions(text)
}

/// What a book is, its rules, and what becomes of each section of the code.
#[must_use]
pub fn book_sheet(book: &RuleBook) -> String {
    let mut text = super::book::book_text(book.facts());
    text.push_str("\nRULES\n");
    for rule in book.rules() {
        let _ = writeln!(text, "  {} ({})", rule.rule.name, rule.rule.id);
        text.push_str(&rule_text(rule));
    }
    if !book.facts().clauses.is_empty() {
        text.push_str("\nSECTIONS\n");
    }
    for clause in &book.facts().clauses {
        let doubt = match clause.confidence {
            Confidence::Confirmed => "",
            Confidence::ConfirmWithAdoptedText => " (confirm the number with the adopted text)",
        };
        let by = if clause.rules.is_empty() { String::new() } else { format!(" by {}", clause.rules.join(", ")) };
        let line = format!("{}{doubt}: {}; {}{by}.", clause.section, clause.subject, clause.status.words());
        text.push_str(&paragraph("  ", &line));
    }
    with_cautions(text)
}

fn rule_text(rule: &BookRule) -> String {
    let line = |RuleFact { topic, text }: RuleFact| match (&topic, topic.label()) {
        // The number of a section is read on with its word.
        (Topic::Section, Some(label)) => format!("{label} {text}"),
        (_, Some(label)) => format!("{label}: {text}"),
        (_, None) => text,
    };
    rule_facts(rule).into_iter().map(|fact| paragraph(INDENT, &line(fact))).collect()
}

fn with_cautions(mut text: String) -> String {
    text.push_str("\nCAUTIONS\n");
    text.extend(CAUTIONS.iter().map(|caution| paragraph("  - ", caution)));
    text
}
