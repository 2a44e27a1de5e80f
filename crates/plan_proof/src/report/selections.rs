//! What was found, as text.

use std::fmt::Write as _;

use num_bigint::BigUint;
use plan_model::{Plan, Units};
use plan_rules::report::{book_text, paragraph, plain};
use plan_rules::{CAUTIONS, RuleBook, show};

use super::grouped::counts_text;
use crate::{Found, FoundHome, Query};

/// What was found, as text for people: how many, the cheapest, the largest, and at most so many from the cheapest on. `book`
/// is the one by which they were judged, if the query asks for that.
#[must_use]
pub fn selections_text(found: &Found<'_, '_>, query: &Query, book: Option<&RuleBook>, most: usize) -> String {
    let plan = found.finder().plan();
    let sold = found.finder().compatibility();
    let mut text = format!("Selections sought: {} by {}\n", plan.name, plan.maker);
    text.push_str(&paragraph("Asked for: ", query.text()));
    if let Some(book) = book {
        text.push_str(&book_text(book.facts()));
    }
    let mut counts = vec![
        (sold.all(), "selections"),
        (sold.possible(), "can be sold"),
        (found.count(), "of those have what is asked for"),
    ];
    let not_known = found.not_known();
    if not_known > BigUint::ZERO {
        counts.push((not_known, "hold something that cannot be told, and are left out"));
    }
    text.push('\n');
    text.push_str(&counts_text(&counts));
    let list = found.cheapest(most);
    let mut section = |title: &str, homes: &[FoundHome]| {
        if !homes.is_empty() {
            let _ = write!(text, "\n{title}\n");
            text.push_str(&lines(plan, homes));
        }
    };
    section("CHEAPEST", &found.cheapest(1));
    section("LARGEST", &Vec::from_iter(found.largest()));
    section("FROM THE CHEAPEST ON", &list);
    text.push_str("\nCAUTIONS\n");
    text.extend(CAUTIONS.iter().map(|caution| paragraph("  - ", caution)));
    plain(&text)
}

/// Selections, two lines or more for each.
fn lines(plan: &Plan, homes: &[FoundHome]) -> String {
    let prices: Vec<String> = homes.iter().map(|home| home.price.to_string()).collect();
    let width = prices.iter().map(String::len).max().unwrap_or_default();
    let mut text = String::new();
    for (home, price) in homes.iter().zip(prices) {
        let rooms = format!("{}, {}", counted(home.bedrooms, "bedroom"), counted(home.baths, "bath"));
        let area = area_in_words(home, plan.units);
        let _ = writeln!(text, "  {} {price:>width$}  {rooms}, {area}", plan.currency);
        let chosen: Vec<String> = home.chosen.iter().map(|answer| format!("--select {answer}")).collect();
        let chosen = if chosen.is_empty() { "as included".to_owned() } else { chosen.join(" ") };
        text.push_str(&paragraph("      ", &chosen));
    }
    text
}

fn area_in_words(home: &FoundHome, units: Units) -> String {
    let shown = home.heated_area.map(|area| format!("{} heated", show::area(area.exact(), units)));
    shown.unwrap_or_else(|| "heated area unknown".to_owned())
}

fn counted(number: usize, what: &str) -> String {
    let plural = if number == 1 { "" } else { "s" };
    format!("{number} {what}{plural}")
}
