//! Sets of selections as decision diagrams: counted exactly, however many there are.

mod cheapest;
mod sums;

use biodivine_lib_bdd::{Bdd, BddVariable, BddVariableSet, BddVariableSetBuilder};
use num_bigint::BigUint;

pub(crate) use self::cheapest::Cost;
pub(crate) use self::sums::TooManySums;

use crate::tree::Alternates;

/// The variables of a plan's choices. Each alternate is a binary number of its own, over as many variables as its choice
/// needs.
pub(crate) struct Variables {
    set: BddVariableSet,
    of: Vec<Vec<BddVariable>>,
    counts: Vec<usize>,
    /// The choices in the order of the diagram.
    order: Vec<usize>,
}

/// A set of selections.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(crate) struct Selections(Bdd);

impl Variables {
    /// `order` gives the choices in the order of the diagram: those that have to do with each other are best near each other.
    pub(crate) fn of(alternates: &Alternates, order: &[usize]) -> Self {
        let mut builder = BddVariableSetBuilder::new();
        let mut of = vec![Vec::new(); alternates.counts.len()];
        for choice in order {
            let bits = usize::BITS - alternates.counts[*choice].saturating_sub(1).leading_zeros();
            of[*choice] = (0..bits).map(|bit| builder.make_variable(&format!("c{choice}b{bit}"))).collect();
        }
        Self { set: builder.build(), of, counts: alternates.counts.clone(), order: order.to_vec() }
    }

    /// How many alternates a choice has.
    pub(crate) fn count(&self, choice: usize) -> usize {
        self.counts[choice]
    }

    /// Every selection.
    pub(crate) fn all(&self) -> Selections {
        let mut all = self.set.mk_true();
        for (choice, count) in self.counts.iter().enumerate() {
            let taken = (0..*count).map(|alternate| self.bits(choice, alternate));
            all = all.and(&taken.fold(self.set.mk_false(), |some, one| some.or(&one)));
        }
        Selections(all)
    }

    pub(crate) fn none(&self) -> Selections {
        Selections(self.set.mk_false())
    }

    /// Every selection that takes these alternates of these choices.
    pub(crate) fn part(&self, part: &[(usize, usize)]) -> Selections {
        let taken = part.iter().map(|(choice, alternate)| self.bits(*choice, *alternate));
        Selections(taken.fold(self.set.mk_true(), |all, one| all.and(&one)))
    }

    /// Of some selections, for each number from none on, those that have so many of some things. Of each thing is given which
    /// selections have it.
    pub(crate) fn by_number(&self, among: &Selections, things: impl Iterator<Item = Selections>) -> Vec<Selections> {
        let mut having = vec![among.clone()];
        for thing in things {
            let mut next = vec![self.none(); having.len() + 1];
            for (number, set) in having.iter().enumerate() {
                next[number] = next[number].or(&set.without(&thing));
                next[number + 1] = next[number + 1].or(&set.and(&thing));
            }
            having = next;
        }
        having
    }

    fn bits(&self, choice: usize, alternate: usize) -> Bdd {
        let bits = self.of[choice].iter().enumerate();
        bits.fold(self.set.mk_true(), |all, (bit, variable)| {
            all.and(&self.set.mk_literal(*variable, alternate >> bit & 1 == 1))
        })
    }
}

impl Selections {
    pub(crate) fn and(&self, other: &Self) -> Self {
        Self(self.0.and(&other.0))
    }

    pub(crate) fn or(&self, other: &Self) -> Self {
        Self(self.0.or(&other.0))
    }

    pub(crate) fn without(&self, other: &Self) -> Self {
        Self(self.0.and_not(&other.0))
    }

    pub(crate) fn is_empty(&self) -> bool {
        self.0.is_false()
    }

    /// How many; exact.
    pub(crate) fn count(&self) -> BigUint {
        self.0.exact_cardinality().to_string().parse().unwrap_or_default()
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn counts_are_exact_beyond_64_bits() {
        let alternates = Alternates { counts: vec![3; 60], included: vec![0; 60] };
        let order: Vec<usize> = (0..60).collect();
        let variables = Variables::of(&alternates, &order);
        assert_eq!(variables.all().count(), BigUint::from(3_u8).pow(60));
        let without = variables.all().without(&variables.part(&[(0, 1), (59, 2)]));
        assert_eq!(without.count(), BigUint::from(3_u8).pow(58) * 8_u8);
        assert!(variables.all().and(&variables.none()).is_empty());
        let some = variables.part(&[(7, 0)]).or(&variables.part(&[(7, 2)])).and(&variables.all());
        assert_eq!(some.count(), BigUint::from(3_u8).pow(59) * 2_u8);
    }
}
