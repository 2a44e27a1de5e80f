//! A proof in words that stand on their own, once the proof itself is gone.

use num_bigint::BigUint;
use plan_choices::alternate_in_words;
use plan_model::{AlternateRef, Selection};
use plan_rules::RuleBook;

use super::told::Told;
use crate::{Fault, Proof};

/// What is proven, in words.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Summary {
    /// The book by which it is proven, as people call it.
    pub book: String,
    /// How many selections there are, can be sold, meet the book, fall short of it and cannot be told.
    pub counts: Counts,
    /// What cannot be had together, because things need the same ground.
    pub clashes: Vec<Item>,
    /// What falls short.
    pub faults: Vec<Item>,
    /// What cannot be told.
    pub unknowns: Vec<Item>,
}

/// How many selections; exact.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Counts {
    /// Whether they can be sold or not.
    pub all: BigUint,
    /// Can be sold.
    pub possible: BigUint,
    /// Of those, meet the book.
    pub meeting: BigUint,
    /// Of those, fall short of it.
    pub falling_short: BigUint,
    /// Of those, do not fall short, but hold something that cannot be told.
    pub not_known: BigUint,
}

/// One thing that is wrong in some selections.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Item {
    /// The sentence of the verdict, or of what needs the same ground.
    pub sentence: String,
    /// The section of the book, where it is certain enough to be printed.
    pub section: Option<String>,
    /// What the sentence must be told with: estimates, amendments, figures to be confirmed.
    pub notes: Vec<String>,
    /// What brings it about, a sentence for each smallest set of choices.
    pub causes: Vec<String>,
    /// Whether it takes several choices, each of which is without fault alone.
    pub is_of_several: bool,
    /// In how many selections.
    pub count: BigUint,
    /// A selection that shows it.
    pub example: Selection,
}

impl Summary {
    /// Of a proof by a book.
    #[must_use]
    pub fn of(proof: &Proof<'_>, book: &RuleBook) -> Self {
        let items = |faults: &[Fault]| {
            let told = Told::each(proof.plan(), book, faults);
            told.into_iter().map(|told| Item::of(proof, told)).collect()
        };
        Self {
            book: format!("{}, {}", book.facts().name, book.facts().edition),
            counts: Counts {
                all: proof.all(),
                possible: proof.possible(),
                meeting: proof.meeting(),
                falling_short: proof.falling_short(),
                not_known: proof.not_known(),
            },
            clashes: items(proof.clashes()),
            faults: items(&proof.faults),
            unknowns: items(&proof.unknowns),
        }
    }
}

impl Item {
    fn of(proof: &Proof<'_>, told: Told<'_>) -> Self {
        let Told { fault, sentence, section, notes, .. } = told;
        Self {
            sentence,
            section,
            notes,
            causes: fault.caused_by.iter().map(|part| cause(proof, part)).collect(),
            is_of_several: fault.is_of_several(),
            count: fault.count.clone(),
            example: fault.example.clone(),
        }
    }
}

/// What brings a fault about, in a sentence.
fn cause(proof: &Proof<'_>, part: &[AlternateRef]) -> String {
    if part.is_empty() {
        return "Whatever is chosen.".to_owned();
    }
    let words: Vec<String> = part.iter().map(|answer| alternate_in_words(proof.plan(), answer)).collect();
    format!("With {}.", words.join(" and "))
}
