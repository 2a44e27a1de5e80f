//! Rules and rule books: what a home is judged by, the verdicts, and the reports of both figures and verdicts.
//!
//! A [`RuleBook`] is read from text: limits, levels and sections stand there and nowhere else. A rule of the
//! [registry](registry()) knows *how* to measure and compare; [`judge()`] lays the two together over the
//! [`Derived`](plan_geometry::Derived) figures of a home. A figure that the plan does not hold is
//! [unknown](Outcome::Unknown), never met.

mod book;
mod cautions;
mod coverage;
mod escape;
mod example;
mod judge;
mod limit;
pub mod report;
mod rests_on;
mod rule;
mod rules;
pub mod show;
mod verdict;

pub use book::{
    Amendment, AmendmentDraft, AnsweredBy, BookError, BookFacts, BookProblem, BookRule, BookSource, Change, Changed,
    Clause, ClauseStatus, Confidence, LetOff, Level, OpenError, RuleBook, RuleDraft, WrittenLimit,
};
pub use cautions::CAUTIONS;
pub use coverage::Coverage;
pub use example::Example;
pub use judge::{Judgement, WrongLegalKind, judge};
pub use limit::Limit;
pub use rests_on::{RestsOn, What};
pub use rule::Rule;
pub use rules::registry;
pub use verdict::{Exception, Outcome, Place, Quantity, Verdict};
