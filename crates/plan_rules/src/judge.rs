use std::sync::Arc;

use plan_geometry::Derived;
use plan_model::{Home, LegalKind};
use thiserror::Error;

use crate::coverage::RuleUse;
use crate::rule::Case;
use crate::{BookFacts, BookRule, Clause, Coverage, Outcome, RuleBook, Verdict};

/// Every verdict on one home by one book.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Judgement {
    /// The book that it was judged by.
    pub book: Arc<BookFacts>,
    /// In the order of the registry, then of the plan file.
    pub verdicts: Vec<Verdict>,
    /// What became of each section of the book, in the order of its list.
    pub(crate) coverage: Vec<Coverage>,
    /// Section and name of each rule that had nothing to judge and stands with no section of the book's list.
    pub(crate) idle: Vec<(Option<String>, &'static str)>,
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

    /// The sections of the book's list of which this became.
    pub fn sections(&self, coverage: Coverage) -> impl Iterator<Item = &Clause> {
        self.book
            .clauses
            .iter()
            .zip(&self.coverage)
            .filter(move |(_, found)| **found == coverage)
            .map(|(clause, _)| clause)
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
    if let Some(book_kind) = book.facts().legal_kind.filter(|_| !book.is_for(plan_kind)) {
        let book = book.facts().id.clone();
        return Err(WrongLegalKind { book, book_kind, plan_kind });
    }
    let mut verdicts = Vec::new();
    let mut rules = Vec::new();
    for rule in book.rules() {
        let case = Case { home, derived, rule };
        let found = rule.check().check(&case);
        rules.push(RuleUse { rule, applies: rule.check().applies(&case), judged: !found.is_empty() });
        verdicts.extend(found);
    }
    let facts = Arc::clone(book.facts());
    let coverage = facts.clauses.iter().map(|clause| Coverage::of(clause, &rules)).collect();
    let is_named = |rule: &BookRule| facts.clauses.iter().any(|clause| clause.rules.contains(&rule.rule.id));
    let idle = rules.iter().filter(|used| !used.applies && !is_named(used.rule));
    let idle = idle.map(|used| (used.rule.section.clone(), used.rule.rule.name)).collect();
    Ok(Judgement { book: facts, verdicts, coverage, idle })
}
