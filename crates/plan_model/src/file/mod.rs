//! The plan file: JSON, version 1.
//!
//! [`read`] refuses what it does not understand and says where; [`write()`] lays a plan out for reading by hand.
//! Both work on text: opening and saving files is the program's business.

mod consistency;
mod layout;
mod locate;
mod nearest;
mod price_faults;
mod prices;
mod problem;
pub(crate) mod units_in_force;

use schemars::Schema;
use serde::Deserialize;
use serde::de::DeserializeOwned;

pub use nearest::nearest;
pub use prices::{prices_schema, with_prices};
pub use problem::{FileProblem, Unreadable};

use crate::{Plan, Units};

/// The largest plan file that is read, in bytes. The demo home takes about 60,000.
pub const LARGEST_FILE: usize = 16 * 1024 * 1024;

/// What is read first, to know how to read the rest.
#[derive(Deserialize)]
struct Head {
    #[serde(default)]
    mateline_plan: Option<serde_json::Value>,
    #[serde(default)]
    units: Option<Units>,
}

/// Reads a plan.
///
/// # Errors
/// Every problem found, each with its line, column and place in the file: text that is not JSON or not of this
/// format, names used twice, references to nothing, walls of no length.
pub fn read(text: &str) -> Result<Plan, Unreadable> {
    refuse_large(text)?;
    let head: Head = serde_json::from_str(text).map_err(|error| FileProblem::from_json(&error, ""))?;
    if let Some(version) = &head.mateline_plan
        && *version != Plan::VERSION
    {
        let message = format!("this program reads version {} of the plan file, not {version}", Plan::VERSION);
        return Err(FileProblem::at(text, "mateline_plan", None, message).into());
    }
    let plan: Plan = units_in_force::scope(head.units.unwrap_or_default(), || from_json(text))?;
    refuse_faults(text, consistency::problems(&plan))?;
    Ok(plan)
}

fn refuse_large(text: &str) -> Result<(), FileProblem> {
    if text.len() <= LARGEST_FILE {
        return Ok(());
    }
    let message = format!("the file has {} bytes; the largest that is read has {LARGEST_FILE}", text.len());
    Err(FileProblem::of_the_whole(message))
}

/// One JSON document and nothing after it.
fn from_json<T: DeserializeOwned>(text: &str) -> Result<T, FileProblem> {
    let mut json = serde_json::Deserializer::from_str(text);
    let read = serde_path_to_error::deserialize(&mut json)
        .map_err(|error| FileProblem::from_json(error.inner(), &error.path().to_string()).at_its_start(text))?;
    json.end().map_err(|error| FileProblem::from_json(&error, ""))?;
    Ok(read)
}

fn refuse_faults(text: &str, found: Vec<consistency::Found>) -> Result<(), Unreadable> {
    if found.is_empty() {
        return Ok(());
    }
    let placed = |found: consistency::Found| FileProblem::at(text, &found.path, found.id, found.message);
    Err(Unreadable { problems: found.into_iter().map(placed).collect() })
}

/// Writes a plan: the same plan always as the same bytes.
#[must_use]
pub fn write(plan: &Plan) -> String {
    let value = units_in_force::scope(plan.units, || serde_json::to_value(plan));
    // Every part of a plan is a struct, a list, text or a number, none of which can fail to become JSON.
    layout::lay_out(&value.unwrap_or_default())
}

/// The JSON Schema of the plan file.
#[must_use]
pub fn schema() -> Schema {
    let mut schema = schemars::schema_for!(Plan);
    schema.insert("title".into(), "Mateline plan file, version 1".into());
    schema
}
