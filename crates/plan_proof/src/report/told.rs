//! A fault in the words of the home that shows it.

use plan_choices::conflict_sentence;
use plan_geometry::derive;
use plan_model::{Id, Plan};
use plan_rules::{RuleBook, judge};

use crate::Fault;

/// A fault with its sentence.
pub(super) struct Told<'a> {
    pub(super) fault: &'a Fault,
    /// The sentence of the verdict, or of what needs the same ground, in the fault's example.
    pub(super) sentence: String,
    /// The section of the book, where it is certain enough to be printed.
    pub(super) section: Option<String>,
    /// What the verdict must be told with: estimates, amendments, figures to be confirmed.
    pub(super) notes: Vec<String>,
    /// The subject as people call it.
    pub(super) subject: Option<String>,
}

impl<'a> Told<'a> {
    /// Of some faults; what is told in the same words of the same choices is told once.
    pub(super) fn each(plan: &Plan, book: &RuleBook, faults: &'a [Fault]) -> Vec<Self> {
        let mut list: Vec<Self> = Vec::new();
        for fault in faults {
            let told = Self::of(plan, book, fault);
            let is_same = |other: &Self| other.sentence == told.sentence && other.fault.caused_by == fault.caused_by;
            if !list.iter().any(is_same) {
                list.push(told);
            }
        }
        list
    }

    fn of(plan: &Plan, book: &RuleBook, fault: &'a Fault) -> Self {
        let home = plan.home(&fault.example);
        let derived = derive(&home);
        let Some(rule) = fault.rule else {
            let is_it = |ids: Vec<&Id>| ids.len() == fault.of.len() && ids.iter().all(|id| fault.of.contains(id));
            let problem =
                derived.problems.iter().find(|problem| problem.kind.is_conflict() && is_it(problem.kind.ids()));
            let sentence = problem.map(|problem| conflict_sentence(&home, &derived, problem)).unwrap_or_default();
            return Self { fault, sentence, section: None, notes: Vec::new(), subject: None };
        };
        let judgement = judge(&home, &derived, book).ok();
        let of_home = fault.of.is_empty();
        let is_it = |verdict: &&plan_rules::Verdict| {
            verdict.rule == rule
                && if of_home { verdict.is_of_home() } else { verdict.subject.as_ref() == fault.of.first() }
        };
        // What falls short or is unknown sorts before what is met.
        let verdict = judgement.iter().flat_map(|judgement| &judgement.verdicts).filter(is_it);
        let verdict = verdict.min_by_key(|verdict| verdict.outcome);
        Self {
            fault,
            sentence: verdict.map(|verdict| verdict.message.clone()).unwrap_or_default(),
            section: verdict.and_then(|verdict| verdict.section.clone()),
            notes: verdict.map(|verdict| verdict.notes.clone()).unwrap_or_default(),
            subject: verdict.map(|verdict| verdict.subject_name.clone()),
        }
    }
}
