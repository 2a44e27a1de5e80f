//! What a selection comes to with the plan's price book: every line with its arithmetic, and the total.
//!
//! Amounts are exact decimals. Each line is rounded once, half away from zero, to the places of the currency; percentages are of
//! lines as rounded, and the total is the sum of the lines as they are shown.

mod arithmetic;
mod count;
mod json;
mod text;

use plan_geometry::Derived;
use plan_model::{Date, Home, NotInForce, Selection};
use thiserror::Error;

pub use arithmetic::{LineBasis, LineOf, PriceArithmetic, QuoteLine, Unreckoned, arithmetic};
pub use json::{quote_json, quote_schema};
pub use text::quote_text;

/// The arithmetic of a selection's price on a day.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Quote {
    /// Its day.
    pub date: Date,
    /// The last day on which it is good, where the price book says so.
    pub good_until: Option<Date>,
    /// What it comes to.
    pub arithmetic: PriceArithmetic,
}

/// Why there is no quote.
#[derive(Clone, Debug, PartialEq, Eq, Error)]
pub enum QuoteError {
    /// The price book is not in force on that day.
    #[error(transparent)]
    NotInForce(#[from] NotInForce),
    /// A line cannot be reckoned.
    #[error(transparent)]
    Unreckoned(#[from] Unreckoned),
}

/// What a selection costs on a day; `derived` is what was derived of `home`.
///
/// # Errors
/// When the plan's price book is not in force on that day, or a line cannot be reckoned: then there is no total either.
pub fn quote(home: &Home<'_>, derived: &Derived, selection: &Selection, date: Date) -> Result<Quote, QuoteError> {
    let good_until = home.plan.prices.as_ref().map(|book| book.quote_of(date)).transpose()?.flatten();
    Ok(Quote { date, good_until, arithmetic: arithmetic(home, derived, selection)? })
}
