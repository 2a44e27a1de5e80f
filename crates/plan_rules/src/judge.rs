use std::sync::Arc;

use plan_geometry::Derived;
use plan_model::{Home, LegalKind};
use thiserror::Error;

use crate::rule::Case;
use crate::{BookFacts, Outcome, RuleBook, Verdict};

/// Every verdict on one home by one book.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Judgement {
    /// The book that it was judged by.
    pub book: Arc<BookFacts>,
    /// In the order of the registry, then of the plan file.
    pub verdicts: Vec<Verdict>,
}

impl Judgement {
    /// Required rules that the home falls short of.
    pub fn corrections(&self) -> impl Iterator<Item = &Verdict> {
        self.with_outcome(Outcome::Correction)
    }

    /// Required rules that cannot be judged.
    pub fn unknown(&self) -> impl Iterator<Item = &Verdict> {
        self.with_outcome(Outcome::Unknown)
    }

    /// Recommendations not met.
    pub fn advisories(&self) -> impl Iterator<Item = &Verdict> {
        self.with_outcome(Outcome::Advisory)
    }

    /// Rules that are met.
    pub fn met(&self) -> impl Iterator<Item = &Verdict> {
        self.with_outcome(Outcome::Met)
    }

    /// Verdicts of one outcome, in order.
    pub fn with_outcome(&self, outcome: Outcome) -> impl Iterator<Item = &Verdict> {
        self.verdicts.iter().filter(move |verdict| verdict.outcome == outcome)
    }
}

/// The book is for homes under another label than the plan's.
#[derive(Clone, Debug, PartialEq, Eq, Error)]
#[error(
    "the rule book \"{book}\" is for homes under a {}, and the plan is sold under a {}; the two are never mixed",
    label(.book_kind),
    label(.plan_kind)
)]
pub struct WrongLegalKind {
    /// The book's id.
    pub book: String,
    /// What the book is for.
    pub book_kind: LegalKind,
    /// What the plan is.
    pub plan_kind: LegalKind,
}

const fn label(kind: &LegalKind) -> &'static str {
    match kind {
        LegalKind::StateLabel => "state label",
        LegalKind::FederalLabel => "federal label",
    }
}

/// Judges a home by a rule book.
///
/// Conflicts in space are not verdicts: they stand in [`Derived::problems`].
///
/// # Errors
/// When the book is for homes under another label.
pub fn judge(home: &Home<'_>, derived: &Derived, book: &RuleBook) -> Result<Judgement, WrongLegalKind> {
    let plan_kind = home.plan.home.legal_kind;
    if book.facts().legal_kind != plan_kind {
        let (book, book_kind) = (book.facts().id.clone(), book.facts().legal_kind);
        return Err(WrongLegalKind { book, book_kind, plan_kind });
    }
    let verdicts = book.rules().iter().flat_map(|rule| rule.check().check(&Case { home, derived, rule })).collect();
    Ok(Judgement { book: Arc::clone(book.facts()), verdicts })
}
