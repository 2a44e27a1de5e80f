use std::fmt::Write as _;

use schemars::JsonSchema;
use serde::Serialize;

use super::text::paragraph;
use crate::BookFacts;
use crate::escape::controls;

/// The rule book in force.
#[derive(Debug, Serialize, JsonSchema)]
pub(super) struct BookReport {
    id: String,
    name: String,
    edition: String,
    /// Where it came from: `built-in`, or the path of its file.
    source: String,
    /// SHA-256 of its text, in hexadecimal.
    digest: String,
    note: Option<String>,
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
        }
    }
}

/// The same for people.
pub(super) fn book_text(book: &BookFacts) -> String {
    let mut text = format!("Rule book: {}, edition {} ({})\n", book.name, book.edition, book.id);
    let _ = writeln!(text, "{:11}from: {}", "", controls(&book.source.to_string()));
    let _ = writeln!(text, "{:11}SHA-256: {}", "", book.digest);
    text.extend(book.note.as_ref().map(|note| paragraph("           ", note)));
    text
}
