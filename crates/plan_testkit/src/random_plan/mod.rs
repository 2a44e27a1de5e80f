//! Random plans: many rooms, at any angle, with odd joints.
//!
//! A plan is grown from a short description, an outline and a list of [`Part`]s. A part that finds no place (its room is
//! too small, its line would cross another) adds nothing, so that any part can be dropped and the rest still makes a plan:
//! that is how a plan on which two programs differ is made smaller.

mod cell;
mod describe;
mod furnish;
mod grow;
mod plane;
mod random;

pub use describe::{Aim, Outline, Part, RandomPlan, Reach, Shape};
pub use furnish::{Doorway, Stands, Thing};
pub use random::Random;
