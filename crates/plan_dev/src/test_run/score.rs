//! How many tests passed and failed.

use std::{fmt, ops::AddAssign};

/// Counts of tests.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub(crate) struct Score {
    pub(crate) passed: u64,
    pub(crate) failed: u64,
}

impl Score {
    /// One thing that passed.
    pub(crate) const ONE_PASSED: Self = Self { passed: 1, failed: 0 };
    /// One thing that failed.
    pub(crate) const ONE_FAILED: Self = Self { passed: 0, failed: 1 };

    /// A score as it is printed.
    pub(crate) fn read(line: &str) -> Option<Self> {
        let (passed, failed) = line.strip_prefix("passed ")?.split_once(", failed ")?;
        Some(Self { passed: passed.parse().ok()?, failed: failed.parse().ok()? })
    }
}

impl AddAssign for Score {
    fn add_assign(&mut self, other: Self) {
        self.passed += other.passed;
        self.failed += other.failed;
    }
}

impl fmt::Display for Score {
    fn fmt(&self, formatter: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(formatter, "passed {}, failed {}", self.passed, self.failed)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn what_is_printed_can_be_read() {
        let score = Score { passed: 19, failed: 1 };
        assert_eq!(Score::read(&score.to_string()), Some(score));
        assert_eq!(Score::read("passed by, failed to stop"), None);
    }
}
