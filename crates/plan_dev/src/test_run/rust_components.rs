//! Parts of the Rust toolchain that cargo can be without.

use std::process::Stdio;

use crate::{failure::Failure, workspace::Workspace};

/// A component, and the word that cargo runs it by.
const COMPONENTS: &[(&str, &str)] = &[("rustfmt", "fmt"), ("clippy", "clippy")];

/// Makes sure that the components are there.
///
/// # Errors
/// Names those that are missing.
pub(crate) fn ensure(workspace: &Workspace) -> Result<(), Failure> {
    let answers = |word: &str| {
        let mut asking = workspace.cargo([word, "--version"]);
        asking.stdout(Stdio::null()).stderr(Stdio::null()).status().is_ok_and(|status| status.success())
    };
    let missing: Vec<&str> = COMPONENTS.iter().filter(|(_, word)| !answers(word)).map(|(name, _)| *name).collect();
    if missing.is_empty() {
        return Ok(());
    }
    let (listed, words) = (missing.join(", "), missing.join(" "));
    Err(Failure::new(format!("Missing Rust components: {listed}. `rustup component add {words}` brings them.")))
}
