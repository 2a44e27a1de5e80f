//! What all measures stand on: exact Boolean operations, lines on the grid, frames turned to a room's direction.

mod alongside;
mod boolean;
mod bounds;
mod frame;
mod line;
mod mesh;
mod square_overlay;

pub(crate) use alongside::alongside;
pub(crate) use boolean::{difference, divide, intersection, overlap, slice, union};
pub(crate) use bounds::{Bounds, Whereabouts};
pub(crate) use frame::Frame;
pub(crate) use line::{along, meet, offset, project, rectangle};
pub(crate) use mesh::{Edge, Link, Mesh, Vector};
