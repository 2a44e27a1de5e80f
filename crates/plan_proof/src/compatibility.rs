//! What can be sold: what goes together by what the plan says, and by what needs the same ground.

use std::ops::ControlFlow;

use num_bigint::BigUint;
use plan_choices::price;
use plan_model::{AlternateRef, Plan, Selection};

use crate::asking::{Answers, Asked, Clashing};
use crate::declared::{declared, place};
use crate::diagram::{Selections, Variables};
use crate::fault::{Fault, Faults};
use crate::homes::selection;
use crate::nearest::nearest;
use crate::tree::{Alternates, Cancelled, Part};

/// All selections of a plan that can be sold.
pub struct Compatibility<'plan> {
    pub(crate) plan: &'plan Plan,
    pub(crate) alternates: Alternates,
    pub(crate) variables: Variables,
    declared: Selections,
    pub(crate) possible: Selections,
    clashes: Vec<Fault>,
}

/// Why an alternate cannot be taken with what else is chosen, and what could be had instead.
#[derive(Clone, Debug, PartialEq)]
pub struct WhyNot {
    /// The fewest of the other choices that stand against it together; none if it can be taken with nothing at all.
    pub blocked_by: Vec<AlternateRef>,
    /// What stands against it.
    pub reason: Reason,
    /// Selections with it that can be sold, with the fewest other answers changed; the cheapest of them first.
    pub nearest: Vec<Selection>,
}

/// Where something that does not go together is from.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Reason {
    /// The plan says so.
    Declared,
    /// Things need the same ground.
    Ground,
}

impl<'plan> Compatibility<'plan> {
    /// Of a plan. `watch` is told of every home that is looked at, and can stop the work.
    ///
    /// # Errors
    /// When somebody stopped it.
    pub fn of(plan: &'plan Plan, watch: &mut dyn FnMut(usize) -> ControlFlow<()>) -> Result<Self, Cancelled> {
        let asked = Asked::clashes(plan, watch)?;
        let variables = Variables::of(&asked.alternates, &asked.order());
        Ok(Self::found(plan, asked.alternates, variables, &asked.clashes))
    }

    pub(crate) fn found(
        plan: &'plan Plan,
        alternates: Alternates,
        variables: Variables,
        clashing: &Answers<Clashing, bool>,
    ) -> Self {
        let declared = declared(plan, &variables);
        let faults = Faults { plan, alternates: &alternates, variables: &variables };
        let told = clashing.iter().filter_map(|(clash, leaves)| {
            faults.told(None, clash.ids().into_iter().cloned().collect(), leaves, |leaf| leaf.answer, &declared)
        });
        let (clashes, sets): (Vec<Fault>, Vec<Selections>) = told.unzip();
        let possible = sets.iter().fold(declared.clone(), |possible, set| possible.without(set));
        Self { plan, clashes, declared, possible, alternates, variables }
    }

    /// The plan.
    #[must_use]
    pub const fn plan(&self) -> &'plan Plan {
        self.plan
    }

    /// What cannot be sold because things need the same ground, of what the plan does not refuse by itself.
    #[must_use]
    pub fn clashes(&self) -> &[Fault] {
        &self.clashes
    }

    /// How many selections there are, whether they can be sold or not.
    #[must_use]
    pub fn all(&self) -> BigUint {
        self.variables.all().count()
    }

    /// How many can be sold.
    #[must_use]
    pub fn possible(&self) -> BigUint {
        self.possible.count()
    }

    /// How many can be sold that take all of these alternates. None: no such thing can be sold; as many as can be sold
    /// at all: nothing can be sold without.
    #[must_use]
    pub fn possible_with(&self, answers: &[AlternateRef]) -> BigUint {
        let part: Option<Part> = answers.iter().map(|answer| place(self.plan, answer)).collect();
        part.map_or_else(BigUint::default, |part| self.possible.and(&self.variables.part(&part)).count())
    }

    /// Whether a selection can be sold.
    #[must_use]
    pub fn is_possible(&self, selection: &Selection) -> bool {
        self.holds(&self.possible, selection)
    }

    pub(crate) fn holds(&self, set: &Selections, selection: &Selection) -> bool {
        let part = self.part(selection);
        part.len() == self.alternates.counts.len() && !self.variables.part(&part).and(set).is_empty()
    }

    fn part(&self, selection: &Selection) -> Part {
        let taken = |(index, choice): (usize, &plan_model::Choice)| {
            let alternate = selection.alternate(&choice.id)?;
            Some((index, choice.alternates.iter().position(|other| other.id == *alternate)?))
        };
        self.plan.choices.iter().enumerate().filter_map(taken).collect()
    }

    /// What of a selection is not included, in the order of the plan.
    #[must_use]
    pub fn chosen(&self, selection: &Selection) -> Vec<AlternateRef> {
        let part = self.part(selection).into_iter();
        let chosen: Part = part.filter(|(choice, taken)| self.alternates.included[*choice] != *taken).collect();
        crate::fault::answers(self.plan, &chosen)
    }

    /// Why an alternate cannot be taken while all else stays as chosen; none if it can.
    #[must_use]
    pub fn why_not(&self, chosen: &Selection, wanted: &AlternateRef) -> Option<WhyNot> {
        let wanted = place(self.plan, wanted)?;
        let others: Part = self.part(chosen).into_iter().filter(|(choice, _)| *choice != wanted.0).collect();
        let stands_against = |set: &Selections, these: &[(usize, usize)]| {
            set.and(&self.variables.part(&[wanted])).and(&self.variables.part(these)).is_empty()
        };
        if !stands_against(&self.possible, &others) {
            return None;
        }
        let blocking = smallest_of(&others, |these| stands_against(&self.possible, these));
        let reason = if stands_against(&self.declared, &blocking) { Reason::Declared } else { Reason::Ground };
        let mut to = self.alternates.completed(&others);
        to[wanted.0] = wanted.1;
        let with_it = self.possible.and(&self.variables.part(&[wanted]));
        let near = nearest(&self.variables, &with_it, &to);
        let as_chosen = |answers: &Vec<usize>| selection(self.plan, answers).with_reversed(chosen.is_reversed());
        let mut near: Vec<Selection> = near.iter().map(as_chosen).collect();
        near.sort_by_key(|selection| price(self.plan, selection));
        Some(WhyNot { blocked_by: crate::fault::answers(self.plan, &blocking), reason, nearest: near })
    }
}

/// Up to how many together the fewest are sought by trying all; more than three choices hardly ever stand against one.
const TRIED: usize = 3;

/// The fewest of some answers of which something is true that stays true of more; of a larger number than is tried, a set
/// from which none can be left out.
fn smallest_of(answers: &[(usize, usize)], is_so: impl Fn(&[(usize, usize)]) -> bool) -> Part {
    let mut sets: Vec<Part> = vec![Part::new()];
    for size in 0..=TRIED {
        if let Some(found) = sets.iter().find(|set| is_so(set)) {
            return found.clone();
        }
        if size < TRIED {
            let longer = |set: &Part| {
                let later = answers.iter().filter(move |answer| set.last().is_none_or(|last| last < *answer));
                later.map(|answer| [set.as_slice(), &[*answer]].concat()).collect::<Vec<_>>()
            };
            sets = sets.iter().flat_map(longer).collect();
        }
    }
    let mut left = answers.to_vec();
    for answer in answers {
        let without: Part = left.iter().copied().filter(|other| other != answer).collect();
        if is_so(&without) {
            left = without;
        }
    }
    left
}
