//! Counting tests from what the standard test harness prints.
//!
//! Each test program prints `running 3 tests`, then a line for each test, then `test result: ok. 3 passed; 0 failed;
//! 0 ignored; ...`. A program that crashes prints no such result, and is counted as one failure.

use super::score::Score;

/// Reads the lines of test programs that run one after the other.
#[derive(Debug, Default)]
pub(crate) struct Tally {
    score: Score,
    awaiting_result: bool,
}

impl Tally {
    /// Reads one line.
    pub(crate) fn read(&mut self, line: &str) {
        if is_start(line) {
            self.count_crash();
            self.awaiting_result = true;
        } else if let Some(result) = result(line) {
            self.awaiting_result = false;
            self.score += result;
        }
    }

    /// The counts, after the last line. `all_succeeded` is what the exit code says: when it says no although every
    /// count says yes, something failed outside the tests (it did not compile, or crashed before its first line).
    pub(crate) fn conclude(mut self, all_succeeded: bool) -> Score {
        self.count_crash();
        if !all_succeeded && self.score.failed == 0 {
            self.score += Score::ONE_FAILED;
        }
        self.score
    }

    fn count_crash(&mut self) {
        if std::mem::take(&mut self.awaiting_result) {
            self.score += Score::ONE_FAILED;
        }
    }
}

/// Whether a line is `running N tests`.
fn is_start(line: &str) -> bool {
    let count = line.strip_prefix("running ").and_then(|rest| {
        let (count, noun) = rest.split_once(' ')?;
        (noun == "test" || noun == "tests").then_some(count)
    });
    count.is_some_and(|count| count.parse::<u64>().is_ok())
}

/// The counts of a line `test result: ...`. The word after the colon may be coloured, so only the counts are read.
fn result(line: &str) -> Option<Score> {
    let parts = || line.strip_prefix("test result: ").into_iter().flat_map(|rest| rest.split([';', '.']));
    let count = |noun: &str| parts().find_map(|part| part.trim().strip_suffix(noun)?.trim_end().parse().ok());
    Some(Score { passed: count("passed")?, failed: count("failed")? })
}

#[cfg(test)]
mod tests {
    use super::*;

    fn tally(lines: &[&str], all_succeeded: bool) -> Score {
        let mut tally = Tally::default();
        lines.iter().for_each(|line| tally.read(line));
        tally.conclude(all_succeeded)
    }

    const GOOD: &str = "test result: ok. 3 passed; 0 failed; 1 ignored; 0 measured; 0 filtered out; finished in 0.00s";
    const BAD: &str =
        "test result: FAILED. 1 passed; 2 failed; 0 ignored; 0 measured; 9 filtered out; finished in 1.20s";

    #[test]
    fn counts_of_all_programs_are_added() {
        let lines = ["running 4 tests", "test a ... ok", "", GOOD, "running 3 tests", BAD];
        assert_eq!(tally(&lines, false), Score { passed: 4, failed: 2 });
    }

    #[test]
    fn a_coloured_result_is_read() {
        let line = "test result: \u{1b}[32mok\u{1b}[0m. 12 passed; 0 failed; 0 ignored; 0 measured";
        assert_eq!(tally(&["running 12 tests", line], true), Score { passed: 12, failed: 0 });
    }

    #[test]
    fn a_crash_between_two_programs_is_one_failure() {
        assert_eq!(tally(&["running 4 tests", "running 4 tests", GOOD], false), Score { passed: 3, failed: 1 });
    }

    #[test]
    fn a_crash_of_the_last_program_is_one_failure() {
        let lines = ["running 4 tests", GOOD, "running 1 test", "test a ... "];
        assert_eq!(tally(&lines, false), Score { passed: 3, failed: 1 });
    }

    #[test]
    fn a_failure_before_the_first_line_is_one_failure() {
        assert_eq!(tally(&[], false), Score { passed: 0, failed: 1 });
        assert_eq!(tally(&["running 4 tests", GOOD], false), Score { passed: 3, failed: 1 });
    }

    #[test]
    fn other_lines_are_not_counted() {
        let lines = ["running late", "running 2 errands", "test result: unknown", "all doctests ran in 0.44s"];
        assert_eq!(tally(&lines, true), Score::default());
    }
}
