//! Rule books: a named set of rules with limits, levels and sections, read from TOML text.

mod clause;
mod entry;
mod fields;
mod problem;
mod source;

use std::cell::RefCell;
use std::sync::Arc;

use plan_model::LegalKind;
use plan_model::elements::RoomUse;
use serde::Deserialize;
use toml::de::{DeTable, DeValue};

pub use clause::{Clause, ClauseStatus};
pub(crate) use entry::Entry;
use fields::{Fields, Source};
pub use problem::{BookError, BookProblem};
pub use source::BookSource;

use crate::rule::Check;
use crate::{Limit, Rule, registry};

/// The version of the book format that this program reads.
const VERSION: &str = "1";

/// The books that come with the program: id and text.
const BUILT_IN: [(&str, &str); 1] = [("irc-2021", include_str!("../../../../assets/rule-books/irc-2021.toml"))];

/// What a book is, apart from its rules.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct BookFacts {
    /// Its id, for files and the command line.
    pub id: String,
    /// The code that it holds the limits of.
    pub name: String,
    /// The edition of that code.
    pub edition: String,
    /// The label of the homes that it is for.
    pub legal_kind: LegalKind,
    /// Where its text came from.
    pub source: BookSource,
    /// SHA-256 of its text, in hexadecimal.
    pub digest: String,
    /// What its reader should know, if anything.
    pub note: Option<String>,
    /// The sections of the code, with the rules that judge each.
    pub clauses: Vec<Clause>,
}

/// Whether a rule binds.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Level {
    /// A shortfall is a correction.
    Required,
    /// A shortfall is an advisory.
    Advisory,
}

/// How sure the number of a section is.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Deserialize)]
pub enum Confidence {
    /// Seen in print.
    #[serde(rename = "confirmed")]
    Confirmed,
    /// To be looked up in the adopted text before anyone relies on it.
    #[serde(rename = "confirm with the adopted text")]
    ConfirmWithAdoptedText,
}

impl Confidence {
    /// As in a book.
    #[must_use]
    pub const fn words(self) -> &'static str {
        match self {
            Self::Confirmed => "confirmed",
            Self::ConfirmWithAdoptedText => "confirm with the adopted text",
        }
    }
}

/// A rule as one book has it.
#[derive(Clone, Debug)]
pub struct BookRule {
    /// The rule of the registry.
    pub rule: &'static Rule,
    /// Whether it binds.
    pub level: Level,
    /// The section of the code, where it is certain enough to be printed.
    pub section: Option<String>,
    /// How sure that section is.
    pub confidence: Option<Confidence>,
    /// How the figure is measured, where the book says more than the registry.
    pub measured: Option<String>,
    /// Its limits by name, in the order in which the rule reads them.
    pub limits: Vec<(String, Limit)>,
    /// The room uses that it covers, where it goes by them.
    pub rooms: Vec<RoomUse>,
    /// The uses that join a covered room into one space without being covered.
    pub joined_with: Vec<RoomUse>,
    check: Arc<dyn Check>,
}

impl BookRule {
    /// The limit of this name.
    #[must_use]
    pub fn limit(&self, name: &str) -> Option<Limit> {
        self.limits.iter().find(|(limit, _)| limit == name).map(|(_, limit)| *limit)
    }

    pub(crate) fn check(&self) -> &dyn Check {
        &*self.check
    }

    pub(crate) fn confidence_note(&self) -> Option<String> {
        let section = self.section.as_ref()?;
        (self.confidence == Some(Confidence::ConfirmWithAdoptedText))
            .then(|| format!("confirm the number of section {section} with the adopted text"))
    }
}

/// A named set of rules with limits, levels and sections.
#[derive(Clone, Debug)]
pub struct RuleBook {
    facts: Arc<BookFacts>,
    rules: Vec<BookRule>,
}

impl RuleBook {
    /// Reads a book from its TOML text.
    ///
    /// # Errors
    /// Every problem found, each with its line, column and place: text that is not TOML, unknown fields, rules and uses
    /// (with the nearest known name), limits that are missing, 0 or of the wrong kind, a rule that stands twice, control
    /// characters in text, the id of a built-in book over another text, and a judged section of which no clause tells.
    pub fn parse(text: &str) -> Result<Self, BookError> {
        let document = DeTable::parse(text).map_err(|error| BookError { problems: vec![of_toml(text, &error)] })?;
        let source = Source { text, problems: RefCell::default() };
        let head = Fields::new(&source, String::new(), 0..0, document.get_ref());
        if let Some(version) = head.required("mateline_rule_book")
            && !matches!(version.get_ref(), DeValue::Integer(number) if number.as_str() == VERSION)
        {
            head.fault(version.span(), format!("this program reads version {VERSION} of the rule-book format"));
        }
        let rules = head.required("rules").and_then(|value| head.as_table("rules", value.span(), value));
        let rules = rules.map(|rules| read_rules(&rules)).unwrap_or_default();
        let facts = BookFacts {
            id: id(&head, text),
            name: head.text("name"),
            edition: head.text("edition"),
            // The stand-in is never seen: a book without its legal kind is refused below.
            legal_kind: head.word("legal_kind").unwrap_or(LegalKind::StateLabel),
            source: BookSource::Text,
            digest: source::digest(text),
            note: head.optional_text("note"),
            clauses: clause::read(&head, &rules),
        };
        for rule in rules.iter().filter(|rule| !facts.clauses.iter().any(|clause| clause.rules.contains(&rule.rule.id)))
        {
            if let Some(section) = &rule.section {
                let message = format!(
                    "the rule `{}` judges section {section}, but no entry of [[clauses]] names the rule: the report could not say \
                     what became of the section",
                    rule.rule.id
                );
                head.fault(head.optional("rules").map_or(0..0, toml::Spanned::span), message);
            }
        }
        head.finish();
        let mut problems = source.problems.into_inner();
        // Rules that are judged together read each other's limits and find the same faults.
        problems.sort();
        problems.dedup();
        if problems.is_empty() { Ok(Self { facts: Arc::new(facts), rules }) } else { Err(BookError { problems }) }
    }

    /// The book with the place that its text was read from, as reports are to name it.
    #[must_use]
    pub fn found_at(mut self, source: BookSource) -> Self {
        Arc::make_mut(&mut self.facts).source = source;
        self
    }

    /// The ids of the books that come with the program.
    pub fn built_in_ids() -> impl Iterator<Item = &'static str> {
        BUILT_IN.iter().map(|(id, _)| *id)
    }

    /// A book that comes with the program.
    #[must_use]
    pub fn built_in(id: &str) -> Option<Self> {
        let (_, text) = BUILT_IN.iter().find(|(name, _)| *name == id)?;
        // A test reads each of them, so that a built-in book is never refused.
        Some(Self::parse(text).ok()?.found_at(BookSource::BuiltIn))
    }

    /// What the book is, apart from its rules.
    #[must_use]
    pub fn facts(&self) -> &Arc<BookFacts> {
        &self.facts
    }

    /// Its rules, in the order of the registry.
    #[must_use]
    pub fn rules(&self) -> &[BookRule] {
        &self.rules
    }

    /// The rule of this id, if the book has it.
    #[must_use]
    pub fn rule(&self, id: &str) -> Option<&BookRule> {
        self.rules.iter().find(|rule| rule.rule.id == id)
    }
}

fn read_rules(rules: &Fields<'_>) -> Vec<BookRule> {
    for (name, span, _) in rules.iter().filter(|(name, ..)| registry().all(|rule| rule.id != *name)) {
        rules.fault(span, clause::no_such_rule(name));
    }
    let entry = |rule: &'static Rule| Some((rule, Entry::new(rules.optional_table(rule.id)?, rules)));
    registry().filter_map(entry).map(|(rule, entry)| read_rule(rule, entry)).collect()
}

fn read_rule(rule: &'static Rule, entry: Entry<'_>) -> BookRule {
    let level = entry.fields.word("level").unwrap_or(Level::Required);
    let section = entry.fields.optional_text("section");
    let confidence = match section {
        Some(_) => entry.fields.word("confidence"),
        None => None,
    };
    let measured = entry.fields.optional_text("measured");
    let check = (rule.read)(&entry);
    let (limits, rooms, joined_with) = (entry.limits.take(), entry.rooms.take(), entry.joined_with.take());
    entry.finish();
    BookRule { rule, level, section, confidence, measured, limits, rooms, joined_with, check }
}

/// The id; that of a built-in book belongs to its text alone, so that a report never names a book that it is not.
fn id(head: &Fields<'_>, text: &str) -> String {
    let id = head.text("id");
    if !plan_model::Id::from(id.as_str()).is_well_formed()
        && let Some(value) = head.optional("id")
    {
        head.fault(value.span(), "an id is made of small letters, digits, hyphens and points".to_owned());
    }
    let taken = BUILT_IN.iter().any(|(built_in, own)| *built_in == id && !own.lines().eq(text.lines()));
    if taken && let Some(value) = head.optional("id") {
        let message = format!("`{id}` is the id of a built-in book with other content; give this one an id of its own");
        head.fault(value.span(), message);
    }
    id
}

/// Text that is not TOML; a name that stands twice is said in plain words.
fn of_toml(text: &str, error: &toml::de::Error) -> BookProblem {
    let span = error.span();
    let name = span.clone().and_then(|span| text.get(span));
    let message = match name {
        Some(name) if error.message().contains("duplicate key") => {
            format!("`{name}` stands twice; a rule or field stands once")
        }
        _ => error.message().lines().collect::<Vec<_>>().join("; "),
    };
    BookProblem::new(text, span, "", &message)
}

#[cfg(test)]
mod tests;
