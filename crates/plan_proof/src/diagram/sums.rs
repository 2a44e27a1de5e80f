//! The selections whose alternates sum up to no more than a limit.
//!
//! Choice by choice in the order of the diagram: what is left of the limit decides which of the further choices' alternates
//! still go. Two limits between which no sum of the further choices lies leave the same selections, so each stretch of limits
//! is worked out once; the work grows with the different sums, not with the selections. The method is that of Abio,
//! Nieuwenhuis, Oliveras, Rodriguez-Carbonell and Mayer-Eichberger, "A New Look at BDDs for Pseudo-Boolean Constraints",
//! Journal of Artificial Intelligence Research 45 (2012).

use std::collections::BTreeMap;

use biodivine_lib_bdd::{Bdd, BddNode, BddPointer, BddVariable};
use rustc_hash::FxHashMap;

use super::{Selections, Variables};

/// The diagram would not fit: there are too many different sums.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) struct TooManySums;

/// What a diagram may have of nodes before it is given up: some 50 MB. 32 choices of three alternates at any prices in tens up
/// to 10,000 stay below it.
const MOST_NODES: usize = 4_000_000;

impl Variables {
    /// Every selection of whose alternates the weights, by choice and alternate, sum up to no more than a limit.
    ///
    /// # Errors
    /// When there are too many different sums.
    pub(crate) fn with_sum_at_most(&self, weights: &[Vec<i128>], limit: i128) -> Result<Selections, TooManySums> {
        self.with_sum(weights, limit, MOST_NODES)
    }

    fn with_sum(&self, weights: &[Vec<i128>], limit: i128, most: usize) -> Result<Selections, TooManySums> {
        let mut sums = Sums::new(self, weights, most);
        let root = sums.at_most(0, limit)?.pointer;
        let set = match root.as_bool() {
            Some(true) => self.set.mk_true(),
            Some(false) => self.set.mk_false(),
            // Every node is part of what the root means, so the root came last.
            None => Bdd::from_nodes(&sums.nodes).unwrap_or_else(|_| self.set.mk_false()),
        };
        Ok(Selections(set).and(&self.all()))
    }
}

struct Sums<'a> {
    variables: &'a Variables,
    weights: &'a [Vec<i128>],
    /// How many nodes there may be.
    most: usize,
    /// The smallest and the largest sum of the choices from each place of the order on.
    ends: Vec<(i128, i128)>,
    nodes: Vec<BddNode>,
    same: FxHashMap<BddNode, BddPointer>,
    /// For each place in the order, by the least limit of the stretch.
    known: Vec<BTreeMap<i128, Stretch>>,
}

/// The limits, from and to, that leave the same selections.
#[derive(Clone, Copy)]
struct Stretch {
    from: i128,
    to: i128,
    pointer: BddPointer,
}

impl Stretch {
    /// The same with so much spent before; the ends that are open stay so.
    const fn after(self, spent: i128) -> (i128, i128) {
        let from = if self.from == i128::MIN { i128::MIN } else { self.from + spent };
        let to = if self.to == i128::MAX { i128::MAX } else { self.to + spent };
        (from, to)
    }
}

impl<'a> Sums<'a> {
    fn new(variables: &'a Variables, weights: &'a [Vec<i128>], most: usize) -> Self {
        let mut ends = vec![(0, 0)];
        for choice in variables.order.iter().rev() {
            let (least, most) = ends[ends.len() - 1];
            let here = &weights[*choice];
            let (low, high) = (here.iter().min().copied(), here.iter().max().copied());
            ends.push((least + low.unwrap_or_default(), most + high.unwrap_or_default()));
        }
        ends.reverse();
        let terminals = variables.set.num_vars();
        let nodes = vec![BddNode::mk_zero(terminals), BddNode::mk_one(terminals)];
        let known = vec![BTreeMap::new(); variables.order.len()];
        Self { variables, weights, most, ends, nodes, known, same: FxHashMap::default() }
    }

    /// What the choices from a place in the order on leave of a limit.
    fn at_most(&mut self, place: usize, limit: i128) -> Result<Stretch, TooManySums> {
        let (least, most) = self.ends[place];
        if limit >= most {
            return Ok(Stretch { from: most, to: i128::MAX, pointer: BddPointer::one() });
        }
        if limit < least {
            return Ok(Stretch { from: i128::MIN, to: least - 1, pointer: BddPointer::zero() });
        }
        if let Some((_, stretch)) = self.known[place].range(..=limit).next_back()
            && limit <= stretch.to
        {
            return Ok(*stretch);
        }
        let choice = self.variables.order[place];
        let (mut from, mut to, mut pointers) = (i128::MIN, i128::MAX, Vec::new());
        for weight in &self.weights[choice] {
            let rest = self.at_most(place + 1, limit - weight)?;
            let ends = rest.after(*weight);
            (from, to) = (from.max(ends.0), to.min(ends.1));
            pointers.push(rest.pointer);
        }
        let stretch = Stretch { from, to, pointer: self.decided(choice, pointers)? };
        self.known[place].insert(from, stretch);
        Ok(stretch)
    }

    /// What follows each alternate of a choice, decided by the choice's variables.
    fn decided(&mut self, choice: usize, mut after: Vec<BddPointer>) -> Result<BddPointer, TooManySums> {
        let bits = self.variables.of[choice].clone();
        // Numbers that no alternate has are taken out of the whole set in the end.
        let last = after.last().copied().unwrap_or(BddPointer::zero());
        after.resize(1 << bits.len(), last);
        for (bit, variable) in bits.iter().enumerate().rev() {
            let half = 1 << bit;
            let with: Vec<BddPointer> = after.split_off(half);
            for (low, high) in after.iter_mut().zip(with) {
                *low = self.node(*variable, *low, high)?;
            }
        }
        Ok(after[0])
    }

    fn node(&mut self, variable: BddVariable, low: BddPointer, high: BddPointer) -> Result<BddPointer, TooManySums> {
        if low == high {
            return Ok(low);
        }
        let node = BddNode::mk_node(variable, low, high);
        if let Some(same) = self.same.get(&node) {
            return Ok(*same);
        }
        if self.nodes.len() >= self.most {
            return Err(TooManySums);
        }
        let pointer = BddPointer::from_index(self.nodes.len());
        self.nodes.push(node);
        self.same.insert(node, pointer);
        Ok(pointer)
    }
}

#[cfg(test)]
mod tests {
    use num_bigint::BigUint;

    use super::*;
    use crate::tree::Alternates;

    fn variables(counts: &[usize], order: &[usize]) -> Variables {
        Variables::of(&Alternates { counts: counts.to_vec(), included: vec![0; counts.len()] }, order)
    }

    #[test]
    fn every_limit_leaves_what_adding_up_leaves() {
        let weights = [vec![0, 7, -3], vec![5], vec![0, 0, 4, 9, 9], vec![-1, 2]];
        let variables = variables(&[3, 1, 5, 2], &[2, 0, 3, 1]);
        let mut sums = Vec::new();
        for a in &weights[0] {
            for b in &weights[1] {
                for c in &weights[2] {
                    sums.extend(weights[3].iter().map(|d| a + b + c + d));
                }
            }
        }
        for limit in -5..30 {
            let set = variables.with_sum_at_most(&weights, limit).expect("few sums");
            let expected = sums.iter().filter(|sum| **sum <= limit).count();
            assert_eq!(set.count(), BigUint::from(expected), "at most {limit}");
        }
    }

    /// Of 60 choices that cost nothing or 1, as many selections as there are ways to take at most 30: half of all, and half of
    /// the ways to take just 30, which are 118,264,581,564,861,424 (60 over 30).
    #[test]
    fn as_many_as_there_are_are_counted() {
        let order: Vec<usize> = (0..60).collect();
        let set = variables(&[2; 60], &order).with_sum_at_most(&vec![vec![0, 1]; 60], 30).expect("few sums");
        let just_30 = BigUint::from(118_264_581_564_861_424_u64);
        assert_eq!(set.count(), (BigUint::from(1_u8) << 59_u8) + just_30 / 2_u8);
    }

    /// 32 choices of three alternates: 1,853,020,188,851,841 selections. Prices in tens, drawn by a generator of Lehmer's kind.
    #[test]
    fn prices_in_tens_of_as_many_choices_as_a_price_book_has_fit() {
        let mut drawn = 1_u64;
        let mut ten = || {
            drawn = drawn * 48_271 % 2_147_483_647;
            i128::from(drawn % 1_000) * 10
        };
        let order: Vec<usize> = (0..32).collect();
        let weights: Vec<Vec<i128>> = order.iter().map(|_| vec![0, ten(), ten()]).collect();
        let variables = variables(&[3; 32], &order);
        // A limit at which about half of them go: the sum of what the choices cost in the mean.
        let limit = weights.iter().flatten().sum::<i128>() / 3;
        if cfg!(debug_assertions) {
            // It takes too long without optimisation; here, that it is given up where it does not fit.
            assert_eq!(variables.with_sum(&weights, limit, 10_000).map(|set| set.count()), Err(TooManySums));
            return;
        }
        let (at_most, all) = (variables.with_sum_at_most(&weights, limit).expect("it fits"), variables.all());
        let negative: Vec<Vec<i128>> = weights.iter().map(|list| list.iter().map(|weight| -weight).collect()).collect();
        let above = variables.with_sum_at_most(&negative, -limit - 1).expect("it fits");
        assert_eq!(at_most.count() + above.count(), all.count());
        assert!(at_most.and(&above).is_empty());
    }
}
