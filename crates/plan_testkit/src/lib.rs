//! Homes for tests: small ones built in a line or two, large ones of any size, and the same home drawn elsewhere.

mod block;
mod doorway;
mod every_selection;
mod hung;
mod outline;
mod random_choices;
mod random_plan;
pub mod rule_page;
mod sketch;
mod small_home;
mod standing;
mod transform;

pub use block::{block_of_choices, block_of_rooms};
pub use doorway::{cased_unit, doorway};
pub use every_selection::every_selection;
pub use hung::{cabinet, hinged_deduction, hung_door, leaf_unit, with_door};
pub use outline::{empty_plan, room_with_outline};
pub use random_choices::plan_with_choices;
pub use random_plan::{Aim, Doorway, Outline, Part, Random, RandomPlan, Reach, Shape, Stands, Thing};
pub use sketch::Sketch;
pub use small_home::{Between, DoorSpec, SmallHome, WindowSpec};
pub use standing::{bed, fixture, inches, standing, turned_plan};
pub use transform::{Transform, turned};
