use std::io;
use std::path::PathBuf;

use eframe::{NativeOptions, Renderer};
use egui::{IconData, ViewportBuilder};
use plan_model::Plan;
use plan_model::file::Unreadable;
use plan_rules::RuleBook;
use thiserror::Error;

use crate::files::{Files, OpenError, ReadPlan, Recent, read_plan};
use crate::{Log, Mateline};

/// What the window opens with.
#[derive(Clone, Debug, Default)]
pub struct Start {
    /// The plan's file; none for the demo home.
    pub plan: Option<PathBuf>,
    /// A file for the log.
    pub log: Option<PathBuf>,
}

/// Why there is no window.
#[derive(Debug, Error)]
pub enum StartError {
    /// The plan could not be opened.
    #[error(transparent)]
    Plan(#[from] OpenError),
    /// The demo home could not be read; a test keeps this from happening.
    #[error("the demo home cannot be read: {0}")]
    Demo(#[from] Unreadable),
    /// The built-in rule book could not be read; a test keeps this from happening.
    #[error("the built-in rule book for this home is missing")]
    NoBook,
    /// The log could not be begun.
    #[error("The log cannot be written: {error}. File: {}", .path.display())]
    Log {
        /// The file.
        path: PathBuf,
        /// What the system said.
        error: io::Error,
    },
    /// There is nothing to draw on.
    #[error(
        "There is no display to open a window on ({0}); `mateline measure FILE` and `mateline check FILE` work without one."
    )]
    NoWindow(String),
}

const DEMO: &str = include_str!("../../../sample-plans/dunlin-58.json");

/// The demo home.
///
/// # Errors
/// Never, as long as the sample plan is one.
pub fn demo() -> Result<Plan, Unreadable> {
    plan_model::file::read(DEMO)
}

/// Opens the window and stays until it is closed.
///
/// # Errors
/// When there is nothing to show or nothing to show it on.
pub fn run(start: Start) -> Result<(), StartError> {
    let recent = Recent::of_this_person();
    let (plan, files) = match start.plan {
        Some(path) => {
            let ReadPlan { plan, text } = read_plan(&path)?;
            (plan, Files::of(&path, text, recent))
        }
        None => (demo()?, Files::unsaved(recent)),
    };
    let book = RuleBook::default_for(plan.home.legal_kind).ok_or(StartError::NoBook)?;
    let log = start.log.map(|path| Log::open(&path).map_err(|error| StartError::Log { path, error })).transpose()?;
    if !has_display() {
        return Err(StartError::NoWindow("neither WAYLAND_DISPLAY nor DISPLAY is set".to_owned()));
    }
    let options = NativeOptions {
        renderer: Renderer::Glow,
        viewport: ViewportBuilder::default()
            .with_title("Mateline")
            .with_app_id("mateline")
            .with_icon(IconData::default())
            .with_inner_size([1440.0, 900.0])
            .with_min_inner_size([1100.0, 700.0]),
        ..NativeOptions::default()
    };
    let window = move |created: &eframe::CreationContext<'_>| -> Result<Box<dyn eframe::App>, _> {
        Ok(Box::new(Mateline::new(&created.egui_ctx, plan, book, files, log)))
    };
    eframe::run_native("mateline", options, Box::new(window)).map_err(|error| StartError::NoWindow(error.to_string()))
}

/// Whether the session names a display at all; elsewhere than on X11 and Wayland there always is one.
fn has_display() -> bool {
    let is_set = |variable| std::env::var_os(variable).is_some_and(|value| !value.is_empty());
    !cfg!(all(unix, not(target_os = "macos"))) || is_set("WAYLAND_DISPLAY") || is_set("DISPLAY")
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_demo_home_and_its_rule_book_can_be_read() {
        let plan = demo().unwrap_or_else(|error| panic!("{error}"));
        assert!(RuleBook::default_for(plan.home.legal_kind).is_some());
    }
}
