//! Lines for the terminal. A terminal that has gone away (a closed pipe) is no reason to stop a run or to panic, so
//! what cannot be written is dropped.

use std::{
    fmt::Display,
    io::{self, Write},
};

/// Prints a line.
pub(crate) fn say(line: impl Display) {
    let _ = writeln!(io::stdout(), "{line}");
}

/// Passes on what another program printed, byte for byte.
pub(crate) fn pass_on(bytes: &[u8]) {
    let mut stdout = io::stdout();
    let _ = stdout.write_all(bytes);
    let _ = stdout.flush();
}

/// Prints a line where errors go.
pub(crate) fn complain(line: impl Display) {
    let _ = writeln!(io::stderr(), "{line}");
}
