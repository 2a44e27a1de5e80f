//! The registry: one rule, one file. A new rule takes two lines here, its file, its entry in the books and its page in
//! `tests/rules`.

mod ceiling_height;
mod counted_space;
mod egress_area;
mod egress_door;
mod egress_door_height;
mod egress_door_width;
mod egress_height;
mod egress_opening;
mod egress_sill;
mod egress_width;
mod habitable_area;
mod hallway_width;
mod least_dimension;
mod low_ceilings;
mod opening_figure;
mod room_closes;
mod room_entered;
mod spaces;

pub(crate) use counted_space::CountedSpaces;
pub(crate) use hallway_width::shows_passages;

use crate::Rule;

/// Every rule, in the order of verdicts and reports.
const REGISTRY: [&Rule; 12] = [
    &room_closes::RULE,
    &room_entered::RULE,
    &habitable_area::RULE,
    &least_dimension::RULE,
    &ceiling_height::RULE,
    &egress_area::RULE,
    &egress_width::RULE,
    &egress_height::RULE,
    &egress_sill::RULE,
    &egress_door_width::RULE,
    &egress_door_height::RULE,
    &hallway_width::RULE,
];

/// Every rule that the program knows, in the order of verdicts and reports.
pub fn registry() -> impl Iterator<Item = &'static Rule> {
    REGISTRY.into_iter()
}
