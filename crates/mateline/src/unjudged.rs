use std::io;
use std::path::PathBuf;

use mateline_app::files::{
    OpenBookError, OpenError, OpenPricesError, OpenSelectionError, SaveError, SaveSelectionError, sentences_about,
};
use plan_choices::{QuoteError, Refusal};
use plan_geometry::Problem;
use plan_model::{Id, SelectionError};
use plan_proof::{FindError, QueryError};
use plan_rules::WrongLegalKind;
use plan_selection::{NoOrder, NotSignable};
use thiserror::Error;

/// Why there is nothing to judge: one sentence a line, the path last.
#[derive(Debug, Error)]
pub(crate) enum Unjudged {
    /// The plan could not be read.
    #[error(transparent)]
    File(#[from] OpenError),
    /// A plan that holds nothing to judge.
    #[error("{}", sentences_about(&["the plan has no room: nothing to judge"], .path))]
    NoRoom {
        /// The plan.
        path: PathBuf,
    },
    /// Somebody stopped the work.
    #[error("looking at every selection was stopped")]
    Stopped,
    /// A query that cannot be read.
    #[error("the query cannot be read, {0}")]
    Query(#[from] QueryError),
    /// A query that cannot be answered.
    #[error(transparent)]
    Find(#[from] FindError),
    /// The report could not be written.
    #[error("the report cannot be written: {0}")]
    Output(io::Error),
    /// A selection that the plan does not know.
    #[error("{}", sentences_about(&[.error], .path))]
    Selection {
        /// What is wrong with it.
        error: SelectionError,
        /// The plan.
        path: PathBuf,
    },
    /// A choice with two answers.
    #[error("the choice `{choice}` is answered twice; one alternate for each choice makes a home")]
    AnsweredTwice {
        /// The choice.
        choice: Id,
    },
    /// A selection that the plan declares impossible.
    #[error("{}", sentences_about(.refusals, .path))]
    Refused {
        /// Why.
        refusals: Vec<Refusal>,
        /// The plan.
        path: PathBuf,
    },
    /// A selection file that cannot be opened.
    #[error(transparent)]
    SelectionFile(#[from] OpenSelectionError),
    /// A selection of what the plan no longer has; one line for each.
    #[error("{}", sentences_about(.gone, .path))]
    NoLongerHolds {
        /// What is gone.
        gone: Vec<String>,
        /// The selection file.
        path: PathBuf,
    },
    /// A selection that was not kept.
    #[error(transparent)]
    NotKept(#[from] SaveSelectionError),
    /// What is to be stated with a selection and was not.
    #[error("{0}")]
    NotStated(&'static str),
    /// A selection that cannot be signed.
    #[error("{}", sentences_about(&[.error], .path))]
    NotSignable {
        /// Why.
        error: NotSignable,
        /// The plan.
        path: PathBuf,
    },
    /// A change order that cannot be made.
    #[error("{}", sentences_about(&[.error], .path))]
    NoOrder {
        /// Why.
        error: NoOrder,
        /// The selection file.
        path: PathBuf,
    },
    /// A home that cannot be built as drawn.
    #[error("{}", sentences_about(.problems, .path))]
    Conflicts {
        /// What stands in whose way.
        problems: Vec<Problem>,
        /// The plan.
        path: PathBuf,
    },
    /// No rule of that name.
    #[error("there is no rule `{name}`{hint}")]
    NoSuchRule {
        /// What was asked for.
        name: String,
        /// "; did you mean ...?", where something is near.
        hint: String,
    },
    /// A drawing under a name that is not that of a drawing.
    #[error("{}", sentences_about(&["the drawing is written as SVG; give it a name that ends in .svg"], .path))]
    NotSvg {
        /// The name.
        path: PathBuf,
    },
    /// A drawing that could not be written.
    #[error(transparent)]
    Drawing(#[from] SaveError),
    /// A rule book that cannot be opened.
    #[error(transparent)]
    Book(#[from] OpenBookError),
    /// A price book that cannot be laid over the plan.
    #[error(transparent)]
    Prices(#[from] OpenPricesError),
    /// A selection without a price.
    #[error("{}", sentences_about(&[.error], .path))]
    NoQuote {
        /// Why.
        error: QuoteError,
        /// Where the prices stand.
        path: PathBuf,
    },
    /// A quote needs a date.
    #[error("the clock of this computer shows no date; give the date of the quote by --date")]
    NoToday,
    /// The book is for homes under another label.
    #[error("{}", sentences_about(&[.error], .path))]
    WrongLegalKind {
        /// Which are which.
        error: WrongLegalKind,
        /// The plan.
        path: PathBuf,
    },
}
