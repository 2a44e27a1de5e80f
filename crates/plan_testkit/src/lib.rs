//! Homes for tests: small ones built in a line or two, and the same home drawn elsewhere.

mod outline;
mod random_plan;
mod small_home;
mod transform;

pub use outline::{empty_plan, room_with_outline};
pub use random_plan::{Aim, Outline, Part, Random, RandomPlan, Reach, Shape};
pub use small_home::{Between, DoorSpec, SmallHome, WindowSpec};
pub use transform::{Transform, turned};
