//! The Python packages that our work is compared with, in a folder of their own under the target folder.

use std::{
    fs,
    path::{Path, PathBuf},
    process::Command,
};

use crate::{command, failure::Failure, workspace::Workspace};

/// Debian's own Python: `python3-venv` belongs to it. Another one may come first on the path.
const SYSTEM_PYTHON: &str = "/usr/bin/python3";

/// A Python that finds the pinned packages.
pub(crate) struct Python {
    interpreter: PathBuf,
}

impl Python {
    /// Installs the pinned packages, unless they are there already.
    ///
    /// # Errors
    /// Names the packages when they cannot be installed.
    pub(crate) fn prepare(workspace: &Workspace) -> Result<Self, Failure> {
        let list = workspace.dev_file("python/requirements.txt");
        let wanted = fs::read_to_string(&list)
            .map_err(|error| Failure::new(format!("{} cannot be read: {error}.", list.display())))?;
        let folder = workspace.target().join("python");
        let python = Self { interpreter: folder.join("bin/python") };
        // Written last, so that an installation that was cut short is done again.
        let receipt = folder.join("installed.txt");
        let installed = fs::read_to_string(&receipt).is_ok_and(|installed| installed == wanted);
        if installed && python.interpreter.exists() {
            return Ok(python);
        }
        python.install(&folder, &list).map_err(|failure| {
            let names = wanted.split_whitespace().collect::<Vec<_>>().join(", ");
            Failure::new(format!("Missing Python packages: {names}. {failure}"))
        })?;
        fs::write(&receipt, &wanted)
            .map_err(|error| Failure::new(format!("{} cannot be written: {error}.", receipt.display())))?;
        Ok(python)
    }

    /// A command that runs a script.
    pub(crate) fn script(&self, path: &Path) -> Command {
        let mut command = Command::new(&self.interpreter);
        command.arg(path);
        command
    }

    fn install(&self, folder: &Path, list: &Path) -> Result<(), Failure> {
        command::run(Command::new(SYSTEM_PYTHON).args(["-m", "venv", "--clear"]).arg(folder))?;
        command::run(
            Command::new(&self.interpreter)
                .args(["-m", "pip", "install", "--quiet", "--disable-pip-version-check", "--requirement"])
                .arg(list),
        )
    }
}
