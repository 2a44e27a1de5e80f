//! Homes for tests: small ones built in a line or two, large ones of any size, and the same home drawn elsewhere.

mod block;
mod outline;
mod sketch;
mod small_home;
mod standing;
mod transform;

pub use block::block_of_rooms;
pub use outline::{empty_plan, room_with_outline};
pub use sketch::Sketch;
pub use small_home::{Between, DoorSpec, SmallHome, WindowSpec};
pub use standing::{bed, fixture, inches, turned_plan};
pub use transform::{Transform, turned};
