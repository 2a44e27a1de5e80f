//! Ways through the rooms of a home, for rules on what one must not pass.

use std::collections::BTreeMap;

use plan_geometry::{Derived, Node};
use plan_model::Id;

/// A way from a room to what `is_there` tells, through none but rooms that `may_be_passed`: the rooms, doors and open
/// boundaries that it leads through, the first room among them. None if there is no such way.
pub(super) fn way(
    derived: &Derived,
    from: &Id,
    may_be_passed: impl Fn(&Id) -> bool,
    is_there: impl Fn(&Node) -> bool,
) -> Option<Vec<Id>> {
    let mut entered_by: BTreeMap<&Id, Option<(&Id, &Id)>> = BTreeMap::from([(from, None)]);
    let mut left = vec![from];
    while let Some(room) = left.pop() {
        for (connection, beyond) in derived.room_graph().entered_from(room) {
            let next = match beyond {
                Node::Room(next) => Some(next),
                Node::Outdoors => None,
            };
            if is_there(beyond) {
                let mut passed = vec![room.clone(), connection.id.clone()];
                passed.extend(next.cloned());
                let mut at = room;
                while let Some((door, before)) = entered_by.get(at).copied().flatten() {
                    passed.extend([door.clone(), before.clone()]);
                    at = before;
                }
                return Some(passed);
            }
            if let Some(next) = next.filter(|next| may_be_passed(next))
                && !entered_by.contains_key(next)
            {
                entered_by.insert(next, Some((&connection.id, room)));
                left.push(next);
            }
        }
    }
    None
}
