//! The editor without a screen: what a person does to a plan, and what comes of it.
//!
//! A [`Document`] is a plan with the selection that is looked at. Every change of it is a [`Command`], applied in one
//! place, [`apply`]; a [`History`] remembers the steps. A [`Tool`] turns the pointer's events into previews and, in the
//! end, one command. [`hit`] says what is under the pointer and [`snap`] where a dragged wall comes to rest.
//! [`actions::ALL`] is the table that menus, shortcuts, tooltips and tests read.
//!
//! Nothing here draws, reads a clock or touches a file. Places are on the model's grid; how many screen points make an
//! inch is the window's business, which hands tolerances in as lengths.

pub mod actions;
mod command;
mod document;
mod history;
pub mod hit;
mod line;
mod move_wall;
pub mod snap;
mod standing;
mod tool;

pub use command::{Command, Refused, apply};
pub use document::Document;
pub use history::History;
pub use tool::{Effect, Event, Tool, WallDrag};
