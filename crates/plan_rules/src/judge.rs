use std::sync::Arc;

use plan_geometry::Derived;
use plan_model::elements::Room;
use plan_model::{Exact, Home, LegalKind};
use thiserror::Error;

use crate::coverage::RuleUse;
use crate::rule::{Case, Figures};
use crate::rules::Covered;
use crate::{BookFacts, Clause, Coverage, LetOff, Outcome, Quantity, RestsOn, RuleBook, Verdict};

/// Every verdict on one home by one book.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Judgement {
    /// The book that it was judged by.
    pub book: Arc<BookFacts>,
    /// In the order of the registry, then of the plan file.
    pub verdicts: Vec<Verdict>,
    /// What became of each section of the book, in the order of its list.
    pub(crate) coverage: Vec<Coverage>,
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

    /// What the home has nothing of, and what exceptions let off.
    pub fn does_not_apply(&self) -> impl Iterator<Item = &Verdict> {
        self.with_outcome(Outcome::DoesNotApply)
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
        let judged = found.iter().any(is_judged);
        let nothing = if judged { None } else { rule.check().nothing(&case) };
        rules.push(RuleUse { rule, applies: judged || nothing.is_none(), judged });
        verdicts.extend(no_rule_is_silent(&case, found, nothing));
    }
    let facts = Arc::clone(book.facts());
    let coverage = facts.clauses.iter().map(|clause| Coverage::of(clause, &rules)).collect();
    Ok(Judgement { book: facts, verdicts, coverage })
}

/// Whether a verdict says what became of a subject: an exception is applied, that there is nothing to measure is not.
fn is_judged(verdict: &Verdict) -> bool {
    verdict.outcome != Outcome::DoesNotApply || verdict.exception.is_some()
}

/// What a rule found, with what the book lets off; or else why it found nothing.
fn no_rule_is_silent(case: &Case<'_>, mut found: Vec<Verdict>, nothing: Option<String>) -> Vec<Verdict> {
    let let_off = let_off(case);
    if found.is_empty() {
        match nothing {
            Some(why) if let_off.is_empty() => found.push(case.does_not_apply(case.whole_home(), why, None)),
            Some(_) => {}
            None => found.push(kept_from_judging(case)),
        }
    }
    found.extend(let_off);
    found
}

/// The rooms that an exception of the book lets off, unless they are part of a space that is judged.
fn let_off(case: &Case<'_>) -> Vec<Verdict> {
    let Some(LetOff { rooms, exception }) = &case.rule.lets_off else { return Vec::new() };
    let judged: Vec<_> =
        Covered::of(case.rule).spaces(case.derived).into_iter().flat_map(|space| space.rooms).collect();
    let is_let_off = |room: &&Room| {
        rooms.contains(&room.usage) && !case.rule.rooms.contains(&room.usage) && !judged.contains(&room.id)
    };
    let drawn = case.home.elements.rooms.iter().filter(is_let_off);
    let verdict =
        |room: &Room| case.does_not_apply(Case::of_room(room), exception.text.clone(), Some(exception.clone()));
    drawn.map(verdict).collect()
}

/// That a rule has something to judge, and that the drawing keeps it from being judged.
fn kept_from_judging(case: &Case<'_>) -> Verdict {
    let (name, walls) = (case.rule.rule.name, case.enter_walls());
    let message = match &walls {
        Some(walls) => format!("{name}: not judged, because there are no {walls}."),
        None => format!("{name}: not judged, because what it is about does not stand in a room."),
    };
    let figures = Figures { quantity: Quantity::Possible, measured: None, required: Exact::from(1) };
    let enter = || walls.unwrap_or_else(|| "a place in a room for what the rule is about".to_owned());
    let verdict = case.verdict(Outcome::Unknown, case.whole_home(), figures, message, Vec::new());
    verdict.entering(enter).resting_on(RestsOn::Home)
}
