//! What all measures stand on: exact Boolean operations, lines on the grid, frames turned to a room's direction.

mod boolean;
mod frame;
mod line;

pub(crate) use boolean::{difference, divide, intersection, slice, union};
pub(crate) use frame::Frame;
pub(crate) use line::{along, meet, offset, project, rectangle};
