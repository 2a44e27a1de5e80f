//! Files that are generated, committed, and never edited by hand.

use std::{fs, path::Path};

use crate::{console, failure::Failure};

/// One of them, by its name in its folder.
pub(crate) struct Generated {
    pub(crate) name: String,
    pub(crate) text: String,
}

/// Writes files into a folder, which is made if it is not there.
///
/// # Errors
/// Names what cannot be written.
pub(crate) fn write(folder: &Path, files: impl IntoIterator<Item = Generated>) -> Result<(), Failure> {
    let unwritable = |path: &Path, error| Failure::new(format!("{} cannot be written: {error}.", path.display()));
    fs::create_dir_all(folder).map_err(|error| unwritable(folder, error))?;
    for Generated { name, text } in files {
        let path = folder.join(name);
        fs::write(&path, text).map_err(|error| unwritable(&path, error))?;
        console::say(format_args!("wrote {}", path.display()));
    }
    Ok(())
}
