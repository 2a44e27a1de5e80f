//! Plans on which two programs differed, kept so that they never differ again: every run compares them first.

use std::{
    fs,
    path::{Path, PathBuf},
};

use plan_model::{Plan, file};
use serde_json::json;

use super::{shrink::Smallest, subject::Subject};
use crate::{failure::Failure, workspace::Workspace};

/// How the names of files end that hold what the other program says, beside each plan.
const EXPECTED: &str = ".expected.json";

fn folder(workspace: &Workspace, subject: Subject) -> PathBuf {
    workspace.root().join("tests/fixtures/differential").join(subject.word())
}

/// Writes the plan, and beside it what the other program says.
///
/// # Errors
/// A file cannot be written.
pub(super) fn keep(
    workspace: &Workspace,
    subject: Subject,
    seed: u64,
    index: u64,
    small: &Smallest,
) -> Result<PathBuf, Failure> {
    let folder = folder(workspace, subject);
    let path = folder.join(format!("seed-{seed}-plan-{index}.json"));
    let expected = folder.join(format!("seed-{seed}-plan-{index}{EXPECTED}"));
    let figures = json!({ "differed": small.verdict.differences, "figures": small.verdict.figures });
    fs::create_dir_all(&folder)
        .and_then(|()| fs::write(&path, file::write(&small.plan.plan())))
        .and_then(|()| fs::write(&expected, format!("{figures:#}\n")))
        .map_err(|error| Failure::new(format!("{} cannot be written: {error}.", path.display())))?;
    Ok(path)
}

/// The plans that were kept, by the names of their files.
///
/// # Errors
/// One cannot be read.
pub(super) fn kept(workspace: &Workspace, subject: Subject) -> Result<Vec<(String, Plan)>, Failure> {
    let folder = folder(workspace, subject);
    if !folder.exists() {
        return Ok(Vec::new());
    }
    let unreadable =
        |path: &Path, why: &dyn std::fmt::Display| Failure::new(format!("{} cannot be read: {why}.", path.display()));
    let entries = fs::read_dir(&folder).map_err(|error| unreadable(&folder, &error))?;
    let mut paths: Vec<PathBuf> = entries.filter_map(|entry| Some(entry.ok()?.path())).collect();
    paths.sort_unstable();
    let name = |path: &PathBuf| path.file_name().map(|name| name.to_string_lossy().into_owned()).unwrap_or_default();
    let plans = paths.into_iter().map(|path| (name(&path), path)).filter(|(name, _)| !name.ends_with(EXPECTED));
    plans
        .map(|(name, path)| {
            let text = fs::read_to_string(&path).map_err(|error| unreadable(&path, &error))?;
            let plan = file::read(&text).map_err(|error| unreadable(&path, &error))?;
            Ok((name, plan))
        })
        .collect()
}
