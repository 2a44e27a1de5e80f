//! How far work is that takes long.

use std::io::{self, IsTerminal, Write};
use std::ops::ControlFlow;
use std::time::{Duration, Instant};

/// Whoever waits longer is told how far it is.
const SOON: Duration = Duration::from_millis(500);

/// A line on the terminal that says how many homes were looked at.
pub(crate) struct Progress {
    since: Instant,
    last: Option<Instant>,
}

impl Progress {
    pub(crate) fn new() -> Self {
        Self { since: Instant::now(), last: None }
    }

    pub(crate) fn of(&mut self, homes: usize) -> ControlFlow<()> {
        let is_due = self.last.map_or(self.since.elapsed() > SOON, |last| last.elapsed() > SOON);
        if is_due && io::stderr().is_terminal() {
            self.last = Some(Instant::now());
            let _ = write!(io::stderr(), "\rlooked at {homes} homes");
        }
        ControlFlow::Continue(())
    }

    pub(crate) fn end(&self) {
        if self.last.is_some() {
            let _ = writeln!(io::stderr());
        }
    }
}
