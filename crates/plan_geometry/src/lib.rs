//! Every measure of a home, derived from what people drew and never stored.
//!
//! [`derive()`] takes a [`Home`](plan_model::Home) and gives its [`Derived`] figures together with the [`Problem`]s
//! that kept it from more: half-drawn input is normal, a guess is not. What each figure means is said at the figure;
//! a *rule*, elsewhere, compares figures with limits.
//!
//! All shapes lie on the model's grid. Sums and comparisons are exact integers; only faces of walls that are not square
//! to the axes are rounded, by at most one step, and measures taken from them carry [`OFF_AXIS_SLACK`].

mod alarms;
mod area;
mod asked;
mod clear_size;
mod conflict;
mod daylight;
mod derive;
mod figure;
mod fixture_space;
mod free_floor;
mod heated;
mod kernel;
mod measure;
mod modules;
mod openings;
mod overhead;
mod passage;
mod problem;
mod reach;
mod region;
mod room_graph;
mod rooms;
mod triangulate;
mod walking;
mod walls;

pub use area::Area;
pub use clear_size::{ClearRectangle, ClearSizes};
pub use conflict::outline;
pub use derive::{Derived, derive, derive_after};
pub use figure::{Basis, Figure, Measured, OFF_AXIS_SLACK};
pub use free_floor::Obstruction;
pub use measure::{Amount, Mark, Measure, MeasureName};
pub use openings::{DoorFigures, Leaf, Side, WindowFigures};
pub use overhead::CeilingFigures;
pub use passage::{Doorway, Passage};
pub use problem::{Problem, ProblemKind};
pub use region::Region;
pub use rooms::{Enclosure, RoomFigures, Space};
pub use triangulate::triangulate;
pub use walking::{ExitPair, Walk, WayOut};
pub use walls::{WallFaces, WallSolid};
