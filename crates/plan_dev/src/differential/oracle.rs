//! The other program.

use std::{fs, path::PathBuf};

use serde::Deserialize;
use serde_json::{Map, Value};

use super::{described::Described, subject::Subject};
use crate::{command, failure::Failure, python::Python, workspace::Workspace};

/// What the other program says about one plan.
#[derive(Debug, Deserialize)]
pub(super) struct Verdict {
    /// What differs, a sentence each.
    pub(super) differences: Vec<String>,
    /// How many figures were compared: of rooms, or of ways.
    pub(super) compared: u64,
    /// Its own figures: its version, how many spaces there are, areas and edges in steps; or ways in steps by their ends.
    pub(super) figures: Map<String, Value>,
}

/// Compares plans by the script of a subject.
pub(super) struct Oracle<'a> {
    workspace: &'a Workspace,
    python: &'a Python,
    pub(super) subject: Subject,
}

impl<'a> Oracle<'a> {
    pub(super) fn new(workspace: &'a Workspace, python: &'a Python, subject: Subject) -> Self {
        Self { workspace, python, subject }
    }

    /// A verdict for every plan.
    ///
    /// # Errors
    /// The script fails, or leaves a plan out.
    pub(super) fn compare(&self, plans: &[Described]) -> Result<Vec<Verdict>, Failure> {
        let asked = self.asked(plans)?;
        let script = self.workspace.dev_file(self.subject.script());
        let answer = command::printed_on_success(self.python.script(&script).arg(&asked))?;
        let verdicts: Result<Vec<Verdict>, _> =
            String::from_utf8_lossy(&answer).lines().map(serde_json::from_str).collect();
        let verdicts =
            verdicts.map_err(|error| Failure::new(format!("{} gave no verdict: {error}.", script.display())))?;
        if verdicts.len() != plans.len() {
            let (given, wanted) = (verdicts.len(), plans.len());
            return Err(Failure::new(format!("{} gave {given} verdicts on {wanted} plans.", script.display())));
        }
        Ok(verdicts)
    }

    /// The file of plans, one a line.
    fn asked(&self, plans: &[Described]) -> Result<PathBuf, Failure> {
        let folder = self.workspace.target().join("differential");
        let path = folder.join(format!("{}.jsonl", self.subject.word()));
        let lines: String = plans.iter().map(|plan| format!("{}\n", plan.0)).collect();
        fs::create_dir_all(&folder)
            .and_then(|()| fs::write(&path, lines))
            .map_err(|error| Failure::new(format!("{} cannot be written: {error}.", path.display())))?;
        Ok(path)
    }
}
