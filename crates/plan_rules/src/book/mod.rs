//! Rule books: a named set of rules with limits, levels and sections, read from TOML text.

mod amendment;
mod book_rule;
mod clause;
mod entry;
mod facts;
mod fields;
mod problem;
mod shelf;
mod source;
mod write;

use std::sync::Arc;

use plan_model::LegalKind;
use toml::de::{DeTable, DeValue};

pub use amendment::{Amendment, Change, Changed};
pub use book_rule::{AnsweredBy, BookRule, Confidence, LetOff, Level};
pub use clause::{Clause, ClauseStatus};
pub(crate) use entry::Entry;
pub use facts::BookFacts;
use fields::{Fields, Layer, Source};
pub use problem::{BookError, BookProblem};
pub use shelf::OpenError;
pub use source::BookSource;
pub use write::{AmendmentDraft, RuleDraft, WrittenLimit};

use crate::{Exception, Rule, registry};

/// The version of the book format that this program reads.
const VERSION: &str = "1";
/// The field that makes a text a book, and says of which version.
const BOOK: &str = "mateline_rule_book";
/// The field that makes a text an amendment.
const AMENDMENT: &str = "mateline_amendment";

/// A named set of rules with limits, levels and sections: a code, with amendments laid over it.
#[derive(Clone, Debug)]
pub struct RuleBook {
    facts: Arc<BookFacts>,
    rules: Vec<BookRule>,
    /// The text of the code, and those of the amendments from the first laid on.
    texts: Vec<Arc<str>>,
    /// The code without its amendments, where there are any.
    code: Option<Arc<RuleBook>>,
}

impl RuleBook {
    /// Reads a book from its TOML text.
    ///
    /// # Errors
    /// Every problem found, each with its line, column and place: text that is not TOML, unknown fields, rules and uses
    /// (with the nearest known name), limits that are missing, 0 or of the wrong kind, a rule that stands twice, control
    /// characters in text, the id of a built-in book over another text, and a judged section of which no clause tells.
    pub fn parse(text: &str) -> Result<Self, BookError> {
        let document = document(text)?;
        let source = Source::of(text);
        let head = Fields::new(String::new(), vec![Layer { source: &source, table: document.get_ref(), span: 0..0 }]);
        check_version(&head, BOOK);
        let (rules, clauses) = read_body(&head);
        let facts = BookFacts {
            id: id(&head, text),
            name: head.text("name"),
            edition: head.text("edition"),
            legal_kind: legal_kind(&head),
            source: BookSource::Text,
            digest: source::digest(text),
            note: head.optional_text("note"),
            clauses,
            amendments: Vec::new(),
            changes: Vec::new(),
        };
        head.finish();
        source.into_result()?;
        Ok(Self { facts: Arc::new(facts), rules, texts: vec![text.into()], code: None })
    }

    /// The book with an amendment laid over it.
    ///
    /// # Errors
    /// Every problem found in the amendment, as in [`Self::parse`]; also a rule dropped that the book does not have.
    pub fn amended(&self, text: &str) -> Result<Self, BookError> {
        let amendment = document(text)?;
        let earlier = self.texts.iter().map(|text| document(text)).collect::<Result<Vec<_>, _>>()?;
        let earlier_sources: Vec<Source<'_>> = self.texts.iter().map(|text| Source::of(text)).collect();
        let source = Source::of(text);
        let own = || Layer { source: &source, table: amendment.get_ref(), span: 0..0 };
        let below = earlier.iter().zip(&earlier_sources);
        let below = below.map(|(document, source)| Layer { source, table: document.get_ref(), span: 0..0 });
        let body = Fields::new(String::new(), below.chain([own()]).collect());
        let (rules, clauses) = read_body(&body);
        let head = Fields::new(String::new(), vec![own()]);
        check_version(&head, AMENDMENT);
        if let Some(own_rules) = head.required_table("rules") {
            for field in own_rules.iter() {
                let entry = own_rules.as_table(field.name, field.value);
                if self.rule(field.name).is_none() && entry.is_some_and(|entry| entry.is_said(DROPPED)) {
                    own_rules
                        .fault_at_name(&field, format!("the book has no rule `{}` that could be dropped", field.name));
                }
            }
        }
        let _ = head.items("clauses");
        let amendment = Amendment::read(&head, text);
        head.finish();
        source.into_result()?;
        let mut facts = (*self.facts).clone();
        facts.clauses = clauses;
        facts.amendments.push(amendment);
        let mut texts = self.texts.clone();
        texts.push(text.into());
        let code = self.code.clone().unwrap_or_else(|| Arc::new(self.clone()));
        let mut amended = Self { facts: Arc::new(facts), rules, texts, code: Some(code) };
        let changes = amended.code().map(|code| amendment::changes(code, &amended)).unwrap_or_default();
        for change in &changes {
            let rule = amended.rules.iter_mut().find(|rule| rule.rule.id == change.rule);
            rule.into_iter().for_each(|rule| rule.amended.push(change.what.to_string()));
        }
        Arc::make_mut(&mut amended.facts).changes = changes;
        Ok(amended)
    }

    /// Opens a book by its name: that of one that comes with the program, else that of a file, which `read` gives. A file
    /// may hold an amendment: it is laid over the book that it names, found in the same way.
    ///
    /// # Errors
    /// A file that cannot be read, a text that is no book or amendment, amendments that are laid over each other in a circle.
    pub fn open<E: std::error::Error>(
        name: &str,
        read: impl Fn(&str) -> Result<String, E>,
    ) -> Result<Self, OpenError<E>> {
        shelf::open(name, &read, &[])
    }

    /// The book with the place that its last text was read from, as reports are to name it.
    #[must_use]
    pub fn found_at(mut self, source: BookSource) -> Self {
        let facts = Arc::make_mut(&mut self.facts);
        match facts.amendments.last_mut() {
            Some(amendment) => amendment.source = source,
            None => facts.source = source,
        }
        self
    }

    /// The ids of the books that come with the program.
    pub fn built_in_ids() -> impl Iterator<Item = &'static str> {
        shelf::BOOKS.iter().map(|(id, _)| *id)
    }

    /// The ids of the amendments that come with the program, as examples.
    pub fn example_ids() -> impl Iterator<Item = &'static str> {
        shelf::AMENDMENTS.iter().map(|(id, _)| *id)
    }

    /// A book that comes with the program, or one of its examples of an amendment laid over its book.
    #[must_use]
    pub fn built_in(id: &str) -> Option<Self> {
        // A test opens each of them, so that a built-in book is never refused.
        Self::open(id, |_| Err(std::fmt::Error)).ok()
    }

    /// The id of the built-in book that a home under this label is judged by when nobody names another.
    #[must_use]
    pub const fn default_id(kind: LegalKind) -> &'static str {
        shelf::default_for(kind)
    }

    /// The built-in book that a home under this label is judged by when nobody names another. There is one for each label; a
    /// test keeps it so.
    #[must_use]
    pub fn default_for(kind: LegalKind) -> Option<Self> {
        Self::built_in(Self::default_id(kind))
    }

    /// The books that come with the program and are for homes under this label: the one for it first, then the others in the
    /// order of their list.
    pub fn built_in_for(kind: LegalKind) -> impl Iterator<Item = Self> {
        let others = Self::built_in_ids().filter(move |id| *id != Self::default_id(kind));
        let all = std::iter::once(Self::default_id(kind)).chain(others);
        all.filter_map(Self::built_in).filter(move |book| book.is_for(kind))
    }

    /// Whether homes under this label may be judged by the book.
    #[must_use]
    pub fn is_for(&self, kind: LegalKind) -> bool {
        self.facts.legal_kind.is_none_or(|own| own == kind)
    }

    /// The code without its amendments, where there are any.
    #[must_use]
    pub fn code(&self) -> Option<&Self> {
        self.code.as_deref()
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

/// The field by which an amendment drops a rule.
const DROPPED: &str = "dropped";

fn read_rules(rules: &Fields<'_>) -> Vec<BookRule> {
    for field in rules.iter().iter().filter(|field| registry().all(|rule| rule.id != field.name)) {
        rules.fault_at_name(field, clause::no_such_rule(field.name));
    }
    let entry = |rule: &'static Rule| Some((rule, Entry::new(rules.optional_table(rule.id)?, rules)));
    let entries = registry().filter_map(entry).filter(|(_, entry)| !entry.fields.is_said(DROPPED));
    entries.map(|(rule, entry)| read_rule(rule, entry)).collect()
}

fn read_rule(rule: &'static Rule, entry: Entry<'_>) -> BookRule {
    let fields = &entry.fields;
    let level = fields.word("level").unwrap_or(Level::Required);
    let section = fields.optional_text("section");
    let confidence = match section {
        Some(_) => fields.word("confidence"),
        None => None,
    };
    let other_editions = fields.optional_table("other_editions").map(|editions| {
        let edition = |field: fields::Field<'_>| {
            Some((field.name.to_owned(), editions.as_text(field.name, field.value)?.to_owned()))
        };
        editions.iter().into_iter().filter_map(edition).collect()
    });
    let figures = fields.optional_word("figures").unwrap_or(Confidence::Confirmed);
    let (measured, lets_off) = (fields.optional_text("measured"), read_let_off(fields, section.as_ref()));
    let exceptions = lets_off.iter().map(|lets_off| lets_off.exception.text.clone());
    let exceptions = exceptions.chain(fields.optional_texts("exceptions")).collect();
    let answered_by = fields.optional_word("answered_by").unwrap_or_default();
    let check = (rule.read)(&entry);
    let (limits, rooms, joined_with) = (entry.limits.take(), entry.rooms.take(), entry.joined_with.take());
    entry.finish();
    BookRule {
        rule,
        level,
        section,
        confidence,
        other_editions: other_editions.unwrap_or_default(),
        figures,
        measured,
        exceptions,
        lets_off,
        answered_by,
        limits,
        rooms,
        joined_with,
        amended: Vec::new(),
        check,
    }
}

/// The rooms that an exception lets off; it stands in the section of the rule unless it names another.
fn read_let_off(fields: &Fields<'_>, section: Option<&String>) -> Option<LetOff> {
    let table = fields.optional_table("lets_off")?;
    let section = table.optional_text("section").or_else(|| section.cloned());
    let exception = Exception { text: table.text("exception"), section };
    let lets_off = LetOff { rooms: table.words("rooms"), exception };
    table.finish();
    Some(lets_off)
}

/// The rules, and the sections with what judges them.
fn read_body(book: &Fields<'_>) -> (Vec<BookRule>, Vec<Clause>) {
    let rules = book.required_table("rules").map(|rules| read_rules(&rules)).unwrap_or_default();
    let clauses = clause::read(book, &rules);
    for rule in rules.iter().filter(|rule| !clauses.iter().any(|clause| clause.rules.contains(&rule.rule.id))) {
        if let Some(section) = &rule.section {
            let message = format!(
                "the rule `{}` judges section {section}, but no entry of [[clauses]] names the rule: the report could not say \
                 what became of the section",
                rule.rule.id
            );
            match book.optional("rules") {
                Some(rules) => book.fault(rules, message),
                None => book.fault_of_all(message),
            }
        }
    }
    (rules, clauses)
}

fn document(text: &str) -> Result<toml::Spanned<DeTable<'_>>, BookError> {
    DeTable::parse(text).map_err(|error| BookError { problems: vec![of_toml(text, &error)] })
}

/// What an amendment is laid over; none for a book.
fn base_of(text: &str) -> Result<Option<String>, BookError> {
    let document = document(text)?;
    let source = Source::of(text);
    let head = Fields::new(String::new(), vec![Layer { source: &source, table: document.get_ref(), span: 0..0 }]);
    let base = head.optional(AMENDMENT).map(|_| head.text("amends"));
    if base.is_some() {
        let missing = head.optional("amends").is_none();
        if missing {
            head.fault_of_all("`amends` is missing");
        }
        source.into_result()?;
    }
    Ok(base)
}

fn check_version(head: &Fields<'_>, name: &'static str) {
    if let Some(version) = head.required(name)
        && !matches!(version.get(), DeValue::Integer(number) if number.as_str() == VERSION)
    {
        head.fault(version, format!("this program reads version {VERSION} of the rule-book format"));
    }
}

/// The label of the homes that a book is for: `any` for all.
fn legal_kind(head: &Fields<'_>) -> Option<LegalKind> {
    let value = head.required("legal_kind")?;
    let is_any = matches!(value.get(), DeValue::String(text) if text == "any");
    if is_any { None } else { head.as_word("legal_kind", value) }
}

/// The id; that of a built-in book belongs to its text alone, so that a report never names a book that it is not.
fn id(head: &Fields<'_>, text: &str) -> String {
    let id = well_formed_id(head);
    let taken = shelf::BOOKS.iter().any(|(built_in, own)| *built_in == id && !own.lines().eq(text.lines()));
    if taken && let Some(value) = head.optional("id") {
        let message = format!("`{id}` is the id of a built-in book with other content; give this one an id of its own");
        head.fault(value, message);
    }
    id
}

fn well_formed_id(head: &Fields<'_>) -> String {
    let id = head.text("id");
    if !plan_model::Id::from(id.as_str()).is_well_formed()
        && let Some(value) = head.optional("id")
    {
        head.fault(value, "an id is made of small letters, digits, hyphens and points");
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
