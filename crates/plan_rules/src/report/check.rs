use std::collections::BTreeMap;

use plan_model::{Home, Id, Selection, Units};
use schemars::{JsonSchema, Schema, schema_for};
use serde::Serialize;

use super::decimal::Decimal;
use super::units::{ReportUnits, point, quantity, unit_of};
use super::{lay_out, titled};
use crate::{BookFacts, CAUTIONS, Clause, ClauseStatus, Judgement, Outcome, Verdict};

/// A home judged by a rule book.
#[derive(Debug, Serialize, JsonSchema)]
struct CheckReport {
    /// Version of this report.
    #[schemars(extend("const" = 1))]
    mateline_check: u32,
    /// Name of the plan.
    plan: String,
    /// Who builds it.
    maker: String,
    /// The chosen alternate of every choice.
    selection: BTreeMap<Id, Id>,
    units: ReportUnits,
    book: BookReport,
    /// Required rules that the home falls short of.
    corrections: Vec<VerdictReport>,
    /// Recommendations not met; they never fail a plan.
    advisories: Vec<VerdictReport>,
    /// Required rules that cannot be judged, because the plan does not hold a figure.
    unknown: Vec<VerdictReport>,
    /// Rules that are met.
    met: Vec<VerdictReport>,
    /// Sections of the code that are judged as far as a plan can show them.
    judged: Vec<ClauseReport>,
    /// Sections of the code of which only a part is judged.
    partly_judged: Vec<ClauseReport>,
    /// Sections of the code that are not judged.
    not_judged: Vec<ClauseReport>,
    /// What the program is not.
    cautions: Vec<&'static str>,
}

/// The rule book in force.
#[derive(Debug, Serialize, JsonSchema)]
struct BookReport {
    id: String,
    name: String,
    edition: String,
    note: Option<String>,
}

/// What a rule says of one subject.
#[derive(Debug, Serialize, JsonSchema)]
struct VerdictReport {
    /// Id of the rule.
    rule: &'static str,
    /// Section of the code, where it is certain enough to be printed.
    section: Option<String>,
    /// The element that was judged; null for the home as a whole.
    subject: Option<Id>,
    /// The subject as people call it.
    subject_name: String,
    /// The figure of the home; null if unknown.
    measured: Option<Decimal>,
    /// The limit of the book.
    required: Option<Decimal>,
    /// Measured minus required, for an upper limit required minus measured: below zero falls short.
    margin: Option<Decimal>,
    /// The unit of these three: `in`, `mm`, `sq ft`, `sq m` or `count`.
    unit: &'static str,
    /// One sentence for people.
    message: String,
    /// Exceptions, estimates and doubts.
    notes: Vec<String>,
    /// The place on the plan, in the plan's unit.
    at: [Decimal; 2],
}

/// A section of the code.
#[derive(Debug, Serialize, JsonSchema)]
struct ClauseReport {
    section: String,
    subject: String,
}

/// The verdicts on a home as JSON, for programs; [`check_schema`] describes it.
#[must_use]
pub fn check_json(home: &Home<'_>, selection: &Selection, judgement: &Judgement) -> String {
    let units = home.plan.units;
    let of = |outcome| judgement.with_outcome(outcome).map(|verdict| verdict_report(verdict, units)).collect();
    lay_out(&CheckReport {
        mateline_check: 1,
        plan: home.plan.name.clone(),
        maker: home.plan.maker.clone(),
        selection: selection.iter().map(|(choice, alternate)| (choice.clone(), alternate.clone())).collect(),
        units: units.into(),
        book: book_report(&judgement.book),
        corrections: of(Outcome::Correction),
        advisories: of(Outcome::Advisory),
        unknown: of(Outcome::Unknown),
        met: of(Outcome::Met),
        judged: clauses(&judgement.book.clauses, ClauseStatus::Judged),
        partly_judged: clauses(&judgement.book.clauses, ClauseStatus::Partly),
        not_judged: clauses(&judgement.book.clauses, ClauseStatus::NotJudged),
        cautions: CAUTIONS.to_vec(),
    })
}

/// The JSON Schema of [`check_json`].
#[must_use]
pub fn check_schema() -> Schema {
    titled(schema_for!(CheckReport), "Mateline check report, version 1")
}

fn book_report(book: &BookFacts) -> BookReport {
    BookReport { id: book.id.clone(), name: book.name.clone(), edition: book.edition.clone(), note: book.note.clone() }
}

fn verdict_report(verdict: &Verdict, units: Units) -> VerdictReport {
    let number = |figure| quantity(figure, verdict.quantity, units);
    VerdictReport {
        rule: verdict.rule,
        section: verdict.section.clone(),
        subject: verdict.subject.clone(),
        subject_name: verdict.subject_name.clone(),
        measured: verdict.measured.map(number),
        required: verdict.required.map(number),
        margin: verdict.margin().map(number),
        unit: unit_of(verdict.quantity, units),
        message: verdict.message.clone(),
        notes: verdict.notes.clone(),
        at: point(verdict.place.at, units),
    }
}

fn clauses(clauses: &[Clause], status: ClauseStatus) -> Vec<ClauseReport> {
    let of_status = clauses.iter().filter(|clause| clause.status == status);
    of_status.map(|clause| ClauseReport { section: clause.section.clone(), subject: clause.subject.clone() }).collect()
}
