//! One thing that is wrong in some selections, and the fewest choices that bring it about.

use num_bigint::BigUint;
use plan_model::{AlternateRef, Id, Plan, Selection};

use crate::diagram::{Selections, Variables};
use crate::homes::selection;
use crate::nearest::nearest;
use crate::tree::{Alternates, Leaf, smallest};

/// One thing that is wrong, and the fewest choices that bring it about.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Fault {
    /// The rule; none where things need the same ground.
    pub rule: Option<&'static str>,
    /// The elements that it is about; none for the home as a whole.
    pub of: Vec<Id>,
    /// Every smallest set of alternates with which it comes about, whatever else is chosen. An empty one: always.
    pub caused_by: Vec<Vec<AlternateRef>>,
    /// In how many of the selections that can be sold it comes about; for what cannot be sold, of all selections that the
    /// plan does not refuse.
    pub count: BigUint,
    /// A selection in which it does, as near to the included one as can be.
    pub example: Selection,
}

impl Fault {
    /// Whether it takes alternates of several choices, each of which is without fault alone.
    #[must_use]
    pub fn is_of_several(&self) -> bool {
        self.caused_by.iter().all(|part| part.len() > 1)
    }
}

/// Tells of faults by what was asked.
pub(crate) struct Faults<'a> {
    pub(crate) plan: &'a Plan,
    pub(crate) alternates: &'a Alternates,
    pub(crate) variables: &'a Variables,
}

impl Faults<'_> {
    /// All selections in which an answer is such, of some.
    pub(crate) fn set<T>(
        &self,
        leaves: &[Leaf<T>],
        is_such: impl Fn(&Leaf<T>) -> bool,
        among: &Selections,
    ) -> Selections {
        let parts = leaves.iter().filter(|leaf| is_such(leaf)).map(|leaf| &leaf.part);
        parts.fold(self.variables.none(), |all, part| all.or(&self.variables.part(part))).and(among)
    }

    /// The fault of which an answer tells, and all selections that have it; none if it is in none of the selections `among`
    /// which it is sought.
    pub(crate) fn told<T>(
        &self,
        rule: Option<&'static str>,
        of: Vec<Id>,
        leaves: &[Leaf<T>],
        is_such: impl Fn(&Leaf<T>) -> bool,
        among: &Selections,
    ) -> Option<(Fault, Selections)> {
        let set = self.set(leaves, &is_such, among);
        let example = nearest(self.variables, &set, &self.alternates.included).into_iter().next()?;
        // What no selection takes may be told either way.
        let is_nowhere = |leaf: &Leaf<T>| self.variables.part(&leaf.part).and(among).is_empty();
        let parts = smallest(leaves, &self.alternates.included, |leaf| is_such(leaf) || is_nowhere(leaf));
        let parts = parts.iter().filter(|part| !self.variables.part(part).and(&set).is_empty());
        let fault = Fault {
            rule,
            of,
            caused_by: parts.map(|part| answers(self.plan, part)).collect(),
            count: set.count(),
            example: selection(self.plan, &example),
        };
        Some((fault, set))
    }
}

/// The answers at these places.
pub(crate) fn answers(plan: &Plan, part: &[(usize, usize)]) -> Vec<AlternateRef> {
    let named = |(choice, alternate): &(usize, usize)| {
        let choice = plan.choices.get(*choice)?;
        let alternate = choice.alternates.get(*alternate)?;
        Some(AlternateRef { choice: choice.id.clone(), alternate: alternate.id.clone() })
    };
    part.iter().filter_map(named).collect()
}
