//! The editor without a screen, as a window uses it.

mod history;
mod hit;
mod move_wall;
mod plans;
mod reversed;
mod snap;
mod tool;
