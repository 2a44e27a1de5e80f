//! The entry of one rule in a book, as the rule reads it.

use std::cell::RefCell;
use std::rc::Rc;

use plan_model::elements::RoomUse;
use plan_model::{Exact, Length};
use serde::Deserialize;
use serde::de::IntoDeserializer;
use serde::de::value::{Error as WordError, StrDeserializer};
use toml::de::DeValue;

use super::fields::{Fields, Value};
use crate::Limit;

/// What a rule reads its limits from. Whatever is missing or wrong is noted, and the book refused once all is read.
pub(crate) struct Entry<'t> {
    pub(super) fields: Fields<'t>,
    /// All entries of the book, for rules that are judged together.
    pub(super) rules: &'t Fields<'t>,
    /// What was read, for show and for reports; those of a group under the group's name and their own.
    pub(super) limits: Rc<RefCell<Vec<(String, Limit)>>>,
    /// What the names of its limits begin with.
    group: String,
    pub(super) rooms: RefCell<Vec<RoomUse>>,
    pub(super) joined_with: RefCell<Vec<RoomUse>>,
}

impl<'t> Entry<'t> {
    pub(super) fn new(fields: Fields<'t>, rules: &'t Fields<'t>) -> Self {
        Self {
            fields,
            rules,
            limits: Rc::default(),
            group: String::new(),
            rooms: RefCell::default(),
            joined_with: RefCell::default(),
        }
    }

    /// A length limit, in grid steps.
    pub(crate) fn length(&self, name: &'static str) -> Exact {
        self.fields.required(name).and_then(|value| self.as_length(name, value)).unwrap_or_default()
    }

    /// The same, where it may be left out.
    pub(crate) fn optional_length(&self, name: &'static str) -> Option<Exact> {
        self.fields.optional(name).and_then(|value| self.as_length(name, value))
    }

    /// A length limit that must lie on the grid, because shapes of that size are laid out.
    pub(crate) fn grid_length(&self, name: &'static str) -> Length {
        self.fields.required(name).map(|value| self.as_grid_length(name, value)).unwrap_or_default()
    }

    /// The same, where it may be left out.
    pub(crate) fn optional_grid_length(&self, name: &'static str) -> Option<Length> {
        self.fields.optional(name).map(|value| self.as_grid_length(name, value))
    }

    fn as_grid_length(&self, name: &'static str, value: Value<'t>) -> Length {
        let steps = self.as_length(name, value).unwrap_or_default();
        let on_grid = Some(steps).filter(Exact::is_integer).and_then(|steps| i64::try_from(steps.to_integer()).ok());
        on_grid.map(Length::from_steps).unwrap_or_else(|| {
            self.fields.fault(value, format!("`{name}` does not lie on the grid of 1/640 mm"));
            Length::ZERO
        })
    }

    /// An area limit, in square grid steps.
    pub(crate) fn area(&self, name: &'static str) -> Exact {
        self.fields.required(name).and_then(|value| self.as_area(name, value)).unwrap_or_default()
    }

    fn as_area(&self, name: &'static str, value: Value<'t>) -> Option<Exact> {
        match self.as_limit(name, value)? {
            Limit::Area(area) => Some(area),
            other => Some(self.wrong_kind(name, value, "an area such as \"70 sq ft\"", other)),
        }
    }

    /// A part of a whole, between 0 and 1.
    pub(crate) fn share(&self, name: &'static str) -> Exact {
        let Some(value) = self.fields.required(name) else { return Exact::default() };
        match self.as_limit(name, value) {
            Some(Limit::Share(share)) => share,
            Some(other) => self.wrong_kind(name, value, "a percentage such as \"50 %\"", other),
            None => Exact::default(),
        }
    }

    /// The same, where it may be left out.
    pub(crate) fn optional_share(&self, name: &'static str) -> Option<Exact> {
        self.fields.optional(name).map(|_| self.share(name))
    }

    /// Whether the book says that something is so.
    pub(crate) fn is_said(&self, name: &'static str) -> bool {
        self.fields.is_said(name)
    }

    /// How many: a whole number from 1 on, without quotation marks.
    pub(crate) fn count(&self, name: &'static str) -> Exact {
        let Some(value) = self.fields.required(name) else { return Exact::default() };
        let count = match value.get() {
            DeValue::Integer(number) => number.as_str().parse::<u32>().ok().filter(|count| *count > 0),
            _ => None,
        };
        let Some(count) = count else {
            self.fields.fault(value, format!("`{name}` is a whole number from 1 on, without quotation marks"));
            return Exact::default();
        };
        let count = Exact::from(i128::from(count));
        self.note(name, Limit::Count(count));
        count
    }

    fn note(&self, name: &str, limit: Limit) {
        self.limits.borrow_mut().push((format!("{}{name}", self.group), limit));
    }

    /// The room uses that the rule covers.
    pub(crate) fn rooms(&self) -> Vec<RoomUse> {
        let rooms = self.uses("rooms");
        self.rooms.borrow_mut().clone_from(&rooms);
        rooms
    }

    /// The room uses that join a covered room into one space without being covered; may be left out.
    pub(crate) fn joined_with(&self) -> Vec<RoomUse> {
        let uses = self.fields.optional_words("joined_with");
        self.joined_with.borrow_mut().clone_from(&uses);
        uses
    }

    /// A list of room uses.
    pub(crate) fn uses(&self, name: &'static str) -> Vec<RoomUse> {
        self.fields.words(name)
    }

    /// A length limit for each of several room uses, which are those that the rule covers.
    pub(crate) fn lengths_by_use(&self, name: &'static str) -> Vec<(RoomUse, Exact)> {
        let Some(group) = self.fields.required_table(name).map(|table| self.grouped(name, table)) else {
            return Vec::new();
        };
        let by_use = group.fields.iter().into_iter().filter_map(|field| {
            let parsed: StrDeserializer<'_, WordError> = field.name.into_deserializer();
            let Ok(usage) = RoomUse::deserialize(parsed) else {
                let message = format!("`{}` is no use of a room{}", field.name, nearest_use(field.name));
                group.fields.fault_at_name(&field, message);
                return None;
            };
            Some((usage, group.as_length(field.name, field.value)?))
        });
        let by_use: Vec<_> = by_use.collect();
        *self.rooms.borrow_mut() = by_use.iter().map(|(usage, _)| *usage).collect();
        by_use
    }

    /// A group of further limits, if the book has it.
    pub(crate) fn group(&self, name: &'static str) -> Option<Entry<'t>> {
        Some(self.grouped(name, self.fields.optional_table(name)?))
    }

    fn grouped(&self, name: &str, fields: Fields<'t>) -> Entry<'t> {
        let group = format!("{}{name}.", self.group);
        Entry { limits: Rc::clone(&self.limits), group, ..Entry::new(fields, self.rules) }
    }

    /// Closes a group, so that fields that nobody knows are reported.
    pub(crate) fn finish(self) {
        self.fields.finish();
    }

    /// The entry of another rule that is judged together with this one, if the book has it. Its faults are its own to
    /// report; the same fault found twice is told once.
    pub(crate) fn beside(&self, rule: &'static str) -> Option<Entry<'t>> {
        Some(Entry::new(self.rules.optional_table(rule)?, self.rules))
    }

    fn as_length(&self, name: &str, value: Value<'t>) -> Option<Exact> {
        match self.as_limit(name, value)? {
            Limit::Length(length) => Some(length),
            other => Some(self.wrong_kind(name, value, "a length such as \"7 ft\" or \"36 in\"", other)),
        }
    }

    fn as_limit(&self, name: &str, value: Value<'t>) -> Option<Limit> {
        let text = self.fields.as_text(name, value)?;
        let limit = Limit::parse(text).map_err(|message| self.fields.fault(value, message)).ok()?;
        // Nothing falls short of 0, and no part is more than the whole.
        match limit {
            Limit::Length(figure) | Limit::Area(figure) | Limit::Share(figure) if figure == Exact::from(0) => {
                let hint = "a rule that asks for nothing is left out of the book";
                self.fields.fault(value, format!("`{name}` cannot be 0; {hint}"));
            }
            Limit::Share(share) if share > Exact::from(1) => {
                self.fields.fault(value, format!("`{name}` cannot be more than 100 %"));
            }
            _ => {}
        }
        self.note(name, limit);
        Some(limit)
    }

    fn wrong_kind(&self, name: &str, value: Value<'t>, expected: &str, found: Limit) -> Exact {
        let found = match found {
            Limit::Length(_) => "a length",
            Limit::Area(_) => "an area",
            Limit::Share(_) => "a percentage",
            Limit::Count(_) => "a number",
        };
        self.fields.fault(value, format!("`{name}` is {expected}, not {found}"));
        Exact::default()
    }
}

fn nearest_use(word: &str) -> String {
    super::fields::parse_word::<RoomUse>(word).err().unwrap_or_default()
}
