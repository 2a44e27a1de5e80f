//! The steps of a run: a heading, how long it took, and what came of it.

use std::{fmt::Display, io::Write, time::Instant};

use super::score::Score;
use crate::failure::Failure;

/// The steps run so far, and where they are written about.
pub(crate) struct Steps<W> {
    terminal: W,
    score: Score,
    failed: Vec<String>,
}

impl<W: Write> Steps<W> {
    /// No step yet.
    pub(crate) fn new(terminal: W) -> Self {
        Self { terminal, score: Score::default(), failed: Vec::new() }
    }

    /// Runs a step that counts as one, and gives what it made if it passed.
    pub(crate) fn one<T>(&mut self, title: &str, work: impl FnOnce() -> Result<T, Failure>) -> Option<T> {
        let mut made = None;
        self.many(title, || {
            made = Some(work()?);
            Ok(Score::ONE_PASSED)
        });
        made
    }

    /// Runs a step of many tests.
    pub(crate) fn many(&mut self, title: &str, work: impl FnOnce() -> Result<Score, Failure>) {
        self.say(format_args!("\n=== {title}"));
        let start = Instant::now();
        let score = work().unwrap_or_else(|failure| {
            self.say(failure);
            Score::ONE_FAILED
        });
        let seconds = start.elapsed().as_secs_f64();
        self.say(format_args!("--- {title}: {score} ({seconds:.1} s)"));
        if score.failed > 0 {
            self.failed.push(title.to_owned());
        }
        self.score += score;
    }

    /// Names the steps in which something failed, then prints the counts of the whole run as the last line.
    pub(crate) fn conclude(mut self) -> Score {
        if !self.failed.is_empty() {
            self.say(format_args!("\nFailed in: {}", self.failed.join("; ")));
        }
        let score = self.score;
        self.say(format_args!("\n{score}"));
        score
    }

    /// A terminal that has gone away is no reason to stop the run.
    fn say(&mut self, line: impl Display) {
        let _ = writeln!(self.terminal, "{line}");
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_failing_step_does_not_keep_the_next_from_running() {
        let mut written = Vec::new();
        let mut steps = Steps::new(&mut written);
        assert_eq!(steps.one("first", || Err::<(), _>(Failure::new("No."))), None);
        assert_eq!(steps.one("second", || Ok(7)), Some(7));
        steps.many("third", || Ok(Score { passed: 5, failed: 2 }));
        assert_eq!(steps.failed, ["first", "third"]);
        assert_eq!(steps.conclude(), Score { passed: 6, failed: 3 });
        let written = String::from_utf8(written).expect("headings are text");
        assert!(written.contains("\n=== first\nNo.\n--- first: passed 0, failed 1 ("), "{written}");
        assert_eq!(written.lines().last(), Some("passed 6, failed 3"));
    }
}
