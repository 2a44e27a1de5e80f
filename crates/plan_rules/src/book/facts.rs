use plan_model::LegalKind;

use super::{Amendment, BookSource, Change, Clause};

/// What a book is, apart from its rules.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct BookFacts {
    /// Its id, for files and the command line.
    pub id: String,
    /// The code that it holds the limits of.
    pub name: String,
    /// The edition of that code.
    pub edition: String,
    /// The label of the homes that it is for; none where it is for all.
    pub legal_kind: Option<LegalKind>,
    /// Where its text came from.
    pub source: BookSource,
    /// SHA-256 of its text, in hexadecimal.
    pub digest: String,
    /// What its reader should know, if anything.
    pub note: Option<String>,
    /// The sections of the code, with the rules that judge each.
    pub clauses: Vec<Clause>,
    /// What is laid over the code, from the first laid on.
    pub amendments: Vec<Amendment>,
    /// What that changes, in the order of the registry.
    pub changes: Vec<Change>,
}
