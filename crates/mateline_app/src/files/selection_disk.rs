//! Reading and writing selection files; the window and the headless commands both come through here.

use std::path::{Path, PathBuf};

use plan_model::file::Unreadable;
use plan_selection::{Frozen, SelectionFile, check_replaces};
use thiserror::Error;

use super::disk::{read_whole, without_mark};
use super::{Expected, OpenError, SaveError, save_text, sentences_about};

/// A selection file with the text it was read from.
#[derive(Debug)]
pub struct ReadSelection {
    /// What it holds.
    pub file: SelectionFile,
    /// The file as it was read, to know later whether somebody else changed it.
    pub text: String,
}

/// Why a selection file could not be opened. The path stands last.
#[derive(Debug, Error)]
pub enum OpenSelectionError {
    /// A file that cannot be read.
    #[error(transparent)]
    File(#[from] OpenError),
    /// A text that is no selection file; one line for each thing found.
    #[error("{}", sentences_about(&.problems.problems, .path))]
    NotASelection {
        /// What is wrong with it.
        problems: Unreadable,
        /// The file.
        path: PathBuf,
    },
}

/// Why a selection could not be kept. Whatever stood at the path before still stands there.
#[derive(Debug, Error)]
pub enum SaveSelectionError {
    /// A signed selection stands there.
    #[error("{}", sentences_about(&[.frozen], .path))]
    Frozen {
        /// Whose.
        frozen: Frozen,
        /// The file.
        path: PathBuf,
    },
    /// What was stated cannot stand in a selection file, such as a buyer without a name.
    #[error("{}", sentences_about(&.problems.problems, .path))]
    NotASelection {
        /// What is wrong with it.
        problems: Unreadable,
        /// The file that was to be written.
        path: PathBuf,
    },
    /// It could not be written.
    #[error(transparent)]
    File(#[from] SaveError),
}

/// Reads a selection file.
///
/// # Errors
/// When the file cannot be read, or is no selection file.
pub fn read_selection(path: &Path) -> Result<ReadSelection, OpenSelectionError> {
    let text = read_whole(path)?;
    match plan_selection::read(without_mark(&text)) {
        Ok(file) => Ok(ReadSelection { file, text }),
        Err(problems) => Err(OpenSelectionError::NotASelection { problems, path: path.to_owned() }),
    }
}

/// Writes a selection file as a whole or not at all. A signed selection is never written over, whatever is expected there, but
/// by itself with further change orders.
///
/// # Errors
/// When a signed selection stands there, the file system refuses or the path does not hold what was expected.
pub fn save_selection(path: &Path, file: &SelectionFile, expected: Expected<'_>) -> Result<String, SaveSelectionError> {
    if let Ok(there) = read_selection(path) {
        let frozen = |frozen| SaveSelectionError::Frozen { frozen, path: path.to_owned() };
        check_replaces(&there.file, file).map_err(frozen)?;
    }
    let text = plan_selection::write(file);
    // What is written can be read again.
    let unreadable = |problems| SaveSelectionError::NotASelection { problems, path: path.to_owned() };
    plan_selection::read(&text).map_err(unreadable)?;
    save_text(path, &text, expected)?;
    Ok(text)
}
