//! What is proven, as text for people and as JSON for programs. The same inputs always make the same bytes.

mod grouped;
mod json;
mod selections;
mod selections_json;
mod summary;
mod told;

use std::fmt::Write as _;

use num_bigint::BigUint;
use plan_geometry::derive;
use plan_model::Selection;
use plan_rules::report::{book_text, paragraph, plain, sections_text};
use plan_rules::{CAUTIONS, RuleBook, judge};

pub use grouped::grouped;
pub use json::{every_json, every_schema};
pub use selections::selections_text;
pub use selections_json::{selections_json, selections_schema};
pub use summary::{Counts, Item, Summary};

use self::grouped::counts_text;
use crate::Proof;

/// A proof as text, for people.
#[must_use]
pub fn every_text(proof: &Proof<'_>, book: &RuleBook) -> String {
    let plan = proof.plan();
    let Summary { counts, clashes, faults, unknowns, .. } = Summary::of(proof, book);
    let mut text = format!("Plan check of every selection: {} by {}\n", plan.name, plan.maker);
    text.push_str(&book_text(book.facts()));
    let counts = [
        (counts.all, "selections"),
        (counts.possible, "can be sold"),
        (counts.meeting, "of those meet the book"),
        (counts.falling_short, "fall short of it"),
        (counts.not_known, "do not fall short, but hold something that cannot be told"),
    ];
    text.push('\n');
    text.push_str(&counts_text(&counts));
    // What cannot be built is not looked at.
    for (title, items, can_be_built) in
        [("CANNOT BE HAD TOGETHER", clashes, false), ("FALLS SHORT", faults, true), ("CANNOT BE TOLD", unknowns, true)]
    {
        if !items.is_empty() {
            let _ = write!(text, "\n{title}\n");
            text.extend(items.iter().enumerate().map(|(index, it)| item(proof, index + 1, it, can_be_built)));
        }
    }
    let home = plan.home(&Selection::included(plan));
    if let Ok(judgement) = judge(&home, &derive(&home), book) {
        text.push_str("\nOf the included selection; recommendations are not looked at here.\n");
        text.push_str(&sections_text(&judgement));
    }
    text.push_str("\nCAUTIONS\n");
    text.extend(CAUTIONS.iter().map(|caution| paragraph("  - ", caution)));
    plain(&text)
}

fn item(proof: &Proof<'_>, number: usize, item: &Item, can_be_built: bool) -> String {
    let lead =
        format!("  {number:>3}. {}", item.section.as_ref().map(|section| format!("{section}  ")).unwrap_or_default());
    let mut text = paragraph(&lead, &item.sentence);
    text.extend(item.notes.iter().map(|note| paragraph("       note: ", note)));
    text.extend(item.causes.iter().map(|cause| paragraph("       ", cause)));
    let selections = if item.count == BigUint::from(1_u8) { "selection" } else { "selections" };
    let mut about = format!("In {} {selections}.", grouped(&item.count));
    if can_be_built && item.is_of_several {
        about.push_str(" Each of these choices meets the rule without the others.");
    }
    text.push_str(&paragraph("       ", &about));
    let chosen: Vec<String> = proof.chosen(&item.example).iter().map(|answer| format!("--select {answer}")).collect();
    if can_be_built && !chosen.is_empty() {
        text.push_str(&paragraph("       To look at: ", &chosen.join(" ")));
    }
    text
}
