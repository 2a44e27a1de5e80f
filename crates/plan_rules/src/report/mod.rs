//! Reports: what is measured and what is judged, as text for people and as JSON for programs. The same inputs always make
//! the same bytes.

mod book;
mod check;
mod check_text;
mod clauses;
mod decimal;
mod explain;
mod heated;
mod measure;
mod measure_list;
mod measure_text;
mod problem;
mod rule_facts;
mod text;
mod units;

pub use book::{AmendmentReport, BookReport, ChangeReport, book_text};
pub use check::{check_json, check_schema};
pub use check_text::{check_text, sections_text};
pub use clauses::clauses_page;
pub use decimal::Decimal;
pub use explain::{book_sheet, explain_text};
pub use measure::{measure_json, measure_schema};
pub use measure_text::measure_text;
pub use rule_facts::{RuleFact, Topic, rule_facts};
pub use text::{paragraph, plain};
pub use units::{ReportUnits, grid_area};

use std::fmt::Write as _;

use plan_model::{Home, Selection};
use schemars::Schema;
use serde::Serialize;

/// Lays a report out for reading, with a line end after the last line.
#[must_use]
pub fn lay_out(report: &impl Serialize) -> String {
    // Reports are structs, lists, text and numbers, none of which can fail to become JSON.
    let json = serde_json::to_string_pretty(report).unwrap_or_default();
    let mut text = String::with_capacity(json.len() + 1);
    for letter in json.chars() {
        // JSON itself writes out the control characters below the blank, and not the rest.
        if letter.is_control() && letter != '\n' {
            let _ = write!(text, "\\u{:04x}", u32::from(letter));
        } else {
            text.push(letter);
        }
    }
    text.push('\n');
    text
}

/// A schema under its title, with the version of the report as the only one it takes.
#[must_use]
pub fn titled(mut schema: Schema, title: &str) -> Schema {
    schema.insert("title".into(), title.into());
    schema
}

/// The lines that say which home a text report is about.
fn heading(what: &str, home: &Home<'_>, selection: &Selection) -> String {
    let answers: Vec<String> = selection.iter().map(|(choice, alternate)| format!("{choice}={alternate}")).collect();
    let answers = if answers.is_empty() { "the plan has no choices".to_owned() } else { answers.join(", ") };
    let reversed = if selection.is_reversed() { "Reversed: mirrored left to right\n" } else { "" };
    let answers = text::paragraph("Selection: ", &answers);
    format!("{what}: {} by {}\n{reversed}{answers}", home.plan.name, home.plan.maker)
}
