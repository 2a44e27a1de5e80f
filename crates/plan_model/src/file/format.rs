//! What every JSON file of the project has in common: its version stands in a field of its own name, it is read whole or
//! refused with a place, and it is laid out for reading by hand.

use serde::Serialize;
use serde::de::DeserializeOwned;
use serde_json::Value;

use super::{FileProblem, LARGEST_FILE, layout};

/// A kind of file.
#[derive(Clone, Copy, Debug)]
pub struct Format {
    /// The field that holds the version.
    pub field: &'static str,
    /// The version that is read and written.
    pub version: u32,
    /// What the file is called: "plan file".
    pub what: &'static str,
}

impl Format {
    /// Refuses text that is too long, no JSON, or of another version.
    pub(super) fn check_version(&self, text: &str) -> Result<(), FileProblem> {
        self.version_of(text).map(|_| ())
    }

    /// The version that a text says it has, if it says one: that which is read.
    fn version_of(&self, text: &str) -> Result<Option<Value>, FileProblem> {
        if text.len() > LARGEST_FILE {
            let message = format!("the file has {} bytes; the largest that is read has {LARGEST_FILE}", text.len());
            return Err(FileProblem::of_the_whole(message));
        }
        let value: Value = serde_json::from_str(text).map_err(|error| FileProblem::from_json(&error, ""))?;
        match value.get(self.field) {
            Some(version) if *version != self.version => {
                let message =
                    format!("this program reads version {} of the {}, not {version}", self.version, self.what);
                Err(FileProblem::at(text, self.field, None, message))
            }
            version => Ok(version.cloned()),
        }
    }

    /// Reads a file of this kind.
    ///
    /// # Errors
    /// The first thing that is not as the type says, with its place: a name that is not known is told with the nearest one.
    pub fn read<T: DeserializeOwned>(&self, text: &str) -> Result<T, FileProblem> {
        if self.version_of(text)?.is_none() {
            let message = format!("this is no {}: expected the field `{}` with its version", self.what, self.field);
            return Err(FileProblem::at(text, "", None, message));
        }
        parse(text)
    }
}

/// Reads the whole of a text as JSON of a type.
pub(super) fn parse<T: DeserializeOwned>(text: &str) -> Result<T, FileProblem> {
    let mut json = serde_json::Deserializer::from_str(text);
    let read: T = serde_path_to_error::deserialize(&mut json)
        .map_err(|error| FileProblem::from_json(error.inner(), &error.path().to_string()).at_its_start(text))?;
    json.end().map_err(|error| FileProblem::from_json(&error, ""))?;
    Ok(read)
}

/// Lays out what a file holds: the same always as the same bytes.
#[must_use]
pub fn lay_out(file: &impl Serialize) -> String {
    // Files are structs, lists, text and numbers, none of which can fail to become JSON.
    layout::lay_out(&serde_json::to_value(file).unwrap_or_default())
}
