//! What is wrong with a query, and where.

use std::error::Error;
use std::fmt;
use std::ops::Range;

/// Why a query cannot be read: the first word that cannot be meant.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct QueryError {
    query: String,
    /// The letters concerned, from 0; right behind the last one where more was expected.
    at: Range<usize>,
    message: String,
}

impl QueryError {
    pub(super) fn new(query: &str, at: Range<usize>, message: String) -> Self {
        // A letter for a letter, so that the carets stand under what they mean.
        let on_one_line = |letter: char| if letter.is_whitespace() || letter.is_control() { ' ' } else { letter };
        Self { query: query.chars().map(on_one_line).collect(), at, message }
    }

    /// Where the word starts, in letters from 1.
    #[must_use]
    pub const fn column(&self) -> usize {
        self.at.start + 1
    }

    /// What is wrong, without its place: one sentence.
    #[must_use]
    pub fn message(&self) -> &str {
        &self.message
    }
}

impl fmt::Display for QueryError {
    /// The sentence with its column, the query, and carets under the word.
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        writeln!(f, "column {}: {}", self.column(), self.message)?;
        writeln!(f, "  {}", self.query.trim_end())?;
        write!(f, "  {:before$}{}", "", "^".repeat(self.at.len().max(1)), before = self.at.start)
    }
}

impl Error for QueryError {}
