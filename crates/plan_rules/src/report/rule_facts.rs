//! What one book says of one rule, line by line: `mateline explain` and the window tell the same.

use crate::{BookRule, show};

/// What a line of a rule is about.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Topic {
    /// Whether it binds, and who answers for it.
    Standing,
    /// The section of the code, with those of other editions.
    Section,
    /// A limit, by its name in the book.
    Limit(String),
    /// The rooms that it covers.
    Rooms,
    /// How the figure is measured.
    Measured,
    /// What it does not ask of.
    Exception,
    /// What an amendment changed, with both figures.
    Amended,
    /// What is to be confirmed with the adopted text.
    Doubt,
}

impl Topic {
    /// What stands before the line, if anything.
    #[must_use]
    pub fn label(&self) -> Option<&str> {
        match self {
            Self::Section => Some("section"),
            Self::Limit(name) => Some(name),
            Self::Rooms => Some("rooms"),
            Self::Measured => Some("measured"),
            Self::Exception => Some("exception"),
            Self::Amended => Some("amended"),
            Self::Standing | Self::Doubt => None,
        }
    }
}

/// A line of a rule.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct RuleFact {
    /// What it is about.
    pub topic: Topic,
    /// What it says.
    pub text: String,
}

/// All that a book says of a rule, in the order in which it is told.
#[must_use]
pub fn rule_facts(rule: &BookRule) -> Vec<RuleFact> {
    let fact = |topic, text: &str| RuleFact { topic, text: text.to_owned() };
    let standing = format!("{}, answered for by the {}", rule.level.word(), rule.answered_by.word());
    let mut facts = vec![fact(Topic::Standing, &standing)];
    if let Some(section) = &rule.section {
        let editions = rule.other_editions.iter().map(|(edition, section)| format!("{section} in {edition}"));
        let editions: Vec<String> = editions.collect();
        let others = if editions.is_empty() { String::new() } else { format!(" ({})", editions.join(", ")) };
        facts.push(fact(Topic::Section, &format!("{section}{others}")));
    }
    facts.extend(rule.limits.iter().map(|(name, limit)| fact(Topic::Limit(name.clone()), &show::limit(*limit))));
    if !rule.rooms.is_empty() {
        let rooms: Vec<&str> = rule.rooms.iter().map(|usage| usage.word()).collect();
        facts.push(fact(Topic::Rooms, &rooms.join(", ")));
    }
    facts.extend(rule.measured.iter().map(|measured| fact(Topic::Measured, measured)));
    facts.extend(rule.exceptions.iter().map(|exception| fact(Topic::Exception, exception)));
    facts.extend(rule.amended.iter().map(|change| fact(Topic::Amended, change)));
    facts.extend(rule.confidence_note().map(|note| fact(Topic::Doubt, &note)));
    facts
}
