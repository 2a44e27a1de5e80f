//! What goes together, why not, and what it costs.
//!
//! Only what the plan *declares* is looked at here: an alternate may need or exclude alternates of other choices.

mod price;
mod refusal;

pub use price::price;
pub use refusal::{Refusal, RefusalKind, refusals};
