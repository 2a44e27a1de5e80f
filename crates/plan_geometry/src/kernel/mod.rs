//! What all measures stand on: exact Boolean operations, lines on the grid, frames turned to a room's direction.

mod boolean;
mod frame;
mod line;
mod mesh;

pub(crate) use boolean::{difference, intersection, slice, union};
pub(crate) use frame::Frame;
pub(crate) use line::{along, meet, offset, project, rectangle};
pub(crate) use mesh::{Edge, Link, Mesh, Vector};
