//! The selections of a set that are nearest to one.

use crate::diagram::{Selections, Variables};
use crate::tree::Answers;

/// Of as many as this the cheapest is sought.
const MANY: usize = 200;

/// The selections of a set with the fewest answers other than given; some, where there are very many.
pub(crate) fn nearest(variables: &Variables, set: &Selections, to: &[usize]) -> Vec<Answers> {
    if set.is_empty() {
        return Vec::new();
    }
    let with_changes = |changes| {
        let mut found = Vec::new();
        Search { variables, to }.within(set, &mut Vec::new(), changes, &mut found);
        found
    };
    // A set that is not empty has one, if every answer is changed.
    (0..=to.len()).map(with_changes).find(|found| !found.is_empty()).unwrap_or_default()
}

struct Search<'a> {
    variables: &'a Variables,
    to: &'a [usize],
}

impl Search<'_> {
    /// All that have exactly so many other answers, in the choices that are not yet answered.
    fn within(&self, set: &Selections, answered: &mut Answers, changes: usize, found: &mut Vec<Answers>) {
        if set.is_empty() || found.len() >= MANY || changes > self.to.len() - answered.len() {
            return;
        }
        let choice = answered.len();
        let Some(&given) = self.to.get(choice) else {
            return found.push(answered.clone());
        };
        for alternate in 0..self.variables.count(choice) {
            let Some(left) = changes.checked_sub(usize::from(alternate != given)) else { continue };
            let set = set.and(&self.variables.part(&[(choice, alternate)]));
            answered.push(alternate);
            self.within(&set, answered, left, found);
            answered.pop();
        }
    }
}
