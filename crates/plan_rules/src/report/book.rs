use std::fmt::Write as _;

use schemars::JsonSchema;
use serde::Serialize;

use super::text::paragraph;
use crate::escape::controls;
use crate::{Amendment, BookFacts, Change};

/// The rule book in force, in a report.
#[derive(Debug, Serialize, JsonSchema)]
pub struct BookReport {
    id: String,
    name: String,
    edition: String,
    /// Where it came from: `built-in`, or the path of its file.
    source: String,
    /// SHA-256 of its text, in hexadecimal.
    digest: String,
    note: Option<String>,
    /// What is laid over the code.
    amendments: Vec<AmendmentReport>,
    /// What that changes.
    changes: Vec<ChangeReport>,
}

/// An amendment.
#[derive(Debug, Serialize, JsonSchema)]
pub struct AmendmentReport {
    id: String,
    name: String,
    /// Who adopted it.
    authority: String,
    /// From when on it holds.
    date: String,
    reason: String,
    source: String,
    digest: String,
}

/// A change of one rule.
#[derive(Debug, Serialize, JsonSchema)]
pub struct ChangeReport {
    rule: &'static str,
    /// In words, with both figures.
    change: String,
}

impl From<&BookFacts> for BookReport {
    fn from(book: &BookFacts) -> Self {
        Self {
            id: book.id.clone(),
            name: book.name.clone(),
            edition: book.edition.clone(),
            source: book.source.to_string(),
            digest: book.digest.clone(),
            note: book.note.clone(),
            amendments: book.amendments.iter().map(AmendmentReport::from).collect(),
            changes: book.changes.iter().map(ChangeReport::from).collect(),
        }
    }
}

impl From<&Amendment> for AmendmentReport {
    fn from(amendment: &Amendment) -> Self {
        Self {
            id: amendment.id.clone(),
            name: amendment.name.clone(),
            authority: amendment.authority.clone(),
            date: amendment.date.clone(),
            reason: amendment.reason.clone(),
            source: amendment.source.to_string(),
            digest: amendment.digest.clone(),
        }
    }
}

impl From<&Change> for ChangeReport {
    fn from(change: &Change) -> Self {
        Self { rule: change.rule, change: change.what.to_string() }
    }
}

/// The same for people.
#[must_use]
pub fn book_text(book: &BookFacts) -> String {
    let mut text = format!("Rule book: {}, edition {} ({})\n", book.name, book.edition, book.id);
    let _ = writeln!(text, "{:11}from: {}", "", controls(&book.source.to_string()));
    let _ = writeln!(text, "{:11}SHA-256: {}", "", book.digest);
    text.extend(book.note.as_ref().map(|note| paragraph("           ", note)));
    for amendment in &book.amendments {
        let Amendment { id, name, authority, date, reason, .. } = amendment;
        let told = format!("{name} ({id}); {authority}; {date}. {reason}");
        text.push_str(&paragraph("Amended by: ", &told));
        let _ = writeln!(text, "{:11}from: {}", "", controls(&amendment.source.to_string()));
        let _ = writeln!(text, "{:11}SHA-256: {}", "", amendment.digest);
    }
    for Change { rule, what } in &book.changes {
        text.push_str(&paragraph("           ", &format!("{rule}: {what}")));
    }
    text
}
