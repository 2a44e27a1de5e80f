//! Selection files: what a buyer chose of a plan, kept beside it.
//!
//! A [`SelectionFile`] holds the chosen alternates with what they cost and asked for on the day it is dated, so that it can say
//! later what of the plan was changed since ([`open()`]). Once it is signed it is frozen, and what is changed after that is a
//! numbered [`ChangeOrder`] at its end. The program never looks at the clock: dates are those that people state.

mod check;
mod date;
mod file;
mod finding;
mod opened;
mod order;
mod record;
mod report;
mod signed;

pub use date::{Date, NotADate};
pub use file::{Change, ChangeOrder, ChoiceChange, Chosen, PlanAsOf, SelectionFile, Signed, read, schema, write};
pub use finding::{Finding, PlanPart};
pub use opened::{Opened, open};
pub use order::NoOrder;
pub use record::As;
pub use report::{selection_json, selection_report_schema, selection_text};
pub use signed::{Frozen, NotSignable, check_replaces};
