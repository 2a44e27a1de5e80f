use std::io::{self, Write};
use std::process::ExitCode;

use crate::unjudged::Unjudged;

/// How a run ended.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Verdict {
    /// Every required rule is met, or nothing was to be judged.
    Met,
    /// At least one correction.
    Corrections,
    /// The input cannot be judged.
    NotJudged,
    /// No correction, but a required rule that cannot be told from this plan.
    Unknown,
}

impl From<Verdict> for ExitCode {
    fn from(verdict: Verdict) -> Self {
        Self::from(match verdict {
            Verdict::Met => 0,
            Verdict::Corrections => 1,
            Verdict::NotJudged => 2,
            Verdict::Unknown => 3,
        })
    }
}

/// Prints a report.
///
/// # Errors
/// When it could not be written as a whole. Who closes the pipe has read enough: that is no failure.
pub(crate) fn print(report: &str) -> Result<(), Unjudged> {
    let mut out = io::stdout().lock();
    whole(out.write_all(report.as_bytes()).and_then(|()| out.flush()))
}

/// Prints what is to be told about the words themselves: help, the version, or what is wrong with them.
///
/// # Errors
/// As [`print()`].
pub(crate) fn print_about_words(told: &clap::Error) -> Result<(), Unjudged> {
    whole(told.print().and_then(|()| io::stdout().flush()))
}

fn whole(written: io::Result<()>) -> Result<(), Unjudged> {
    match written {
        Err(error) if error.kind() != io::ErrorKind::BrokenPipe => Err(Unjudged::Output(error)),
        _ => Ok(()),
    }
}

/// Prints sentences on the error stream.
pub(crate) fn tell(sentences: &str) {
    let _ = writeln!(io::stderr().lock(), "{sentences}");
}
