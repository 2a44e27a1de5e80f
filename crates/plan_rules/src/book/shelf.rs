//! Books and amendments by name: those that come with the program, and those in files.

use plan_model::LegalKind;

use super::{BookError, BookSource, RuleBook, base_of};

macro_rules! asset {
    ($name:literal) => {
        include_str!(concat!("../../../../assets/", $name, ".toml"))
    };
}

/// The books that come with the program: id and text.
pub(super) const BOOKS: [(&str, &str); 6] = [
    ("irc-2021", asset!("rule-books/irc-2021")),
    ("hud-3280", asset!("rule-books/hud-3280")),
    ("property-maintenance", asset!("rule-books/property-maintenance")),
    ("planning-guidelines", asset!("rule-books/planning-guidelines")),
    ("accessible-dwelling", asset!("rule-books/accessible-dwelling")),
    ("factory-limits", asset!("rule-books/factory-limits")),
];

/// The book of a label: the one that homes under it must meet, whatever else they are judged by.
pub(super) const fn default_for(kind: LegalKind) -> &'static str {
    match kind {
        LegalKind::StateLabel => "irc-2021",
        LegalKind::FederalLabel => "hud-3280",
    }
}

/// The amendments that come with the program as examples: id and text.
pub(super) const AMENDMENTS: [(&str, &str); 3] = [
    ("light-6-3", asset!("amendments/light-6-3")),
    ("shower-1024", asset!("amendments/shower-1024")),
    ("no-openable-area", asset!("amendments/no-openable-area")),
];

/// A book that cannot be opened.
#[derive(Clone, Debug, PartialEq, Eq, thiserror::Error)]
pub enum OpenError<E: std::error::Error> {
    /// A text that is no book.
    #[error("{name}: {error}")]
    Book {
        /// Its name.
        name: String,
        /// What is wrong with it.
        error: BookError,
    },
    /// Amendments that are laid over each other in a circle.
    #[error("{} are laid over each other in a circle; the last must be laid over a book", .0.join(" and "))]
    Circle(Vec<String>),
    /// A file that cannot be read.
    #[error(transparent)]
    File(E),
}

/// The text under a name that comes with the program.
fn built_in(name: &str) -> Option<&'static str> {
    BOOKS.iter().chain(&AMENDMENTS).find(|(id, _)| *id == name).map(|(_, text)| *text)
}

/// Opens a book, or an amendment with all that it is laid over. `read` gives the text of a file by its name, as an amendment
/// writes it.
pub(super) fn open<E: std::error::Error>(
    name: &str,
    read: &impl Fn(&str) -> Result<String, E>,
    laid_over_it: &[&str],
) -> Result<RuleBook, OpenError<E>> {
    if laid_over_it.contains(&name) {
        return Err(OpenError::Circle(laid_over_it.iter().map(|name| (*name).to_owned()).collect()));
    }
    let (text, source) = match built_in(name) {
        Some(text) => (text.to_owned(), BookSource::BuiltIn),
        None => (read(name).map_err(OpenError::File)?, BookSource::File(name.to_owned())),
    };
    let faulty = |error| OpenError::Book { name: name.to_owned(), error };
    let book = match base_of(&text).map_err(faulty)? {
        None => RuleBook::parse(&text),
        Some(base) => open(&base, read, &[laid_over_it, &[name]].concat())?.amended(&text),
    };
    Ok(book.map_err(faulty)?.found_at(source))
}
