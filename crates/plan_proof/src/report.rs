//! What is proven, as text for people and as JSON for programs. The same inputs always make the same bytes.

mod grouped;
mod json;
mod selections;
mod selections_json;
mod told;

use std::fmt::Write as _;

use num_bigint::BigUint;
use plan_choices::alternate_in_words;
use plan_model::AlternateRef;
use plan_rules::report::{book_text, paragraph, plain};
use plan_rules::{CAUTIONS, RuleBook};

pub use json::{every_json, every_schema};
pub use selections::selections_text;
pub use selections_json::{selections_json, selections_schema};

use self::grouped::{counts_text, grouped};
use self::told::Told;
use crate::Proof;

/// A proof as text, for people.
#[must_use]
pub fn every_text(proof: &Proof<'_>, book: &RuleBook) -> String {
    let plan = proof.plan();
    let mut text = format!("Plan check of every selection: {} by {}\n", plan.name, plan.maker);
    text.push_str(&book_text(book.facts()));
    let counts = [
        (proof.all(), "selections"),
        (proof.possible(), "can be sold"),
        (proof.meeting(), "of those meet the book"),
        (proof.falling_short(), "fall short of it"),
        (proof.not_known(), "do not fall short, but hold something that cannot be told"),
    ];
    text.push('\n');
    text.push_str(&counts_text(&counts));
    for (title, faults) in [
        ("CANNOT BE HAD TOGETHER", proof.clashes()),
        ("FALLS SHORT", &proof.faults),
        ("CANNOT BE TOLD", &proof.unknowns),
    ] {
        let list = Told::each(plan, book, faults);
        if !list.is_empty() {
            let _ = write!(text, "\n{title}\n");
            text.extend(list.iter().enumerate().map(|(index, told)| item(proof, index + 1, told)));
        }
    }
    text.push_str("\nCAUTIONS\n");
    text.extend(CAUTIONS.iter().map(|caution| paragraph("  - ", caution)));
    plain(&text)
}

fn item(proof: &Proof<'_>, number: usize, told: &Told<'_>) -> String {
    let Told { fault, sentence, section, .. } = told;
    let lead = format!("  {number:>3}. {}", section.as_ref().map(|section| format!("{section}  ")).unwrap_or_default());
    let mut text = paragraph(&lead, sentence);
    for part in &fault.caused_by {
        text.push_str(&paragraph("       ", &format!("{}.", cause(proof, part))));
    }
    let selections = if fault.count == BigUint::from(1_u8) { "selection" } else { "selections" };
    let mut about = format!("In {} {selections}.", grouped(&fault.count));
    if fault.rule.is_some() && fault.is_of_several() {
        about.push_str(" Each of these choices meets the rule without the others.");
    }
    text.push_str(&paragraph("       ", &about));
    if fault.rule.is_none() {
        return text;
    }
    let chosen: Vec<String> = proof.chosen(&fault.example).iter().map(|answer| format!("--select {answer}")).collect();
    if !chosen.is_empty() {
        text.push_str(&paragraph("       To look at: ", &chosen.join(" ")));
    }
    text
}

/// What brings a fault about, in words.
fn cause(proof: &Proof<'_>, part: &[AlternateRef]) -> String {
    if part.is_empty() {
        return "Whatever is chosen".to_owned();
    }
    let words: Vec<String> = part.iter().map(|answer| alternate_in_words(proof.plan(), answer)).collect();
    format!("With {}", words.join(" and "))
}
