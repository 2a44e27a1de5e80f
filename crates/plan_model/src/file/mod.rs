//! The plan file: JSON, version 1.
//!
//! [`read`] refuses what it does not understand and says where; [`write()`] lays a plan out for reading by hand.
//! Both work on text: opening and saving files is the program's business. [`Format`] is what other JSON files of the project are
//! read with.

mod consistency;
mod digest;
mod format;
mod layout;
mod locate;
mod nearest;
mod price_faults;
mod prices;
mod problem;
pub(crate) mod units_in_force;

use schemars::Schema;
use serde::Deserialize;

pub use digest::{PartDigests, drawn_digest, plan_digest};
pub use format::{Format, lay_out};
pub use nearest::nearest;
pub use prices::{prices_schema, with_prices};
pub use problem::{FileProblem, Unreadable};

use crate::{Plan, Units};

/// The largest plan file that is read, in bytes. The demo home takes about 60,000.
pub const LARGEST_FILE: usize = 16 * 1024 * 1024;

const FORMAT: Format = Format { field: "mateline_plan", version: Plan::VERSION, what: "plan file" };

/// What is read first, to know how to read the rest.
#[derive(Deserialize)]
struct Head {
    #[serde(default)]
    units: Option<Units>,
}

/// Reads a plan.
///
/// # Errors
/// Every problem found, each with its line, column and place in the file: text that is not JSON or not of this
/// format, names used twice, references to nothing, walls of no length.
pub fn read(text: &str) -> Result<Plan, Unreadable> {
    FORMAT.check_version(text)?;
    let head: Head = serde_json::from_str(text).map_err(|error| FileProblem::from_json(&error, ""))?;
    let plan: Plan = units_in_force::scope(head.units.unwrap_or_default(), || format::parse(text))?;
    refuse_faults(text, consistency::problems(&plan))?;
    Ok(plan)
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
    units_in_force::scope(plan.units, || lay_out(plan))
}

/// The JSON Schema of the plan file.
#[must_use]
pub fn schema() -> Schema {
    let mut schema = schemars::schema_for!(Plan);
    schema.insert("title".into(), "Mateline plan file, version 1".into());
    schema
}
