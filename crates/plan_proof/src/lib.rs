//! Every selection of a plan at once: which can be sold, which meet a book, and what the others fall short of.
//!
//! # Why nothing is missed
//!
//! Every verdict says [what its outcome rests on](plan_rules::RestsOn): the spaces around its subject, a way that leads there,
//! or all of the home where that cannot be told. From that follow the choices that matter to it: those of which any
//! alternate brings or takes out something on that ground. All other choices may be answered in any way without changing
//! the outcome, because figures follow from what lies on the ground that they rest on and from nothing else.
//!
//! So a question is asked of one home, and the answer holds in every selection that answers those choices alike. Each
//! choice that matters and is not yet settled is then tried in all its alternates, and the question asked again: another
//! ground may show, and other choices that matter to it. When no choice is left that matters, the selections are divided
//! into parts, apart from each other and together all of them, on each of which the answer is known
//! (`tree`). What two things need the same ground is asked in the same way, once one home has shown the two.
//!
//! Homes are looked at as the plan is drawn; a reversed selection has the verdicts of the same answers as drawn, because a home
//! reversed has the same figures and verdicts (law `reversed` of the outside checks).
//!
//! The parts are sets of selections as decision diagrams (`diagram`), which count them exactly and without going through
//! them one by one. The tests compare the outcome with judging each selection by itself.
//!
//! What a buyer asks for (`query`) is such a set as well (`find`).

mod asking;
mod compatibility;
mod declared;
mod diagram;
mod fault;
mod find;
mod ground;
mod homes;
mod nearest;
mod places;
mod proof;
mod query;
pub mod report;
mod tree;

pub use compatibility::{Compatibility, Reason, WhyNot};
pub use fault::Fault;
pub use find::{FindError, Finder, Found, FoundHome};
pub use proof::{Proof, ProofError, prove};
pub use query::{Query, QueryError};
pub use tree::Cancelled;
