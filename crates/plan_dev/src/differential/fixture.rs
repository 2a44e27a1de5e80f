//! Plans on which the two programs differed, kept so that they never differ again.
//!
//! Each is a plan file with a file of what the other program says beside it: its version, its figures and, in words, what
//! once differed. The test `differential_fixtures` (tests) reads them. A plan is kept under the number that it has; whoever
//! mends what differed gives it a name that says what it is, and has it measured anew (`cargo dev differential --record`) if
//! it was the other program that was wrong.

use std::{
    fs,
    path::{Path, PathBuf},
};

use plan_model::{Plan, file};
use serde_json::{Map, Value, json};

use super::{described::Described, oracle::Oracle, shrink::Smallest};
use crate::{failure::Failure, workspace::Workspace};

/// How the name of the file beside a plan ends.
const EXPECTED: &str = "expected.json";

fn folder(workspace: &Workspace) -> PathBuf {
    workspace.root().join("tests/fixtures/differential")
}

/// Writes the plan, and beside it what the other program says.
///
/// # Errors
/// A file cannot be written.
pub(super) fn keep(workspace: &Workspace, seed: u64, index: usize, small: &Smallest) -> Result<PathBuf, Failure> {
    let folder = folder(workspace);
    let path = folder.join(format!("seed-{seed}-plan-{index}.json"));
    fs::create_dir_all(&folder)
        .and_then(|()| fs::write(&path, file::write(&small.plan.plan())))
        .map_err(|error| unwritten(&path, &error))?;
    expect(&path, &json!(small.verdict.differences), &small.verdict.figures)?;
    Ok(path)
}

/// Has the other program measure all kept plans anew, and writes its figures beside them. How many there are.
///
/// # Errors
/// A file cannot be read or written, or the comparison cannot be made.
pub(super) fn record(workspace: &Workspace, oracle: &Oracle<'_>) -> Result<usize, Failure> {
    let paths = kept(workspace)?;
    let plans = paths.iter().map(|path| read(path)).collect::<Result<Vec<_>, _>>()?;
    let described: Vec<Described> = plans.iter().map(Described::of).collect();
    for (path, verdict) in paths.iter().zip(oracle.compare(&described)?) {
        let before: Value = fs::read_to_string(path.with_extension(EXPECTED))
            .ok()
            .and_then(|text| serde_json::from_str(&text).ok())
            .unwrap_or_default();
        expect(path, &before["differed"], &verdict.figures)?;
    }
    Ok(paths.len())
}

/// The kept plans, in the order of their names.
fn kept(workspace: &Workspace) -> Result<Vec<PathBuf>, Failure> {
    let folder = folder(workspace);
    let unread = |error| Failure::new(format!("{} cannot be read: {error}.", folder.display()));
    let entries = fs::read_dir(&folder).map_err(unread)?.collect::<Result<Vec<_>, _>>().map_err(unread)?;
    let is_plan = |path: &PathBuf| {
        path.file_name().and_then(|name| name.to_str()).is_some_and(|name| {
            !name.ends_with(EXPECTED) && Path::new(name).extension().is_some_and(|extension| extension == "json")
        })
    };
    let mut paths: Vec<PathBuf> = entries.into_iter().map(|entry| entry.path()).filter(is_plan).collect();
    paths.sort();
    Ok(paths)
}

fn read(path: &Path) -> Result<Plan, Failure> {
    let text = fs::read_to_string(path)
        .map_err(|error| Failure::new(format!("{} cannot be read: {error}.", path.display())))?;
    file::read(&text).map_err(|error| Failure::new(format!("{}: {error}", path.display())))
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
