//! What a state or town lays over a code.

use std::fmt;

use super::fields::Fields;
use super::{BookSource, source};
use crate::{Limit, RuleBook, show};

/// A text that changes a book: limits, levels, rules that are dropped, rules that are added.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Amendment {
    /// Its id, for files and reports.
    pub id: String,
    /// What it is called.
    pub name: String,
    /// The book, or the amendment, that it is laid over: the id of a built-in book, or the name of a file beside it.
    pub amends: String,
    /// Who adopted it.
    pub authority: String,
    /// From when on it holds, as the authority writes it.
    pub date: String,
    /// Why it is there.
    pub reason: String,
    /// Where its text came from.
    pub source: BookSource,
    /// SHA-256 of its text, in hexadecimal.
    pub digest: String,
}

impl Amendment {
    pub(super) fn read(head: &Fields<'_>, text: &str) -> Self {
        Self {
            id: super::well_formed_id(head),
            name: head.text("name"),
            amends: head.text("amends"),
            authority: head.text("authority"),
            date: head.text("date"),
            reason: head.text("reason"),
            source: BookSource::Text,
            digest: source::digest(text),
        }
    }
}

/// What amendments changed in one rule.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Change {
    /// The rule's id.
    pub rule: &'static str,
    /// What became of it.
    pub what: Changed,
}

/// What became of a rule.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Changed {
    /// It is judged no longer.
    Dropped,
    /// The code does not have it.
    Added,
    /// A limit of it: its name, as the code has it and as amended; none where one of them has no such limit.
    Limit(String, Option<Limit>, Option<Limit>),
    /// Something else of it: what, as the code has it and as amended, in words.
    Words(&'static str, String, String),
}

/// As a clause: "share_of_floor is 6 %, 8 % in the code".
impl fmt::Display for Changed {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let limit = |limit: &Option<Limit>| limit.map_or_else(|| "none".to_owned(), show::limit);
        match self {
            Self::Dropped => f.write_str("dropped; the code has it"),
            Self::Added => f.write_str("added; the code does not have it"),
            Self::Limit(name, code, amended) => {
                write!(f, "`{name}` is {}, {} in the code", limit(amended), limit(code))
            }
            Self::Words(what, code, amended) => write!(f, "`{what}` is {amended}, {code} in the code"),
        }
    }
}

/// What an amended book has otherwise than the code, in the order of the registry.
pub(super) fn changes(base: &RuleBook, amended: &RuleBook) -> Vec<Change> {
    let mut changes = Vec::new();
    for rule in crate::registry() {
        let mut tell = |what| changes.push(Change { rule: rule.id, what });
        match (base.rule(rule.id), amended.rule(rule.id)) {
            (None, None) => {}
            (Some(_), None) => tell(Changed::Dropped),
            (None, Some(_)) => tell(Changed::Added),
            (Some(old), Some(new)) => {
                for (name, limit) in &old.limits {
                    let now = new.limit(name);
                    if now != Some(*limit) {
                        tell(Changed::Limit(name.clone(), Some(*limit), now));
                    }
                }
                for (name, limit) in new.limits.iter().filter(|(name, _)| old.limit(name).is_none()) {
                    tell(Changed::Limit(name.clone(), None, Some(*limit)));
                }
                if old.level != new.level {
                    tell(Changed::Words("level", old.level.word().to_owned(), new.level.word().to_owned()));
                }
                let words = |rooms: &[plan_model::elements::RoomUse]| {
                    rooms.iter().map(|usage| usage.word()).collect::<Vec<_>>().join(", ")
                };
                if old.rooms != new.rooms {
                    tell(Changed::Words("rooms", words(&old.rooms), words(&new.rooms)));
                }
                if old.lets_off != new.lets_off {
                    let rooms = |rule: &crate::BookRule| match &rule.lets_off {
                        Some(lets_off) => words(&lets_off.rooms),
                        None => "none".to_owned(),
                    };
                    tell(Changed::Words("lets_off", rooms(old), rooms(new)));
                }
            }
        }
    }
    changes
}
