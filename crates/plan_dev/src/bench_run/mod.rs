//! `cargo dev bench`: the program's own figures, and shapely at the same walls.

mod criterion;
mod figure;
mod shapely;

use std::time::SystemTime;

use self::figure::{Figure, Unit};
use crate::{
    command, console,
    failure::Failure,
    python::Python,
    system_packages::{self, FOR_PYTHON},
    workspace::Workspace,
};

/// Our time for the rooms of the sixty walls, which shapely's is divided by.
const OUR_ROOMS: &str = "rooms_60_walls";

/// Figures that must not get lost when a bench is renamed.
const EXPECTED: &[&str] = &[
    "derive_home",
    "derive_after_move",
    "judge_home",
    "judge_home_by_all_books",
    "every_selection",
    OUR_ROOMS,
    "rooms_6000_walls",
    "derive_6000_walls",
];

/// The largest of the blocks that show how work grows with the number of walls, under the names by which it is asked for.
const LARGEST_BLOCK: [(&str, &str); 2] =
    [("rooms_by_walls/6049", "rooms_6000_walls"), ("derive_by_walls/6049", "derive_6000_walls")];

/// Runs every bench, then prints a table: one figure a line, as `name value unit`.
///
/// # Errors
/// A bench or shapely fails, or an expected figure is missing.
pub(crate) fn run(workspace: &Workspace) -> Result<(), Failure> {
    system_packages::ensure(FOR_PYTHON)?;
    let python = Python::prepare(workspace)?;
    let results = workspace.target().join("criterion");
    let start = SystemTime::now();
    // Benches alone: without the pattern cargo would also build every unit test with optimisation, to run none.
    command::run(workspace.cargo(["bench", "--workspace", "--bench", "*"]).env("CRITERION_HOME", &results))?;
    let mut figures = criterion::figures(&results, start)?;
    for (measured, name) in LARGEST_BLOCK {
        let figure = figures.iter().find(|figure| figure.name == measured).map(|figure| figure.renamed(name));
        figures.extend(figure);
    }
    let shapely = shapely::rooms_of_60_walls(workspace, &python)?;
    if let Some(ours) = figures.iter().find(|figure| figure.name == OUR_ROOMS) {
        figures.push(Figure::new("shapely_ratio", shapely.value / ours.value, Unit::Times));
    }
    figures.push(shapely);
    figures.sort_by(|one, other| one.name.cmp(&other.name));

    console::say("");
    figures.iter().for_each(console::say);
    let missing: Vec<&str> =
        EXPECTED.iter().copied().filter(|name| figures.iter().all(|figure| figure.name != *name)).collect();
    if missing.is_empty() {
        return Ok(());
    }
    Err(Failure::new(format!("No bench gave these figures: {}.", missing.join(", "))))
}
