//! An amendment as somebody asks for it, and the text that says the same.

use std::collections::BTreeMap;
use std::fmt::Write as _;

use crate::{BookError, Level, Limit, RuleBook};

/// A new figure for a limit, as it was written and as it is read.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct WrittenLimit {
    text: String,
    limit: Limit,
}

impl WrittenLimit {
    /// Reads a figure that is to stand in the place of another; its measure must be the same, its unit need not.
    ///
    /// # Errors
    /// A sentence that says what is wrong with the text.
    pub fn read(text: &str, in_place_of: Limit) -> Result<Self, String> {
        let text = text.trim();
        let limit = match in_place_of {
            Limit::Count(_) => count(text).ok_or_else(|| format!("`{text}` is no whole number from 1 on"))?,
            _ => Limit::parse(text)?,
        };
        let asked = match (in_place_of, limit) {
            (Limit::Length(_), Limit::Length(_))
            | (Limit::Area(_), Limit::Area(_))
            | (Limit::Share(_), Limit::Share(_))
            | (Limit::Count(_), Limit::Count(_)) => return Ok(Self { text: text.to_owned(), limit }),
            (Limit::Length(_), _) => "a length such as 7 ft or 36 in",
            (Limit::Area(_), _) => "an area such as 70 sq ft",
            (Limit::Share(_), _) => "a percentage such as 50 %",
            (Limit::Count(_), _) => "a whole number",
        };
        Err(format!("`{text}` is not {asked}"))
    }

    /// What it says.
    #[must_use]
    pub const fn limit(&self) -> Limit {
        self.limit
    }

    /// As an amendment has it: a number by itself, anything with a unit in quotation marks.
    fn in_toml(&self) -> String {
        match self.limit {
            Limit::Count(count) => count.to_string(),
            _ => quoted(&self.text),
        }
    }
}

fn count(text: &str) -> Option<Limit> {
    let count = text.parse::<u32>().ok().filter(|count| *count > 0)?;
    Some(Limit::Count(plan_model::Exact::from(i128::from(count))))
}

/// What is to become of a rule.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum RuleDraft {
    /// It is judged no longer.
    Dropped,
    /// Some of what the book says of it is otherwise.
    Changed {
        /// Whether it binds, where that changes.
        level: Option<Level>,
        /// New figures, by the names of the limits as [`BookRule::limits`](crate::BookRule::limits) has them.
        limits: BTreeMap<String, WrittenLimit>,
    },
}

/// An amendment that is being written.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct AmendmentDraft {
    /// What it is called.
    pub name: String,
    /// The book, or the amendment, that it is laid over: the id of a built-in one, or the name of a file beside its own.
    pub amends: String,
    /// Who adopted it.
    pub authority: String,
    /// From when on it holds, as the authority writes it.
    pub date: String,
    /// Why it is there.
    pub reason: String,
    /// What becomes of each rule that it changes, by the rule's id.
    pub rules: BTreeMap<&'static str, RuleDraft>,
}

impl AmendmentDraft {
    /// The text of the amendment, as [`RuleBook::amended`] reads it.
    #[must_use]
    pub fn text(&self) -> String {
        let mut text = String::from("mateline_amendment = 1\n");
        let head = [
            ("id", &self.id()),
            ("name", &self.name),
            ("amends", &self.amends),
            ("authority", &self.authority),
            ("date", &self.date),
            ("reason", &self.reason),
        ];
        for (field, value) in head {
            let _ = writeln!(text, "{field} = {}", quoted(value.trim()));
        }
        if self.rules.is_empty() {
            text.push_str("\n[rules]\n");
        }
        for (rule, draft) in &self.rules {
            let _ = writeln!(text, "\n[rules.{rule}]");
            match draft {
                RuleDraft::Dropped => text.push_str("dropped = true\n"),
                RuleDraft::Changed { level, limits } => changed(&mut text, rule, *level, limits),
            }
        }
        text
    }

    /// The book with this laid over it.
    ///
    /// # Errors
    /// As [`RuleBook::amended`], with places in [`Self::text`].
    pub fn laid_over(&self, book: &RuleBook) -> Result<RuleBook, BookError> {
        book.amended(&self.text())
    }

    /// The name as an id: small letters and digits, with hyphens for everything else.
    #[must_use]
    pub fn id(&self) -> String {
        let plain = |c: char| if c.is_ascii_alphanumeric() { c.to_ascii_lowercase() } else { ' ' };
        let words: String = self.name.chars().map(plain).collect();
        let id = words.split_whitespace().collect::<Vec<_>>().join("-");
        if id.is_empty() { "amendment".to_owned() } else { id }
    }
}

/// The limits of a group stand in a table of their own, after those that stand by themselves.
fn changed(text: &mut String, rule: &str, level: Option<Level>, limits: &BTreeMap<String, WrittenLimit>) {
    if let Some(level) = level {
        let _ = writeln!(text, "level = {}", quoted(level.word()));
    }
    let mut groups: BTreeMap<&str, Vec<(&str, &WrittenLimit)>> = BTreeMap::new();
    for (name, limit) in limits {
        let (group, name) = name.rsplit_once('.').unwrap_or(("", name));
        groups.entry(group).or_default().push((name, limit));
    }
    for (group, limits) in groups {
        if !group.is_empty() {
            let _ = writeln!(text, "\n[rules.{rule}.{group}]");
        }
        for (name, limit) in limits {
            let _ = writeln!(text, "{name} = {}", limit.in_toml());
        }
    }
}

/// A basic string of TOML 1.0.
fn quoted(text: &str) -> String {
    let mut quoted = String::from("\"");
    for letter in text.chars() {
        match letter {
            '"' | '\\' => quoted.extend(['\\', letter]),
            control if control.is_control() => {
                let _ = write!(quoted, "\\u{:04x}", u32::from(control));
            }
            letter => quoted.push(letter),
        }
    }
    quoted.push('"');
    quoted
}
