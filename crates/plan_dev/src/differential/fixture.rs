//! Plans on which the two programs differed, kept so that they never differ again.

use std::{fs, path::PathBuf};

use plan_model::file;
use serde_json::json;

use super::shrink::Smallest;
use crate::{failure::Failure, workspace::Workspace};

/// Writes the plan, and beside it what the other program says.
///
/// # Errors
/// A file cannot be written.
pub(super) fn keep(workspace: &Workspace, seed: u64, index: usize, small: &Smallest) -> Result<PathBuf, Failure> {
    let folder = workspace.root().join("tests/fixtures/differential");
    let path = folder.join(format!("seed-{seed}-plan-{index}.json"));
    let expected = folder.join(format!("seed-{seed}-plan-{index}.expected.json"));
    let figures = json!({ "differed": small.verdict.differences, "square_steps": small.verdict.figures });
    fs::create_dir_all(&folder)
        .and_then(|()| fs::write(&path, file::write(&small.plan.plan())))
        .and_then(|()| fs::write(&expected, format!("{figures:#}\n")))
        .map_err(|error| Failure::new(format!("{} cannot be written: {error}.", path.display())))?;
    Ok(path)
}
