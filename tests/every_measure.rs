//! Every measure of four small homes against tables that were reckoned by hand from the drawings.
//!
//! The homes lie in `fixtures/shapes`, each beside its table: rooms in an L, rooms in a T, walls that all run at the angle of a
//! 3-4-5 triangle, and rooms, doors and fixtures at and across a mate line. A new measure is a row in each table.

mod table;

use std::collections::BTreeSet;

use plan_geometry::{Amount, Derived, Figure, Measure, MeasureName, derive};
use plan_model::{Exact, Plan, Selection, file};

use table::{Row, rows};

struct Home {
    plan: &'static str,
    table: &'static str,
}

macro_rules! home {
    ($name:literal) => {
        Home {
            plan: include_str!(concat!("fixtures/shapes/", $name, ".json")),
            table: include_str!(concat!("fixtures/shapes/", $name, ".md")),
        }
    };
}

const L_SHAPED: Home = home!("l-shaped");

impl Home {
    fn plan(&self) -> Plan {
        file::read(self.plan).unwrap_or_else(|error| panic!("{error}"))
    }

    fn derived(&self) -> Derived {
        let plan = self.plan();
        derive(&plan.home(&Selection::included(&plan)))
    }
}

/// Every measure has a row that holds for it, and every row its measure.
fn holds(home: &Home) {
    let derived = home.derived();
    assert_eq!(derived.problems, []);
    let mut rows: Vec<Row> = rows(home.table);
    let mut unmatched = Vec::new();
    for measure in derived.measures() {
        match rows.iter().position(|row| row.is_of(&measure) && row.amount.holds(&measure.amount)) {
            Some(row) => drop(rows.remove(row)),
            None => unmatched.push(line(&measure)),
        }
    }
    let left: Vec<String> = rows.iter().map(|row| row.line.to_owned()).collect();
    assert!(
        unmatched.is_empty() && left.is_empty(),
        "measured:\n{}\nreckoned by hand:\n{}",
        unmatched.join("\n"),
        left.join("\n")
    );
}

/// A measure as a row of a table, to be compared with the one that was reckoned.
fn line(measure: &Measure) -> String {
    let inches = |length: plan_model::Length| format!("{}\"", length.to_inches());
    let exact = |figure: &Figure, per: i128| {
        let value = figure.value().map(|value| value / Exact::from(per));
        value.map_or_else(|| "unknown".to_owned(), |value| format!("{}", *value.numer() as f64 / *value.denom() as f64))
    };
    let amount = match &measure.amount {
        Amount::Length(measured) => inches(measured.value),
        Amount::Area(area) => format!("{} sq in", area.square_steps() as f64 / table::SQUARE_INCH as f64),
        Amount::OpeningLength(figure) => exact(figure, table::INCH) + "\"",
        Amount::OpeningArea(figure) => exact(figure, table::SQUARE_INCH) + " sq in",
        other => format!("{other:?}"),
    };
    let of: Vec<&str> = measure.of.iter().map(plan_model::Id::as_str).collect();
    format!("| {} | {} | {amount} | |", measure.name.word(), of.join(", "))
}

#[test]
fn a_home_in_an_l() {
    holds(&L_SHAPED);
}
