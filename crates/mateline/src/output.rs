use std::io::{self, Write};
use std::process::ExitCode;

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

/// Prints a report. Who closes the pipe has read enough: that is no failure.
pub(crate) fn print(report: &str) {
    let mut out = io::stdout().lock();
    let _ = out.write_all(report.as_bytes()).and_then(|()| out.flush());
}

/// Prints sentences on the error stream.
pub(crate) fn tell(sentences: &str) {
    let _ = writeln!(io::stderr().lock(), "{sentences}");
}
