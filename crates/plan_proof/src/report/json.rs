//! A proof as JSON.

use std::collections::BTreeMap;

use plan_model::{AlternateRef, Id};
use plan_rules::report::{BookReport, lay_out, titled};
use plan_rules::{CAUTIONS, RuleBook};
use schemars::{JsonSchema, Schema, schema_for};
use serde::Serialize;

use super::told::Told;
use crate::{Fault, Proof};

/// Every selection of a plan, judged by a rule book.
#[derive(Debug, Serialize, JsonSchema)]
struct EveryReport {
    /// Version of this report.
    #[schemars(extend("const" = 1))]
    mateline_every: u32,
    /// Name of the plan.
    plan: String,
    /// Who builds it.
    maker: String,
    book: BookReport,
    selections: Counts,
    /// What cannot be sold because things need the same ground, of what the plan does not refuse by itself.
    cannot_be_had_together: Vec<FaultReport>,
    /// What falls short of the book in selections that can be sold.
    falls_short: Vec<FaultReport>,
    /// What cannot be told in selections that can be sold.
    cannot_be_told: Vec<FaultReport>,
    /// How many homes had to be derived and judged.
    homes: usize,
    /// What the program is not.
    cautions: Vec<&'static str>,
}

/// How many selections; whole numbers as text, since there can be more than numbers in JSON hold exactly.
#[derive(Debug, Serialize, JsonSchema)]
struct Counts {
    all: String,
    /// Can be sold.
    possible: String,
    /// Of those, meet the book.
    meeting: String,
    /// Of those, fall short of it.
    falling_short: String,
    /// Of those, do not fall short, but hold something that cannot be told.
    not_known: String,
}

/// One thing that is wrong in some selections.
#[derive(Debug, Serialize, JsonSchema)]
struct FaultReport {
    /// Id of the rule; null where things need the same ground.
    rule: Option<&'static str>,
    /// Section of the code, where it is certain enough to be printed.
    section: Option<String>,
    /// The elements concerned; none for the home as a whole.
    of: Vec<Id>,
    subject: Option<String>,
    /// The sentence of the verdict in the example.
    message: String,
    /// What that must be told with: estimates, amendments, figures to be confirmed.
    notes: Vec<String>,
    /// Every smallest set of alternates with which it comes about, whatever else is chosen; an empty one: always.
    caused_by: Vec<Vec<AlternateRef>>,
    /// Whether it takes several choices, each of which is without fault alone.
    of_several: bool,
    /// In how many selections.
    count: String,
    /// A selection in which it comes about, as near to the included one as can be.
    example: BTreeMap<Id, Id>,
}

/// A proof as JSON, for programs; [`every_schema`] describes it.
#[must_use]
pub fn every_json(proof: &Proof<'_>, book: &RuleBook) -> String {
    let plan = proof.plan();
    let faults = |list: &[Fault]| Told::each(plan, book, list).iter().map(fault).collect();
    lay_out(&EveryReport {
        mateline_every: 1,
        plan: plan.name.clone(),
        maker: plan.maker.clone(),
        book: BookReport::from(&**book.facts()),
        selections: Counts {
            all: proof.all().to_string(),
            possible: proof.possible().to_string(),
            meeting: proof.meeting().to_string(),
            falling_short: proof.falling_short().to_string(),
            not_known: proof.not_known().to_string(),
        },
        cannot_be_had_together: faults(proof.clashes()),
        falls_short: faults(&proof.faults),
        cannot_be_told: faults(&proof.unknowns),
        homes: proof.homes,
        cautions: CAUTIONS.to_vec(),
    })
}

/// The JSON Schema of [`every_json`].
#[must_use]
pub fn every_schema() -> Schema {
    titled(schema_for!(EveryReport), "Mateline check of every selection, version 1")
}

fn fault(told: &Told<'_>) -> FaultReport {
    let Told { fault, sentence, section, notes, subject } = told;
    FaultReport {
        rule: fault.rule,
        section: section.clone(),
        of: fault.of.clone(),
        subject: subject.clone(),
        message: sentence.clone(),
        notes: notes.clone(),
        caused_by: fault.caused_by.clone(),
        of_several: fault.is_of_several(),
        count: fault.count.to_string(),
        example: fault.example.iter().map(|(choice, alternate)| (choice.clone(), alternate.clone())).collect(),
    }
}
