//! The fields of one table of a book. Reading never stops at a fault: it notes it, goes on with a stand-in, and the book
//! is refused in the end, so that all faults are told at once.

use std::cell::RefCell;
use std::ops::Range;

use plan_model::file::nearest;
use serde::de::value::{Error as WordError, StrDeserializer};
use serde::de::{DeserializeOwned, IntoDeserializer};
use toml::Spanned;
use toml::de::{DeTable, DeValue};

use super::BookProblem;

/// The text of a book and what was found wrong with it.
pub(super) struct Source<'t> {
    pub(super) text: &'t str,
    pub(super) problems: RefCell<Vec<BookProblem>>,
}

/// One table of a book.
pub(crate) struct Fields<'t> {
    source: &'t Source<'t>,
    path: String,
    span: Range<usize>,
    table: &'t DeTable<'t>,
    asked: RefCell<Vec<&'static str>>,
    missing: RefCell<Vec<&'static str>>,
}

impl<'t> Fields<'t> {
    pub(super) fn new(source: &'t Source<'t>, path: String, span: Range<usize>, table: &'t DeTable<'t>) -> Self {
        Self { source, path, span, table, asked: RefCell::default(), missing: RefCell::default() }
    }

    /// Notes a fault at a place of the book.
    pub(super) fn fault(&self, span: Range<usize>, message: impl Into<String>) {
        let problem = BookProblem::new(self.source.text, Some(span), &self.path, &message.into());
        self.source.problems.borrow_mut().push(problem);
    }

    /// Notes a fault of the table as a whole.
    pub(super) fn fault_of_all(&self, message: impl Into<String>) {
        self.fault(self.span.clone(), message);
    }

    /// The value of a field that may be left out.
    pub(super) fn optional(&self, name: &'static str) -> Option<&'t Spanned<DeValue<'t>>> {
        self.asked.borrow_mut().push(name);
        self.table.iter().find(|(key, _)| key.get_ref() == name).map(|(_, value)| value)
    }

    /// The value of a field that must be there.
    pub(super) fn required(&self, name: &'static str) -> Option<&'t Spanned<DeValue<'t>>> {
        let value = self.optional(name);
        if value.is_none() {
            self.missing.borrow_mut().push(name);
        }
        value
    }

    /// Text, if it is text.
    pub(super) fn as_text(&self, name: &str, value: &'t Spanned<DeValue<'t>>) -> Option<&'t str> {
        let DeValue::String(text) = value.get_ref() else {
            self.fault(value.span(), format!("`{name}` is text in quotation marks, not {}", kind(value.get_ref())));
            return None;
        };
        if let Some(control) = text.chars().find(|c| c.is_control()) {
            self.fault(value.span(), format!("`{name}` holds the control character {}", control.escape_unicode()));
            return None;
        }
        Some(text)
    }

    /// Required text.
    pub(super) fn text(&self, name: &'static str) -> String {
        self.required(name).and_then(|value| self.as_text(name, value)).unwrap_or_default().to_owned()
    }

    /// Text that may be left out.
    pub(super) fn optional_text(&self, name: &'static str) -> Option<String> {
        self.optional(name).and_then(|value| self.as_text(name, value)).map(str::to_owned)
    }

    /// One of the words of an enumeration.
    pub(super) fn word<T: DeserializeOwned>(&self, name: &'static str) -> Option<T> {
        let value = self.required(name)?;
        self.as_word(name, value)
    }

    /// One of the words of an enumeration, at a value.
    pub(super) fn as_word<T: DeserializeOwned>(&self, name: &str, value: &'t Spanned<DeValue<'t>>) -> Option<T> {
        let text = self.as_text(name, value)?;
        parse_word(text).map_err(|hint| self.fault(value.span(), format!("`{name}` cannot be `{text}`{hint}"))).ok()
    }

    /// A list of words; the table must have it, and something in it.
    pub(super) fn words<T: DeserializeOwned>(&self, name: &'static str) -> Vec<T> {
        self.required(name).map(|value| self.as_words(name, value)).unwrap_or_default()
    }

    /// A list of words that may be left out.
    pub(super) fn optional_words<T: DeserializeOwned>(&self, name: &'static str) -> Vec<T> {
        self.optional(name).map(|value| self.as_words(name, value)).unwrap_or_default()
    }

    fn as_words<T: DeserializeOwned>(&self, name: &str, value: &'t Spanned<DeValue<'t>>) -> Vec<T> {
        self.as_list(name, value).iter().filter_map(|item| self.as_word(name, item)).collect()
    }

    /// The items of a list with something in it.
    pub(super) fn as_list(&self, name: &str, value: &'t Spanned<DeValue<'t>>) -> &'t [Spanned<DeValue<'t>>] {
        let DeValue::Array(items) = value.get_ref() else {
            self.fault(value.span(), format!("`{name}` is a list in brackets, not {}", kind(value.get_ref())));
            return &[];
        };
        if items.is_empty() {
            self.fault(value.span(), format!("`{name}` is empty; expected at least one"));
        }
        items
    }

    /// A table within this one, if it is there.
    pub(super) fn optional_table(&self, name: &'static str) -> Option<Fields<'t>> {
        let value = self.optional(name)?;
        self.as_table(name, value.span(), value)
    }

    /// A table at a value.
    pub(super) fn as_table(
        &self,
        name: &str,
        span: Range<usize>,
        value: &'t Spanned<DeValue<'t>>,
    ) -> Option<Fields<'t>> {
        let DeValue::Table(table) = value.get_ref() else {
            self.fault(value.span(), format!("`{name}` is a table, not {}", kind(value.get_ref())));
            return None;
        };
        let path = if self.path.is_empty() { name.to_owned() } else { format!("{}.{name}", self.path) };
        Some(Fields::new(self.source, path, span, table))
    }

    /// Every field by name, with the place of the name.
    pub(super) fn iter(&self) -> impl Iterator<Item = (&'t str, Range<usize>, &'t Spanned<DeValue<'t>>)> {
        self.table.iter().map(|(key, value)| (key.get_ref().as_ref(), key.span(), value))
    }

    /// Reports fields that nobody asked for and required ones that are not there. A misspelt one is told once.
    pub(super) fn finish(self) {
        let asked = self.asked.borrow();
        let mut missing = self.missing.borrow().clone();
        for (name, span, _) in self.iter().filter(|(name, ..)| !asked.contains(name)) {
            let meant = nearest(name, asked.iter().copied());
            missing.retain(|missed| meant.as_deref() != Some(*missed));
            let hint = match &meant {
                Some(meant) => format!("did you mean `{meant}`?"),
                None => format!("expected {}", asked.join(", ")),
            };
            self.fault(span, format!("unknown field `{name}`; {hint}"));
        }
        for name in missing {
            self.fault_of_all(format!("`{name}` is missing"));
        }
    }
}

/// Reads a word of an enumeration; the error is the rest of a sentence that names the nearest word.
pub(super) fn parse_word<T: DeserializeOwned>(text: &str) -> Result<T, String> {
    let word: StrDeserializer<'_, WordError> = text.into_deserializer();
    T::deserialize(word).map_err(|error| {
        let message = error.to_string();
        let (_, expected) = message.split_once("expected ").unwrap_or_default();
        let words: Vec<&str> = expected.split('`').skip(1).step_by(2).collect();
        match nearest(text, words.iter().copied()) {
            Some(word) => format!("; did you mean `{word}`?"),
            None => format!("; expected one of {}", words.join(", ")),
        }
    })
}

const fn kind(value: &DeValue<'_>) -> &'static str {
    match value {
        DeValue::String(_) => "text",
        DeValue::Integer(_) | DeValue::Float(_) => "a bare number",
        DeValue::Boolean(_) => "true or false",
        DeValue::Datetime(_) => "a date",
        DeValue::Array(_) => "a list",
        DeValue::Table(_) => "a table",
    }
}
