//! Opening price books, which are laid over a plan.

use std::path::{Path, PathBuf};

use plan_model::Plan;
use plan_model::file::{Unreadable, with_prices};
use thiserror::Error;

use super::{OpenError, read_text, sentences_about};

/// Why a price book could not be laid over a plan. The path stands last.
#[derive(Debug, Error)]
pub enum OpenPricesError {
    /// A file that cannot be read.
    #[error(transparent)]
    File(#[from] OpenError),
    /// A text that is no price book for this plan; one line for each thing found.
    #[error("{}", sentences_about(&.problems.problems, .path))]
    Prices {
        /// Everything found wrong, with places.
        problems: Unreadable,
        /// The price book.
        path: PathBuf,
    },
}

/// The plan with the price book of a file laid over it.
///
/// # Errors
/// When the file cannot be read, or is no price book for this plan: then nothing of it is taken.
pub fn lay_prices_over(plan: &Plan, path: &Path) -> Result<Plan, OpenPricesError> {
    let text = read_text(path)?;
    with_prices(plan, &text).map_err(|problems| OpenPricesError::Prices { problems, path: path.to_owned() })
}
