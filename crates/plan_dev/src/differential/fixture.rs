//! Plans on which two programs differed, kept so that they never differ again: every run compares them first.
//!
//! Each is a plan file with a file of what the other program says beside it: its figures and, in words, what once differed.
//! The test `differential_fixtures` (tests) reads them without the other program. A plan is kept under the number that
//! it has; whoever mends what differed gives it a name that says what it is, and has it measured anew (`cargo dev differential
//! --record`) if it was the other program that was wrong.

use std::{
    fs,
    path::{Path, PathBuf},
};

use plan_model::{Plan, file};
use serde_json::{Map, Value, json};

use super::{described::Described, oracle::Oracle, shrink::Smallest, subject::Subject};
use crate::{failure::Failure, workspace::Workspace};

/// How the names of files end that hold what the other program says, beside each plan.
const EXPECTED: &str = "expected.json";

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
    fs::create_dir_all(&folder)
        .and_then(|()| fs::write(&path, file::write(&small.plan.plan())))
        .map_err(|error| unwritten(&path, &error))?;
    expect(&path, &json!(small.verdict.differences), &small.verdict.figures)?;
    Ok(path)
}

/// The plans that were kept, by their files, in the order of their names.
///
/// # Errors
/// One cannot be read.
pub(super) fn kept(workspace: &Workspace, subject: Subject) -> Result<Vec<(PathBuf, Plan)>, Failure> {
    let folder = folder(workspace, subject);
    if !folder.exists() {
        return Ok(Vec::new());
    }
    let unreadable =
        |path: &Path, why: &dyn std::fmt::Display| Failure::new(format!("{} cannot be read: {why}.", path.display()));
    let entries = fs::read_dir(&folder).map_err(|error| unreadable(&folder, &error))?;
    let mut paths: Vec<PathBuf> = entries.filter_map(|entry| Some(entry.ok()?.path())).collect();
    paths.retain(|path| !path.to_string_lossy().ends_with(EXPECTED));
    paths.sort_unstable();
    let read = |path: PathBuf| {
        let text = fs::read_to_string(&path).map_err(|error| unreadable(&path, &error))?;
        let plan = file::read(&text).map_err(|error| unreadable(&path, &error))?;
        Ok((path, plan))
    };
    paths.into_iter().map(read).collect()
}

/// Has the other program measure all kept plans anew, and writes its figures beside them. How many there are.
///
/// # Errors
/// A file cannot be read or written, or the comparison cannot be made.
pub(super) fn record(workspace: &Workspace, oracle: &Oracle<'_>) -> Result<usize, Failure> {
    let kept = kept(workspace, oracle.subject)?;
    let described: Vec<Described> = kept.iter().map(|(_, plan)| oracle.subject.describe(plan)).collect();
    for ((path, _), verdict) in kept.iter().zip(oracle.compare(&described)?) {
        let before: Value = fs::read_to_string(path.with_extension(EXPECTED))
            .ok()
            .and_then(|text| serde_json::from_str(&text).ok())
            .unwrap_or_default();
        expect(path, &before["differed"], &verdict.figures)?;
    }
    Ok(kept.len())
}

/// Writes what once differed and what the other program says beside a plan.
fn expect(path: &Path, differed: &Value, figures: &Map<String, Value>) -> Result<(), Failure> {
    let expected = path.with_extension(EXPECTED);
    let figures = json!({ "differed": differed, "figures": figures });
    fs::write(&expected, format!("{figures:#}\n")).map_err(|error| unwritten(&expected, &error))
}

fn unwritten(path: &Path, error: &std::io::Error) -> Failure {
    Failure::new(format!("{} cannot be written: {error}.", path.display()))
}
