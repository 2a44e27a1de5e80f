//! Taking the kept pictures of the window again.

use crate::{command, failure::Failure, workspace::Workspace};

/// Runs the image tests so that a picture that differs replaces the kept one. What changed is then for the eye, and
/// for the commit, to judge.
///
/// # Errors
/// A test fails for another reason than its picture.
pub(crate) fn take(workspace: &Workspace) -> Result<(), Failure> {
    command::run(workspace.cargo(["test", "--package", "mateline_app", "--tests"]).env("UPDATE_SNAPSHOTS", "1"))
}
