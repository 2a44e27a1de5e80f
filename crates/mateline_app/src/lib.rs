//! The window: the drawing board, the choices, the rooms and the corrections.
//!
//! `logic` takes what came from outside (keys, dropped files, a closing window) and changes the session; functions that
//! draw end in `_ui`. Nothing is stored in pixels, everything shown follows from one [`session::Session`], and nothing
//! is drawn again without a cause.

mod about;
mod alternate_row;
mod app;
pub mod board;
mod every;
pub mod files;
mod focus;
mod keynote;
mod log;
mod measured;
mod notices;
mod panel;
mod price_text;
mod prices_shown;
mod rules_in_force;
pub mod session;
mod shortcuts;
mod shown;
mod start;
mod theme;
mod top_bar;
mod trial;

pub use app::Mateline;
pub use log::Log;
pub use start::{Start, StartError, demo, run};
pub use trial::Trial;
