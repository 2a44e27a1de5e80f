//! What a rule is, and what a book holds: for whoever wants to know where a verdict comes from.

use std::fmt::Write as _;

use super::text::paragraph;
use crate::{BookRule, CAUTIONS, Confidence, Rule, RuleBook, show};

const INDENT: &str = "    ";

/// A rule with what each of some books says of it.
#[must_use]
pub fn explain_text(rule: &Rule, books: &[RuleBook]) -> String {
    let mut text = format!("{} ({})\n", rule.name, rule.id);
    text.push_str(&paragraph("  ", rule.measures));
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
    let mut lines = vec![format!("{}, answered for by the {}", rule.level.word(), rule.answered_by.word())];
    if let Some(section) = &rule.section {
        let editions = rule.other_editions.iter().map(|(edition, section)| format!("{section} in {edition}"));
        let editions: Vec<String> = editions.collect();
        let others = if editions.is_empty() { String::new() } else { format!(" ({})", editions.join(", ")) };
        lines.push(format!("section {section}{others}"));
    }
    lines.extend(rule.limits.iter().map(|(name, limit)| format!("{name}: {}", show::limit(*limit))));
    if !rule.rooms.is_empty() {
        let rooms: Vec<&str> = rule.rooms.iter().map(|usage| usage.word()).collect();
        lines.push(format!("rooms: {}", rooms.join(", ")));
    }
    lines.extend(rule.measured.iter().map(|measured| format!("measured: {measured}")));
    lines.extend(rule.exceptions.iter().map(|exception| format!("exception: {exception}")));
    lines.extend(rule.amended.iter().map(|change| format!("amended: {change}")));
    lines.extend(rule.confidence_note());
    lines.iter().map(|line| paragraph(INDENT, line)).collect()
}

fn with_cautions(mut text: String) -> String {
    text.push_str("\nCAUTIONS\n");
    text.extend(CAUTIONS.iter().map(|caution| paragraph("  - ", caution)));
    text
}
