//! Homes for tests: small ones built in a line or two, and the same home drawn elsewhere.

mod hung;
mod outline;
mod small_home;
mod transform;

pub use hung::{cabinet, hinged_deduction, hung_door, leaf_unit, with_door};
pub use outline::{empty_plan, room_with_outline};
pub use small_home::{Between, DoorSpec, SmallHome, WindowSpec};
pub use transform::{Transform, turned};
