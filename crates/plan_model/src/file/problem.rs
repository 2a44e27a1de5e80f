use std::fmt;

use super::{locate, nearest};
use crate::Id;

/// One thing wrong with a plan file, with its place.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct FileProblem {
    /// Line and column, both from 1; none for the file as a whole.
    pub place: Option<(usize, usize)>,
    /// The JSON path, such as `base.walls[3].from`; empty for the whole file.
    pub path: String,
    /// The element concerned.
    pub id: Option<Id>,
    /// What is wrong and what was expected.
    pub message: String,
}

impl FileProblem {
    pub(super) fn of_the_whole(message: String) -> Self {
        Self { place: None, path: String::new(), id: None, message }
    }

    /// A problem of the value at a path such as `base.walls[3].from`, found in the text that it was read from.
    #[must_use]
    pub fn at(text: &str, path: &str, id: Option<Id>, message: String) -> Self {
        Self { place: locate::line_and_column(text, path), path: path.to_owned(), id, message }
    }

    pub(super) fn from_json(error: &serde_json::Error, path: &str) -> Self {
        let whole = error.to_string();
        let position = format!(" at line {} column {}", error.line(), error.column());
        let message = whole.strip_suffix(&position).unwrap_or(&whole);
        Self {
            place: (error.line() > 0).then(|| (error.line(), error.column().max(1))),
            path: if path == "." { String::new() } else { path.to_owned() },
            id: None,
            message: with_nearest_name(message),
        }
    }
}

impl FileProblem {
    /// With its place at the start of what is wrong, where reading has noticed that only on a later line.
    pub(super) fn at_its_start(self, text: &str) -> Self {
        let start = if self.path.is_empty() { None } else { locate::line_and_column(text, &self.path) };
        let is_earlier = |start: &(usize, usize)| self.place.is_some_and(|place| start.0 < place.0);
        Self { place: start.filter(is_earlier).or(self.place), ..self }
    }
}

/// Puts the nearest expected name in place of serde's list of all of them.
fn with_nearest_name(message: &str) -> String {
    let Some((what, expected)) = message.split_once(", expected ") else { return message.to_owned() };
    if !what.starts_with("unknown ") {
        return message.to_owned();
    }
    let names = || expected.split('`').skip(1).step_by(2);
    let wanted = what.split('`').nth(1).unwrap_or_default();
    match nearest(wanted, names()) {
        Some(name) => format!("{what}; did you mean `{name}`?"),
        None => format!("{what}; expected {}", names().collect::<Vec<_>>().join(", ")),
    }
}

impl fmt::Display for FileProblem {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        if let Some((line, column)) = self.place {
            write!(f, "line {line}, column {column}: ")?;
        }
        if !self.path.is_empty() {
            write!(f, "{}", self.path)?;
            if let Some(id) = &self.id {
                write!(f, " (\"{id}\")")?;
            }
            f.write_str(": ")?;
        }
        f.write_str(&self.message)
    }
}

/// A plan file that cannot be read, with everything found wrong.
#[derive(Clone, Debug, PartialEq, Eq, thiserror::Error)]
pub struct Unreadable {
    /// At least one problem.
    pub problems: Vec<FileProblem>,
}

impl From<FileProblem> for Unreadable {
    fn from(problem: FileProblem) -> Self {
        Self { problems: vec![problem] }
    }
}

impl fmt::Display for Unreadable {
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
