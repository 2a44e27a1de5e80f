use std::fmt;
use std::ops::Range;

use crate::escape::controls;

/// One thing wrong with a rule book, with its place.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub struct BookProblem {
    /// Line and column, both from 1; none for the book as a whole.
    pub place: Option<(usize, usize)>,
    /// Where in the book, such as `rules.least-dimension`; empty for the whole.
    pub path: String,
    /// What is wrong and what was expected.
    pub message: String,
}

impl BookProblem {
    pub(super) fn new(text: &str, span: Option<Range<usize>>, path: &str, message: &str) -> Self {
        Self {
            place: span.map(|span| line_and_column(text, span.start)),
            path: controls(path),
            message: controls(message),
        }
    }
}

/// Columns count characters, as an editor does.
fn line_and_column(text: &str, offset: usize) -> (usize, usize) {
    let before = text.get(..offset).unwrap_or(text);
    let line_start = before.rfind('\n').map_or(0, |at| at + 1);
    (before.matches('\n').count() + 1, before[line_start..].chars().count() + 1)
}

impl fmt::Display for BookProblem {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        if let Some((line, column)) = self.place {
            write!(f, "line {line}, column {column}: ")?;
        }
        if !self.path.is_empty() {
            write!(f, "{}: ", self.path)?;
        }
        f.write_str(&self.message)
    }
}

/// A rule book that cannot be read, with everything found wrong.
#[derive(Clone, Debug, PartialEq, Eq, thiserror::Error)]
pub struct BookError {
    /// At least one problem, in the order of the text.
    pub problems: Vec<BookProblem>,
}

impl fmt::Display for BookError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        for (index, problem) in self.problems.iter().enumerate() {
            if index > 0 {
                f.write_str("\n")?;
            }
            write!(f, "{problem}")?;
        }
        Ok(())
    }
}
