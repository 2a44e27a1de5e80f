//! What a buyer asks for, in words: `bedrooms at least 4 and price under 250,000 and not front-porch=none`.
//!
//! ```text
//! question    either one condition, or conditions joined by `and`, or conditions joined by `or`
//! condition   THING COMPARED | CHOICE=ALTERNATE | meets the book | not CONDITION | (question)
//! thing       bedrooms | baths | price | area, or heated area
//! compared    at least N | at most N | over N | under N | exactly N | between N and N
//! ```
//!
//! `more than`, `less than` and `fewer than` stand for `over` and `under`, `=` after a thing for `exactly`. Capitals make no
//! difference. What is joined by `and` and by `or` is told apart by brackets, so that nobody has to know which goes first.

mod error;
mod number;
mod reading;
mod words;

use plan_model::{Exact, Plan};

pub use self::error::QueryError;
pub(crate) use self::number::Number;
use self::reading::Reading;

/// What is asked of the selections of one plan.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Query {
    text: String,
    pub(crate) condition: Condition,
}

/// Something that a selection has, or has not.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(crate) enum Condition {
    /// This alternate of this choice, by their places in the plan.
    Takes(usize, usize),
    /// So many bedrooms.
    Bedrooms(Limits<usize>),
    /// So many baths.
    Baths(Limits<usize>),
    /// Such a price, in the plan's currency.
    Price(Limits<Number>),
    /// Such a heated area, in square grid steps.
    Area(Limits<Exact>),
    /// It meets the book.
    MeetsBook,
    Not(Box<Self>),
    All(Vec<Self>),
    Any(Vec<Self>),
}

/// What a figure is compared with.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Limits<T> {
    AtLeast(T),
    AtMost(T),
    Over(T),
    Under(T),
    Exactly(T),
    Between(T, T),
}

impl<T: PartialOrd> Limits<T> {
    /// Whether a figure is within them.
    pub(crate) fn hold(&self, figure: &T) -> bool {
        match self {
            Self::AtLeast(least) => figure >= least,
            Self::AtMost(most) => figure <= most,
            Self::Over(limit) => figure > limit,
            Self::Under(limit) => figure < limit,
            Self::Exactly(limit) => figure == limit,
            Self::Between(least, most) => figure >= least && figure <= most,
        }
    }
}

impl Query {
    /// Reads what is asked of a plan's selections.
    ///
    /// # Errors
    /// Points at the first word that cannot be meant, and says what was expected there.
    pub fn read(text: &str, plan: &Plan) -> Result<Self, QueryError> {
        Ok(Self { text: text.trim().to_owned(), condition: Reading::of(text, plan).whole()? })
    }

    /// What was read.
    #[must_use]
    pub fn text(&self) -> &str {
        &self.text
    }

    /// Whether it asks for a rule book.
    #[must_use]
    pub fn asks_for_book(&self) -> bool {
        self.condition.asks_for_book()
    }
}

impl Condition {
    fn asks_for_book(&self) -> bool {
        match self {
            Self::MeetsBook => true,
            Self::Not(one) => one.asks_for_book(),
            Self::All(list) | Self::Any(list) => list.iter().any(Self::asks_for_book),
            Self::Takes(..) | Self::Bedrooms(_) | Self::Baths(_) | Self::Price(_) | Self::Area(_) => false,
        }
    }
}
