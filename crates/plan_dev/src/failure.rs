//! What went wrong, as a sentence for the person at the terminal.

use std::fmt;

/// Why a chore did not succeed. There is no conversion from other errors, so that each one gets its sentence.
#[derive(Debug)]
pub(crate) struct Failure(String);

impl Failure {
    pub(crate) fn new(sentence: impl Into<String>) -> Self {
        Self(sentence.into())
    }
}

impl fmt::Display for Failure {
    fn fmt(&self, formatter: &mut fmt::Formatter<'_>) -> fmt::Result {
        formatter.write_str(&self.0)
    }
}
