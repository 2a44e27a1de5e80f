use plan_model::file::nearest;
use serde::Deserialize;

use super::Confidence;
use super::fields::{Fields, Value};
use crate::{BookRule, Rule, registry};

/// A section of the code and which rules judge it.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Clause {
    /// The section.
    pub section: String,
    /// How sure its number is.
    pub confidence: Confidence,
    /// What it is about.
    pub subject: String,
    /// How much of it its rules judge together.
    pub status: ClauseStatus,
    /// Ids of the rules that judge it; none where it is not judged.
    pub rules: Vec<&'static str>,
}

/// How much of a section of the code the rules of this program can judge.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum ClauseStatus {
    /// Every part of it that a plan can show.
    Judged,
    /// Some of it.
    Partly,
    /// Nothing of it.
    NotJudged,
}

impl ClauseStatus {
    /// In a sentence.
    #[must_use]
    pub const fn words(self) -> &'static str {
        match self {
            Self::Judged => "judged",
            Self::Partly => "judged in part",
            Self::NotJudged => "not judged",
        }
    }
}

/// Reads the list of sections, to which amendments may add; the number of a section is as sure as the rules of that section
/// say.
pub(super) fn read(book: &Fields<'_>, rules: &[BookRule]) -> Vec<Clause> {
    book.items("clauses").into_iter().filter_map(|item| read_one(book, rules, item)).collect()
}

fn read_one<'t>(book: &Fields<'t>, rules: &[BookRule], item: Value<'t>) -> Option<Clause> {
    let fields = book.as_table("clauses", item)?;
    let section = fields.text("section");
    let status = fields.word("status").unwrap_or(ClauseStatus::NotJudged);
    let of_section = rules.iter().filter(|rule| rule.section.as_ref() == Some(&section));
    let stated = fields.optional_word("confidence");
    let clause = Clause {
        confidence: of_section.filter_map(|rule| rule.confidence).chain(stated).max().unwrap_or(Confidence::Confirmed),
        subject: fields.text("subject"),
        rules: match status {
            ClauseStatus::NotJudged => Vec::new(),
            ClauseStatus::Judged | ClauseStatus::Partly => judged_by(&fields),
        },
        section,
        status,
    };
    fields.finish();
    Some(clause)
}

fn judged_by(fields: &Fields<'_>) -> Vec<&'static str> {
    let Some(value) = fields.required("rules") else { return Vec::new() };
    let rule = |item| {
        let id = fields.as_text("rules", item)?;
        let known = registry().find(|rule| rule.id == id);
        if known.is_none() {
            fields.fault(item, no_such_rule(id));
        }
        known.map(|rule: &Rule| rule.id)
    };
    fields.as_list("rules", value).filter_map(rule).collect()
}

/// A sentence about a rule that does not exist, with the nearest that does.
pub(super) fn no_such_rule(id: &str) -> String {
    let hint = match nearest(id, registry().map(|rule| rule.id)) {
        Some(meant) => format!("did you mean `{meant}`?"),
        None => format!("expected one of {}", registry().map(|rule| rule.id).collect::<Vec<_>>().join(", ")),
    };
    format!("there is no rule `{id}`; {hint}")
}
