//! Ways through the rooms of a home, for rules on what one must not pass.

use std::collections::BTreeSet;

use plan_geometry::{Derived, Node};
use plan_model::Id;

/// Whether what `is_there` tells is reached from a room through none but rooms that `may_be_passed`.
pub(super) fn leads(
    derived: &Derived,
    from: &Id,
    may_be_passed: impl Fn(&Id) -> bool,
    is_there: impl Fn(&Node) -> bool,
) -> bool {
    let mut seen = BTreeSet::from([from]);
    let mut left = vec![from];
    while let Some(room) = left.pop() {
        for (_, beyond) in derived.room_graph().entered_from(room) {
            if is_there(beyond) {
                return true;
            }
            if let Node::Room(next) = beyond
                && may_be_passed(next)
                && seen.insert(next)
            {
                left.push(next);
            }
        }
    }
    false
}
