//! What a question comes to in every selection, asked as seldom as it takes.
//!
//! Each answer says which choices it rests on. So the selections fall into a tree: where an answer rests on a choice that is
//! not yet settled, every alternate of it is tried; where all that it rests on is settled, the answer stands for every
//! selection that settles those alike. The work grows with the alternates of the choices that matter to one question, not
//! with those of the plan.

use fixedbitset::FixedBitSet;
use plan_model::{Choice, Plan};

/// For each choice, by its place in the plan, the place of the chosen alternate.
pub(crate) type Answers = Vec<usize>;

/// Some choices with an alternate each, in the order of the plan: all selections that take them.
pub(crate) type Part = Vec<(usize, usize)>;

/// What came of a question in one part of the selections.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(crate) struct Leaf<T> {
    /// The selections in which it did.
    pub(crate) part: Part,
    pub(crate) answer: T,
}

/// The alternates of each choice, and which one is taken where nothing else is said.
#[derive(Clone, Debug)]
pub(crate) struct Alternates {
    /// How many, for each choice.
    pub(crate) counts: Vec<usize>,
    pub(crate) included: Answers,
}

/// The question was given up because somebody asked for that.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Cancelled;

impl Alternates {
    pub(crate) fn of(plan: &Plan) -> Self {
        let included = |choice: &Choice| choice.alternates.iter().position(|alternate| alternate.included);
        Self {
            counts: plan.choices.iter().map(|choice| choice.alternates.len()).collect(),
            // A plan that was read includes one.
            included: plan.choices.iter().map(|choice| included(choice).unwrap_or_default()).collect(),
        }
    }

    /// Asks in all parts of the selections in which the answer may differ. The parts are apart from each other, and together
    /// they are all selections.
    pub(crate) fn ask<T>(
        &self,
        mut ask: impl FnMut(&[usize]) -> Result<(FixedBitSet, T), Cancelled>,
    ) -> Result<Vec<Leaf<T>>, Cancelled> {
        self.ask_within(|_| true, |answers, _| ask(answers))
    }

    /// The same, but nothing is asked in parts that are not `within` what is of interest. What is asked is told the part as
    /// well.
    pub(crate) fn ask_within<T>(
        &self,
        within: impl Fn(&[(usize, usize)]) -> bool,
        mut ask: impl FnMut(&[usize], &[(usize, usize)]) -> Result<(FixedBitSet, T), Cancelled>,
    ) -> Result<Vec<Leaf<T>>, Cancelled> {
        let mut leaves = Vec::new();
        let mut open = vec![Part::new()];
        while let Some(part) = open.pop() {
            if !within(&part) {
                continue;
            }
            let (rests_on, answer) = ask(&self.completed(&part), &part)?;
            let settled = |choice: usize| part.iter().any(|(settled, _)| *settled == choice);
            let Some(choice) = rests_on.ones().find(|choice| !settled(*choice)) else {
                leaves.push(Leaf { part, answer });
                continue;
            };
            // The last one is taken up first: in the order of the plan.
            for alternate in (0..self.counts[choice]).rev() {
                let mut part = part.clone();
                part.push((choice, alternate));
                part.sort_unstable();
                open.push(part);
            }
        }
        Ok(leaves)
    }

    /// The included alternates, but for those of a part.
    pub(crate) fn completed(&self, part: &[(usize, usize)]) -> Answers {
        let mut answers = self.included.clone();
        for (choice, alternate) in part {
            answers[*choice] = *alternate;
        }
        answers
    }
}

/// Whether some selection lies in both parts.
pub(crate) fn meet(one: &[(usize, usize)], other: &[(usize, usize)]) -> bool {
    one.iter().all(|(choice, alternate)| other.iter().all(|(c, a)| c != choice || a == alternate))
}

/// The smallest parts in which the answer is such everywhere, each once: of a part whose leaf is such, a choice is left out as
/// long as all leaves that it then meets are such as well.
pub(crate) fn smallest<T>(leaves: &[Leaf<T>], included: &[usize], is_such: impl Fn(&Leaf<T>) -> bool) -> Vec<Part> {
    let is_such: Vec<bool> = leaves.iter().map(is_such).collect();
    let mut found: Vec<Part> = Vec::new();
    for leaf in leaves.iter().zip(&is_such).filter_map(|(leaf, such)| such.then_some(leaf)) {
        if found.iter().any(|part| part.iter().all(|answer| leaf.part.contains(answer))) {
            continue;
        }
        let mut part = leaf.part.clone();
        // What is included is left out first: a fault is told by what was chosen.
        let mut order = part.clone();
        order.sort_by_key(|(choice, alternate)| included[*choice] != *alternate);
        for answer in order {
            let without: Part = part.iter().copied().filter(|other| *other != answer).collect();
            if leaves.iter().zip(&is_such).all(|(leaf, such)| *such || !meet(&leaf.part, &without)) {
                part = without;
            }
        }
        found.push(part);
    }
    found.sort_by_key(|part| (part.len(), part.clone()));
    found.dedup();
    found
}

#[cfg(test)]
mod tests {
    use super::*;

    fn alternates(counts: &[usize]) -> Alternates {
        Alternates { counts: counts.to_vec(), included: vec![0; counts.len()] }
    }

    fn choices(all: usize, these: &[usize]) -> FixedBitSet {
        let mut set = FixedBitSet::with_capacity(all);
        set.extend(these.iter().copied());
        set
    }

    /// Falls short where the first choice takes its second alternate and the third its third; looks at the third only then.
    fn question(answers: &[usize]) -> (FixedBitSet, bool) {
        if answers[0] == 1 { (choices(4, &[0, 2]), answers[2] == 2) } else { (choices(4, &[0]), false) }
    }

    #[test]
    fn asked_as_seldom_as_what_it_rests_on_allows() {
        let mut asked = 0;
        let leaves = alternates(&[2, 5, 3, 7]).ask(|answers| {
            asked += 1;
            Ok(question(answers))
        });
        let leaves = leaves.expect("nobody cancelled");
        assert_eq!(leaves.len(), 4, "not the first, or the first with three of the third");
        assert!(asked <= 6, "asked {asked} times of 210");
        assert_eq!(smallest(&leaves, &[0; 4], |leaf| leaf.answer), [vec![(0, 1), (2, 2)]]);
    }

    #[test]
    fn what_holds_everywhere_has_the_empty_part() {
        let leaves = alternates(&[2, 2]).ask(|_| Ok((choices(2, &[0]), true))).expect("nobody cancelled");
        assert_eq!(smallest(&leaves, &[0, 0], |leaf| leaf.answer), [Part::new()]);
    }

    #[test]
    fn whoever_cancels_gets_nothing() {
        let leaves = alternates(&[2]).ask(|_| Err::<(FixedBitSet, ()), _>(Cancelled));
        assert_eq!(leaves, Err(Cancelled));
    }
}
