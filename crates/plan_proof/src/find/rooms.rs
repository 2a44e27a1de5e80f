//! The selections by the number of their rooms of one use.

use std::collections::BTreeMap;

use plan_model::elements::RoomUse;
use plan_model::{Alternate, Id, Plan};

use crate::diagram::{Selections, Variables};

/// Of some selections, those with so many rooms of a use. A room is there where it was drawn in the base or an alternate that
/// brings it is taken, and no alternate is taken that takes it out.
pub(super) fn by_rooms(plan: &Plan, variables: &Variables, among: &Selections, usage: RoomUse) -> Vec<Selections> {
    let base = plan.base.rooms.iter().filter(|room| room.usage == usage);
    let mut there: BTreeMap<&Id, Selections> = base.map(|room| (&room.id, variables.all())).collect();
    for (place, alternate) in alternates(plan) {
        for room in alternate.brings.rooms.iter().filter(|room| room.usage == usage) {
            there.insert(&room.id, variables.part(&[place]));
        }
    }
    for (place, alternate) in alternates(plan) {
        for id in &alternate.removes {
            if let Some(set) = there.get_mut(id) {
                *set = set.without(&variables.part(&[place]));
            }
        }
    }
    variables.by_number(among, there.into_values())
}

/// Every alternate with its place.
fn alternates(plan: &Plan) -> impl Iterator<Item = ((usize, usize), &Alternate)> {
    plan.choices.iter().enumerate().flat_map(|(choice, one)| {
        one.alternates.iter().enumerate().map(move |(place, alternate)| ((choice, place), alternate))
    })
}
