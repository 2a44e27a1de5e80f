//! The tests that cargo runs.

use std::process::Command;

use super::{libtest::Tally, score::Score};
use crate::{command, failure::Failure, workspace::Workspace};

/// Packages whose tests run a second time with optimisation. Their properties and outside comparisons over many plans
/// take too long without it and mark themselves `#[cfg_attr(debug_assertions, ignore = "...")]`: they run here.
const TESTED_WITH_OPTIMISATION: &[&str] = &["outside_checks", "plan_geometry", "plan_proof"];

/// Every test of the workspace, with debug assertions. Includes the command line and the real window.
pub(crate) fn run_all(workspace: &Workspace) -> Result<Score, Failure> {
    count(&mut workspace.cargo(["test", "--workspace", "--no-fail-fast"]))
}

/// The tests of [`TESTED_WITH_OPTIMISATION`]. The others would only cost time.
pub(crate) fn run_optimised(workspace: &Workspace) -> Result<Score, Failure> {
    let packages = TESTED_WITH_OPTIMISATION.iter().flat_map(|package| ["--package", package]);
    count(&mut workspace.cargo(["test", "--profile", "optimised", "--no-fail-fast"].into_iter().chain(packages)))
}

fn count(command: &mut Command) -> Result<Score, Failure> {
    let mut tally = Tally::default();
    let status = command::run_watched(command, |line| tally.read(line))?;
    Ok(tally.conclude(status.success()))
}
