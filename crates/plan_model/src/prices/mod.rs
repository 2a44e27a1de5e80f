//! A price book: what is added to the base price and the alternates, by rule and not by hand, and from when to when.
//!
//! A book stands in a plan under `prices`, or in a file of its own that is laid over a plan
//! ([`with_prices`](crate::file::with_prices)). What a line comes to depends on the home and is worked out elsewhere.

mod fields;
mod in_force;
mod line;
mod percent;

use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

use crate::{AlternateRef, Date, Money};

pub use in_force::NotInForce;
pub use line::{Basis, ElementKind, LineKind, Per, PercentOf, PriceLine};
pub use percent::Percent;

/// A price book, version 1.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct PriceBook {
    /// Version of the format of price books.
    #[schemars(extend("const" = 1))]
    pub mateline_prices: u32,
    /// Name of the book, as quotes show it.
    pub name: String,
    /// The currency of every amount in it, as an ISO 4217 code; the plan's own.
    #[schemars(regex(pattern = "^[A-Z]{3}$"))]
    pub currency: String,
    /// The first day on which a quote may be made from it.
    pub effective: Date,
    /// The last day on which a quote may be made from it: a date, or days after the first; none if it holds until another
    /// takes its place.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub expires: Option<Expiry>,
    /// How many days after its own date a quote is good for, but never beyond the book's last day.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[schemars(range(min = 1, max = 3650))]
    pub quote_days: Option<u32>,
    /// In the place of the plan's base price; in a file laid over a plan only.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub base: Option<Money>,
    /// In the place of the prices that the plan gives its alternates; in a file laid over a plan only.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub alternates: Vec<AlternatePrice>,
    /// What is added to base and options, in the order in which it is reckoned.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    #[schemars(length(max = 100))]
    pub lines: Vec<PriceLine>,
}

impl PriceBook {
    /// The version that this program reads and writes.
    pub const VERSION: u32 = 1;
    /// No book has more lines.
    pub const MOST_LINES: usize = 100;
    /// No book or quote holds for longer, in days.
    pub const LONGEST: u32 = 3650;
}

/// The price of one alternate.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct AlternatePrice {
    /// Which, as `CHOICE=ALTERNATE`.
    pub alternate: AlternateRef,
    /// Added to the base price; it may take off.
    pub price: Money,
}

/// The end of a price book.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(rename_all = "kebab-case")]
pub enum Expiry {
    /// The last day.
    On(Date),
    /// The last day, as so many days after the first.
    AfterDays(#[schemars(range(min = 1, max = 3650))] u32),
}
