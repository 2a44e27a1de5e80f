//! What goes together, why not, and what it costs.
//!
//! Two kinds of reason stand against a selection: what the plan *declares* (an alternate may need or exclude alternates
//! of other choices), and what *space* says: two things that need the same ground.

mod conflict;
mod price;
mod quote;
mod refusal;
mod words;

pub use conflict::{Conflict, alternate_in_words, conflict_sentence, conflicts};
pub use price::{PriceLine, price, price_lines};
pub use quote::{
    LineBasis, LineOf, PriceArithmetic, Quote, QuoteError, QuoteLine, Unreckoned, arithmetic, quote, quote_json,
    quote_schema, quote_text,
};
pub use refusal::{Refusal, RefusalKind, refusals};
