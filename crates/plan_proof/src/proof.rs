//! The proof: every selection that can be sold, whether it meets a book, and what the others fall short of.

use std::ops::{ControlFlow, Deref};

use num_bigint::BigUint;
use plan_model::{Plan, Selection};
use plan_rules::{Outcome, RuleBook, WrongLegalKind};

use crate::asking::Asked;
use crate::compatibility::Compatibility;
use crate::diagram::{Selections, Variables};
use crate::fault::{Fault, Faults};
use crate::homes::may_judge;
use crate::tree::{Cancelled, Leaf};

/// What is true of every selection of a plan by one book.
pub struct Proof<'plan> {
    compatibility: Compatibility<'plan>,
    short: Selections,
    unknown: Selections,
    /// What falls short of the book in selections that can be sold; what takes the fewest choices first.
    pub faults: Vec<Fault>,
    /// What cannot be told in selections that can be sold.
    pub unknowns: Vec<Fault>,
    /// How many homes were derived and judged.
    pub homes: usize,
}

/// Why nothing was proven.
#[derive(Debug)]
pub enum ProofError {
    /// The book is for homes under another label.
    WrongLegalKind(WrongLegalKind),
    /// Somebody stopped it.
    Cancelled,
}

impl From<Cancelled> for ProofError {
    fn from(_: Cancelled) -> Self {
        Self::Cancelled
    }
}

/// The rule that asks whether walls close around each room.
const ROOM_CLOSES: &str = "room-closes";

/// Proves every selection of a plan. `watch` is told of every home that is looked at, and can stop the work.
///
/// # Errors
/// When the book is for homes under another label, or somebody stopped it.
pub fn prove<'plan>(
    plan: &'plan Plan,
    book: &RuleBook,
    watch: &mut dyn FnMut(usize) -> ControlFlow<()>,
) -> Result<Proof<'plan>, ProofError> {
    may_judge(plan, book).map_err(ProofError::WrongLegalKind)?;
    let asked = Asked::everything(plan, book, watch)?;
    let variables = Variables::of(&asked.alternates, &asked.order());
    let compatibility = Compatibility::found(plan, asked.alternates, variables, &asked.clashes);
    let Compatibility { alternates, variables, possible, .. } = &compatibility;
    let tell = Faults { plan, alternates, variables };
    let in_open_homes = asked
        .open
        .iter()
        .fold(variables.none(), |open, (_, leaves)| open.or(&tell.set(leaves, |leaf| leaf.answer, possible)));
    let closed = &possible.without(&in_open_homes);
    let told = |outcome: Outcome| {
        let (mut all, mut list) = (variables.none(), Vec::new());
        for (judging, leaves) in &asked.verdicts {
            let of = judging.subject.iter().cloned().collect();
            // Of a home with a room that does not close nothing is told but that.
            let among = if judging.rule == ROOM_CLOSES { possible } else { closed };
            let is_such = |leaf: &Leaf<Outcome>| leaf.answer == outcome;
            if let Some((fault, set)) = tell.told(Some(judging.rule), of, leaves, is_such, among) {
                all = all.or(&set);
                list.push(fault);
            }
        }
        list.sort_by_key(|fault| (fault.caused_by.iter().map(Vec::len).min(), fault.rule, fault.of.clone()));
        (all, list)
    };
    let ((short, faults), (unknown, unknowns)) = (told(Outcome::Correction), told(Outcome::Unknown));
    let unknown = unknown.or(&in_open_homes).without(&short);
    Ok(Proof { short, unknown, faults, unknowns, homes: asked.homes, compatibility })
}

/// What can be sold, before it is judged.
impl<'plan> Deref for Proof<'plan> {
    type Target = Compatibility<'plan>;

    fn deref(&self) -> &Self::Target {
        &self.compatibility
    }
}

impl Proof<'_> {
    /// How many of the selections that can be sold fall short of the book.
    #[must_use]
    pub fn falling_short(&self) -> BigUint {
        self.short.count()
    }

    /// How many of those do not fall short, but have something that cannot be told.
    #[must_use]
    pub fn not_known(&self) -> BigUint {
        self.unknown.count()
    }

    /// How many of those meet the book.
    #[must_use]
    pub fn meeting(&self) -> BigUint {
        self.meeting_set().count()
    }

    pub(crate) fn meeting_set(&self) -> Selections {
        self.possible.without(&self.short).without(&self.unknown)
    }

    pub(crate) const fn short_set(&self) -> &Selections {
        &self.short
    }

    /// Whether a selection can be sold and falls short of the book.
    #[must_use]
    pub fn falls_short(&self, selection: &Selection) -> bool {
        self.holds(&self.short, selection)
    }

    /// Whether a selection can be sold and does not fall short of the book, but holds something that cannot be told.
    #[must_use]
    pub fn is_not_known(&self, selection: &Selection) -> bool {
        self.holds(&self.unknown, selection)
    }
}
