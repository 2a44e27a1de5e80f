//! Opening rule books by name; the window and the headless commands both come through here.

use std::path::{Path, PathBuf};

use plan_model::file::nearest;
use plan_rules::{BookError, RuleBook};
use thiserror::Error;

use super::{OpenError, read_text, sentences_about};

/// Why a rule book could not be opened. The path stands last.
#[derive(Debug, Error)]
pub enum OpenBookError {
    /// A file that cannot be read.
    #[error(transparent)]
    File(#[from] OpenError),
    /// Neither a built-in book nor a file.
    #[error("there is no rule book `{name}`{hint}; built in: {built_in}; any other is given by the path of its file")]
    NoSuchBook {
        /// What was asked for.
        name: String,
        /// "; did you mean ...?", where something is near.
        hint: String,
        /// The names of the built-in books.
        built_in: String,
    },
    /// Amendments that are laid over each other in a circle.
    #[error("{} are laid over each other in a circle: the last must be laid over a book", .names.join(" and "))]
    Circle {
        /// Their names.
        names: Vec<String>,
    },
    /// A text that is no book; one line for each thing found.
    #[error("{}", sentences_about(&.error.problems, .path))]
    Book {
        /// What is wrong with it.
        error: BookError,
        /// The book.
        path: PathBuf,
    },
}

/// Opens a rule book, or an amendment with all that it is laid over. An amendment names a book that comes with the program, or
/// a file beside its own.
///
/// # Errors
/// When there is no such book, when a file cannot be read or is no book, and for amendments laid over each other in a circle.
pub fn open_book(name: &str) -> Result<RuleBook, OpenBookError> {
    let folder = Path::new(name).parent().map(Path::to_path_buf).unwrap_or_default();
    let path_of = |named: &str| if named == name { PathBuf::from(name) } else { folder.join(named) };
    let read = |named: &str| {
        let path = path_of(named);
        if path.exists() { read_text(&path).map_err(OpenBookError::from) } else { Err(no_such_book(named)) }
    };
    RuleBook::open(name, read).map_err(|error| match error {
        plan_rules::OpenError::Book { name, error } => OpenBookError::Book { error, path: path_of(&name) },
        plan_rules::OpenError::Circle(names) => OpenBookError::Circle { names },
        plan_rules::OpenError::File(error) => error,
    })
}

fn no_such_book(name: &str) -> OpenBookError {
    let known = || RuleBook::built_in_ids().chain(RuleBook::example_ids());
    let hint = nearest(name, known());
    let hint = hint.map_or_else(String::new, |near| format!("; did you mean `{near}`?"));
    OpenBookError::NoSuchBook { name: name.to_owned(), hint, built_in: known().collect::<Vec<_>>().join(", ") }
}
