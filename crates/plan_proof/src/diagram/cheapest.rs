//! The selections of a set that cost least, one after the other.

use std::cmp::Reverse;
use std::collections::BinaryHeap;

use biodivine_lib_bdd::{Bdd, BddPointer};
use rustc_hash::FxHashMap;

use super::{Selections, Variables};
use crate::tree::Answers;

/// What a selection costs, and how many of its answers are not the included ones: of two that cost the same, the one with
/// fewer comes first.
pub(crate) type Cost = (i128, usize);

impl Variables {
    /// The cheapest selections of a set, at most so many, by the cost of each alternate of each choice.
    ///
    /// The least that can still be added is known for each part of the diagram, so nothing is looked at but what leads to
    /// one of the selections that are told.
    pub(crate) fn cheapest(&self, set: &Selections, costs: &[Vec<Cost>], most: usize) -> Vec<Answers> {
        let mut least = Least { variables: self, set: &set.0, costs, known: FxHashMap::default() };
        let root = set.0.root_pointer();
        let mut found = Vec::new();
        let mut open = BinaryHeap::new();
        open.extend(least.from(0, root).map(|cost| Reverse((cost, Answers::new(), root, (0, 0)))));
        while let Some(Reverse((_, taken, pointer, spent))) = open.pop() {
            if found.len() == most {
                break;
            }
            let place = taken.len();
            let Some(choice) = self.order.get(place).copied() else {
                let mut answers = vec![0; self.counts.len()];
                self.order.iter().zip(&taken).for_each(|(choice, alternate)| answers[*choice] = *alternate);
                found.push(answers);
                continue;
            };
            for (alternate, cost) in costs[choice].iter().enumerate() {
                let (pointer, spent) = (self.after(&set.0, pointer, choice, alternate), sum(spent, *cost));
                if let Some(rest) = least.from(place + 1, pointer) {
                    let taken = [taken.as_slice(), &[alternate]].concat();
                    open.push(Reverse((sum(spent, rest), taken, pointer, spent)));
                }
            }
        }
        found
    }

    /// What an alternate of a choice leaves of a diagram.
    fn after(&self, set: &Bdd, mut pointer: BddPointer, choice: usize, alternate: usize) -> BddPointer {
        for (bit, variable) in self.of[choice].iter().enumerate() {
            if !pointer.is_terminal() && set.var_of(pointer) == *variable {
                let is_set = alternate >> bit & 1 == 1;
                pointer = if is_set { set.high_link_of(pointer) } else { set.low_link_of(pointer) };
            }
        }
        pointer
    }
}

fn sum(one: Cost, other: Cost) -> Cost {
    (one.0 + other.0, one.1 + other.1)
}

/// The least that the choices from a place in the order on add.
struct Least<'a> {
    variables: &'a Variables,
    set: &'a Bdd,
    costs: &'a [Vec<Cost>],
    known: FxHashMap<(usize, BddPointer), Option<Cost>>,
}

impl Least<'_> {
    /// None where no selection is left.
    fn from(&mut self, place: usize, pointer: BddPointer) -> Option<Cost> {
        if pointer.is_zero() {
            return None;
        }
        let Some(choice) = self.variables.order.get(place).copied() else { return Some((0, 0)) };
        if let Some(known) = self.known.get(&(place, pointer)) {
            return *known;
        }
        let costs = self.costs;
        let after = costs[choice].iter().enumerate().filter_map(|(alternate, cost)| {
            let pointer = self.variables.after(self.set, pointer, choice, alternate);
            self.from(place + 1, pointer).map(|rest| sum(*cost, rest))
        });
        let least = after.min();
        self.known.insert((place, pointer), least);
        least
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::tree::Alternates;

    #[test]
    fn in_order_each_once_and_with_fewer_answers_changed_first() {
        let alternates = Alternates { counts: vec![2, 3], included: vec![0, 0] };
        let variables = Variables::of(&alternates, &[1, 0]);
        // 0 or 5; 0, 5 or -1.
        let costs = [vec![(0, 0), (5, 1)], vec![(0, 0), (5, 1), (-1, 1)]];
        let all = variables.cheapest(&variables.all(), &costs, 100);
        assert_eq!(all, [[0, 2], [0, 0], [1, 2], [1, 0], [0, 1], [1, 1]]);
        let without = variables.all().without(&variables.part(&[(1, 2)]));
        assert_eq!(variables.cheapest(&without, &costs, 2), [[0, 0], [1, 0]]);
        assert!(variables.cheapest(&variables.none(), &costs, 2).is_empty());
    }
}
