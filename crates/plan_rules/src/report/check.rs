use std::collections::BTreeMap;

use plan_geometry::Derived;
use plan_model::{Home, Id, Selection, Units};
use schemars::{JsonSchema, Schema, schema_for};
use serde::Serialize;

use super::book::BookReport;
use super::decimal::Decimal;
use super::problem::{ProblemReport, problem_reports};
use super::units::{ReportUnits, point, quantity, unit_of};
use super::{lay_out, titled};
use crate::{CAUTIONS, Clause, Coverage, Judgement, Outcome, Verdict};

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
    /// Whether the home is built mirrored left to right; left out where it is built as drawn.
    #[serde(skip_serializing_if = "std::ops::Not::not")]
    #[schemars(default)]
    reversed: bool,
    units: ReportUnits,
    book: BookReport,
    /// Required rules that the home falls short of.
    corrections: Vec<VerdictReport>,
    /// Recommendations not met; they never fail a plan.
    advisories: Vec<VerdictReport>,
    /// Required rules that cannot be judged, because the plan does not hold a figure.
    unknown: Vec<VerdictReport>,
    /// Rules that the home has nothing for, and what exceptions let off. No findings: they never fail a plan.
    does_not_apply: Vec<DoesNotApplyReport>,
    /// Rules that are met.
    met: Vec<VerdictReport>,
    /// What kept figures from being derived, and what conflicts in space.
    problems: Vec<ProblemReport>,
    /// Sections of the code that are judged as far as a plan can show them.
    judged: Vec<ClauseReport>,
    /// Sections of the code of which only a part is judged.
    partly_judged: Vec<ClauseReport>,
    /// Sections of the code that are not judged.
    not_judged: Vec<ClauseReport>,
    /// Sections of the code that this plan has nothing for: no hall, no bedroom.
    not_applicable: Vec<ClauseReport>,
    /// What the program is not.
    cautions: Vec<&'static str>,
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
    /// The figure of the home; null if unknown, or if there is nothing to measure.
    measured: Option<Decimal>,
    /// The limit of the book.
    required: Option<Decimal>,
    /// Measured minus required, for an upper limit required minus measured: below zero falls short.
    margin: Option<Decimal>,
    /// The unit of these three: `in`, `mm`, `sq ft`, `sq m`, `count`, or `yes-or-no` for 1 and 0.
    unit: &'static str,
    /// One sentence for people.
    message: String,
    /// What must be entered in the plan for the figure to be known; null where it is known or there is nothing to measure.
    enter: Option<String>,
    /// Exceptions, amendments, estimates and doubts.
    notes: Vec<String>,
    /// Who answers for it: `factory`, or `site` where local code holds whatever the home's label.
    answered_by: &'static str,
    /// The place on the plan, in the plan's unit.
    at: [Decimal; 2],
    /// One end of the distance that was measured, if it is one on the plan.
    #[serde(skip_serializing_if = "Option::is_none")]
    from: Option<[Decimal; 2]>,
    /// Its other end.
    #[serde(skip_serializing_if = "Option::is_none")]
    to: Option<[Decimal; 2]>,
    /// Corners of the shape that was measured, if it is one.
    #[serde(skip_serializing_if = "Option::is_none")]
    outline: Option<Vec<[Decimal; 2]>>,
}

/// Why a rule does not apply to the home or to one subject.
#[derive(Debug, Serialize, JsonSchema)]
struct DoesNotApplyReport {
    /// Id of the rule.
    rule: &'static str,
    /// Section of the code, where it is certain enough to be printed.
    section: Option<String>,
    /// The element that it does not apply to; null where it does not apply to the home as a whole.
    subject: Option<Id>,
    /// The subject as people call it.
    subject_name: String,
    /// One sentence for people: what the home does not have, or what lets the subject off.
    reason: String,
    /// The exception of the book that was applied; null where there is nothing to judge.
    exception: Option<ExceptionReport>,
    /// Doubts.
    notes: Vec<String>,
}

/// An exception of a book.
#[derive(Debug, Serialize, JsonSchema)]
struct ExceptionReport {
    text: String,
    /// Section of the code, where it is certain enough to be printed.
    section: Option<String>,
}

/// A section of the code.
#[derive(Debug, Serialize, JsonSchema)]
struct ClauseReport {
    section: String,
    /// How sure the number of the section is.
    confidence: &'static str,
    subject: String,
}

/// The verdicts on a home as JSON, for programs; [`check_schema`] describes it.
#[must_use]
pub fn check_json(home: &Home<'_>, selection: &Selection, derived: &Derived, judgement: &Judgement) -> String {
    let units = home.plan.units;
    let of = |outcome| judgement.with_outcome(outcome).map(|verdict| verdict_report(verdict, units)).collect();
    lay_out(&CheckReport {
        mateline_check: 1,
        plan: home.plan.name.clone(),
        maker: home.plan.maker.clone(),
        selection: selection.iter().map(|(choice, alternate)| (choice.clone(), alternate.clone())).collect(),
        reversed: selection.is_reversed(),
        units: units.into(),
        book: BookReport::from(&*judgement.book),
        corrections: of(Outcome::Correction),
        advisories: of(Outcome::Advisory),
        unknown: of(Outcome::Unknown),
        does_not_apply: judgement.does_not_apply().map(does_not_apply).collect(),
        met: of(Outcome::Met),
        problems: problem_reports(derived, units),
        judged: clauses(judgement, Coverage::Judged),
        partly_judged: clauses(judgement, Coverage::Partly),
        not_judged: clauses(judgement, Coverage::NotJudged),
        not_applicable: clauses(judgement, Coverage::DoesNotApply),
        cautions: CAUTIONS.to_vec(),
    })
}

/// The JSON Schema of [`check_json`].
#[must_use]
pub fn check_schema() -> Schema {
    titled(schema_for!(CheckReport), "Mateline check report, version 1")
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
        enter: verdict.enter.clone(),
        notes: verdict.notes.clone(),
        answered_by: verdict.answered_by.word(),
        at: point(verdict.place.at, units),
        from: verdict.place.dimension.map(|[from, _]| point(from, units)),
        to: verdict.place.dimension.map(|[_, to]| point(to, units)),
        outline: (!verdict.place.outline.is_empty())
            .then(|| verdict.place.outline.iter().map(|corner| point(*corner, units)).collect()),
    }
}

fn does_not_apply(verdict: &Verdict) -> DoesNotApplyReport {
    let exception = verdict.exception.as_ref();
    DoesNotApplyReport {
        rule: verdict.rule,
        section: verdict.section.clone(),
        subject: verdict.subject.clone(),
        subject_name: verdict.subject_name.clone(),
        reason: verdict.message.clone(),
        exception: exception
            .map(|applied| ExceptionReport { text: applied.text.clone(), section: applied.section.clone() }),
        notes: verdict.notes.clone(),
    }
}

fn clauses(judgement: &Judgement, coverage: Coverage) -> Vec<ClauseReport> {
    let clause = |clause: &Clause| ClauseReport {
        section: clause.section.clone(),
        confidence: clause.confidence.words(),
        subject: clause.subject.clone(),
    };
    judgement.sections(coverage).map(clause).collect()
}
