//! The fields of one table of a book. Reading never stops at a fault: it notes it, goes on with a stand-in, and the book
//! is refused in the end, so that all faults are told at once.

use std::cell::RefCell;
use std::ops::Range;

use plan_model::file::nearest;
use serde::de::value::{Error as WordError, StrDeserializer};
use serde::de::{DeserializeOwned, IntoDeserializer};
use toml::Spanned;
use toml::de::{DeTable, DeValue};

use super::{BookError, BookProblem};

/// One text of a book, the code itself or an amendment, and what was found wrong with it.
pub(super) struct Source<'t> {
    text: &'t str,
    problems: RefCell<Vec<BookProblem>>,
}

impl<'t> Source<'t> {
    pub(super) const fn of(text: &'t str) -> Self {
        Self { text, problems: RefCell::new(Vec::new()) }
    }

    /// All that was found wrong, if anything was.
    pub(super) fn into_result(self) -> Result<(), BookError> {
        let mut problems = self.problems.into_inner();
        // Rules that are judged together read each other's limits and find the same faults.
        problems.sort();
        problems.dedup();
        if problems.is_empty() { Ok(()) } else { Err(BookError { problems }) }
    }

    fn fault(&self, span: Range<usize>, path: &str, message: &str) {
        self.problems.borrow_mut().push(BookProblem::new(self.text, Some(span), path, message));
    }
}

/// A value with the text that it stands in.
#[derive(Clone, Copy)]
pub(crate) struct Value<'t> {
    source: &'t Source<'t>,
    spanned: &'t Spanned<DeValue<'t>>,
}

impl<'t> Value<'t> {
    pub(super) fn get(self) -> &'t DeValue<'t> {
        self.spanned.get_ref()
    }
}

/// One table as one text has it.
#[derive(Clone)]
pub(super) struct Layer<'t> {
    pub(super) source: &'t Source<'t>,
    pub(super) table: &'t DeTable<'t>,
    pub(super) span: Range<usize>,
}

/// One table of a book: as the code has it, with the amendments laid over it. What a later text says holds.
pub(crate) struct Fields<'t> {
    layers: Vec<Layer<'t>>,
    path: String,
    asked: RefCell<Vec<&'static str>>,
    missing: RefCell<Vec<&'static str>>,
}

impl<'t> Fields<'t> {
    /// `layers` holds at least one.
    pub(super) fn new(path: String, layers: Vec<Layer<'t>>) -> Self {
        Self { layers, path, asked: RefCell::default(), missing: RefCell::default() }
    }

    /// Notes a fault at a value.
    pub(super) fn fault(&self, at: Value<'t>, message: impl AsRef<str>) {
        at.source.fault(at.spanned.span(), &self.path, message.as_ref());
    }

    /// Notes a fault of the table as a whole, in the text that was laid on last.
    pub(super) fn fault_of_all(&self, message: impl AsRef<str>) {
        if let Some(layer) = self.layers.last() {
            layer.source.fault(layer.span.clone(), &self.path, message.as_ref());
        }
    }

    /// Notes a fault at the name of a field.
    pub(super) fn fault_at_name(&self, field: &Field<'t>, message: impl AsRef<str>) {
        field.value.source.fault(field.name_span.clone(), &self.path, message.as_ref());
    }

    /// What each text says of a field, the code first.
    fn all(&self, name: &str) -> impl DoubleEndedIterator<Item = Value<'t>> {
        self.layers.iter().filter_map(move |layer| {
            let (_, spanned) = layer.table.iter().find(|(key, _)| key.get_ref() == name)?;
            Some(Value { source: layer.source, spanned })
        })
    }

    /// The value of a field that may be left out.
    pub(super) fn optional(&self, name: &'static str) -> Option<Value<'t>> {
        self.asked.borrow_mut().push(name);
        self.all(name).next_back()
    }

    /// The value of a field that must be there.
    pub(super) fn required(&self, name: &'static str) -> Option<Value<'t>> {
        let value = self.optional(name);
        if value.is_none() {
            self.missing.borrow_mut().push(name);
        }
        value
    }

    /// Text, if it is text.
    pub(super) fn as_text(&self, name: &str, value: Value<'t>) -> Option<&'t str> {
        let DeValue::String(text) = value.get() else {
            self.fault(value, format!("`{name}` is text in quotation marks, not {}", kind(value.get())));
            return None;
        };
        if let Some(control) = text.chars().find(|c| c.is_control()) {
            self.fault(value, format!("`{name}` holds the control character {}", control.escape_unicode()));
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

    /// A list of texts that may be left out.
    pub(super) fn optional_texts(&self, name: &'static str) -> Vec<String> {
        let Some(value) = self.optional(name) else { return Vec::new() };
        self.as_list(name, value).filter_map(|item| self.as_text(name, item)).map(str::to_owned).collect()
    }

    /// Whether something is so that is not said to be so by being left out.
    pub(super) fn is_said(&self, name: &'static str) -> bool {
        match self.optional(name).map(|value| (value, value.get())) {
            None => false,
            Some((_, DeValue::Boolean(said))) => *said,
            Some((value, other)) => {
                self.fault(value, format!("`{name}` is true or false, not {}", kind(other)));
                false
            }
        }
    }

    /// One of the words of an enumeration.
    pub(super) fn word<T: DeserializeOwned>(&self, name: &'static str) -> Option<T> {
        let value = self.required(name)?;
        self.as_word(name, value)
    }

    /// One of the words of an enumeration, that may be left out.
    pub(super) fn optional_word<T: DeserializeOwned>(&self, name: &'static str) -> Option<T> {
        let value = self.optional(name)?;
        self.as_word(name, value)
    }

    /// One of the words of an enumeration, at a value.
    pub(super) fn as_word<T: DeserializeOwned>(&self, name: &str, value: Value<'t>) -> Option<T> {
        let text = self.as_text(name, value)?;
        parse_word(text).map_err(|hint| self.fault(value, format!("`{name}` cannot be `{text}`{hint}"))).ok()
    }

    /// A list of words; the table must have it, and something in it.
    pub(super) fn words<T: DeserializeOwned>(&self, name: &'static str) -> Vec<T> {
        self.required(name).map(|value| self.as_words(name, value)).unwrap_or_default()
    }

    /// A list of words that may be left out.
    pub(super) fn optional_words<T: DeserializeOwned>(&self, name: &'static str) -> Vec<T> {
        self.optional(name).map(|value| self.as_words(name, value)).unwrap_or_default()
    }

    fn as_words<T: DeserializeOwned>(&self, name: &str, value: Value<'t>) -> Vec<T> {
        self.as_list(name, value).filter_map(|item| self.as_word(name, item)).collect()
    }

    /// The items of a list with something in it.
    pub(super) fn as_list(&self, name: &str, value: Value<'t>) -> impl Iterator<Item = Value<'t>> + use<'t> {
        let items: &[_] = match value.get() {
            DeValue::Array(items) => {
                if items.is_empty() {
                    self.fault(value, format!("`{name}` is empty; expected at least one"));
                }
                items
            }
            other => {
                self.fault(value, format!("`{name}` is a list in brackets, not {}", kind(other)));
                &[]
            }
        };
        items.iter().map(move |spanned| Value { source: value.source, spanned })
    }

    /// The items of a list that may be left out and to which each text adds its own.
    pub(super) fn items(&self, name: &'static str) -> Vec<Value<'t>> {
        self.asked.borrow_mut().push(name);
        self.all(name).flat_map(|value| self.as_list(name, value)).collect()
    }

    /// A table within this one, if it is there.
    pub(super) fn optional_table(&self, name: &'static str) -> Option<Fields<'t>> {
        self.asked.borrow_mut().push(name);
        let layers: Vec<Layer<'t>> = self.all(name).filter_map(|value| self.as_layer(name, value)).collect();
        (!layers.is_empty()).then(|| Fields::new(self.path_to(name), layers))
    }

    /// A table within this one that must be there.
    pub(super) fn required_table(&self, name: &'static str) -> Option<Fields<'t>> {
        let is_there = self.all(name).next().is_some();
        if !is_there {
            self.missing.borrow_mut().push(name);
        }
        self.optional_table(name)
    }

    /// A table at a value.
    pub(super) fn as_table(&self, name: &str, value: Value<'t>) -> Option<Fields<'t>> {
        Some(Fields::new(self.path_to(name), vec![self.as_layer(name, value)?]))
    }

    fn as_layer(&self, name: &str, value: Value<'t>) -> Option<Layer<'t>> {
        let DeValue::Table(table) = value.get() else {
            self.fault(value, format!("`{name}` is a table, not {}", kind(value.get())));
            return None;
        };
        Some(Layer { source: value.source, table, span: value.spanned.span() })
    }

    fn path_to(&self, name: &str) -> String {
        if self.path.is_empty() { name.to_owned() } else { format!("{}.{name}", self.path) }
    }

    /// Every field, once, as the last text has it.
    pub(super) fn iter(&self) -> Vec<Field<'t>> {
        let mut fields: Vec<Field<'t>> = Vec::new();
        for layer in &self.layers {
            for (key, spanned) in layer.table {
                let value = Value { source: layer.source, spanned };
                let field = Field { name: key.get_ref().as_ref(), name_span: key.span(), value };
                match fields.iter_mut().find(|known| known.name == field.name) {
                    Some(known) => *known = field,
                    None => fields.push(field),
                }
            }
        }
        fields
    }

    /// Reports fields that nobody asked for and required ones that are not there. A misspelt one is told once.
    pub(super) fn finish(self) {
        let asked = self.asked.borrow();
        let mut missing = self.missing.borrow().clone();
        for field in self.iter().iter().filter(|field| !asked.contains(&field.name)) {
            let name = field.name;
            let meant = nearest(name, asked.iter().copied());
            missing.retain(|missed| meant.as_deref() != Some(*missed));
            let hint = match &meant {
                Some(meant) => format!("did you mean `{meant}`?"),
                None => format!("expected {}", asked.join(", ")),
            };
            self.fault_at_name(field, format!("unknown field `{name}`; {hint}"));
        }
        for name in missing {
            self.fault_of_all(format!("`{name}` is missing"));
        }
    }
}

/// One field with the place of its name.
pub(super) struct Field<'t> {
    pub(super) name: &'t str,
    pub(super) name_span: Range<usize>,
    pub(super) value: Value<'t>,
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
