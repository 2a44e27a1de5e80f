//! Where the project and its built files are.

use std::{
    env,
    ffi::OsString,
    path::{Path, PathBuf},
    process::Command,
};

use serde_json::Value;

use crate::{command, failure::Failure};

/// The project's folders, as cargo sees them: the target folder may be anywhere.
pub(crate) struct Workspace {
    root: PathBuf,
    target: PathBuf,
}

impl Workspace {
    /// Asks cargo, starting from the current folder.
    pub(crate) fn locate() -> Result<Self, Failure> {
        let mut asking = Command::new(cargo_program());
        asking.args(["metadata", "--format-version", "1", "--no-deps"]);
        let metadata: Value = serde_json::from_slice(&command::printed_on_success(&mut asking)?)
            .map_err(|error| Failure::new(format!("The answer of `cargo metadata` is not JSON: {error}.")))?;
        let folder = |name: &str| match metadata[name].as_str() {
            Some(path) => Ok(PathBuf::from(path)),
            None => Err(Failure::new(format!("The answer of `cargo metadata` has no `{name}`."))),
        };
        Ok(Self { root: folder("workspace_root")?, target: folder("target_directory")? })
    }

    /// The folder of the root `Cargo.toml`.
    pub(crate) fn root(&self) -> &Path {
        &self.root
    }

    /// The folder of everything built.
    pub(crate) fn target(&self) -> &Path {
        &self.target
    }

    /// The folder of the published schemas.
    pub(crate) fn schemas(&self) -> PathBuf {
        self.root.join("assets/schemas")
    }

    /// A file of this crate.
    pub(crate) fn dev_file(&self, path: &str) -> PathBuf {
        self.root.join("crates/plan_dev").join(path)
    }

    /// `cargo` with these words, run at the root.
    pub(crate) fn cargo<'a>(&self, words: impl IntoIterator<Item = &'a str>) -> Command {
        let mut cargo = Command::new(cargo_program());
        cargo.args(words).current_dir(&self.root);
        cargo
    }
}

/// The cargo that started this program, or else the one on the path.
fn cargo_program() -> OsString {
    env::var_os("CARGO").unwrap_or_else(|| "cargo".into())
}
