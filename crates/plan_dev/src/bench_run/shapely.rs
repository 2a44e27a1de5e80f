//! What shapely takes for the same rooms.

use serde_json::Value;

use super::figure::Figure;
use crate::{command, failure::Failure, python::Python, workspace::Workspace};

/// The median time in which shapely derives the rooms of the sixty walls.
///
/// # Errors
/// The script fails, or gives no time.
pub(crate) fn rooms_of_60_walls(workspace: &Workspace, python: &Python) -> Result<Figure, Failure> {
    let script = workspace.dev_file("bench/rooms_shapely.py");
    let walls = workspace.dev_file("bench/walls_60.json");
    let answer = command::printed_on_success(python.script(&script).arg(&walls))?;
    let median = serde_json::from_slice::<Value>(&answer).ok().and_then(|answer| answer["median_ns"].as_f64());
    match median {
        Some(median) => Ok(Figure::from_nanoseconds("rooms_60_walls_shapely", median)),
        None => Err(Failure::new(format!("{} gave no time.", script.display()))),
    }
}
