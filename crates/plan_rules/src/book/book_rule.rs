//! A rule with what one book says of it.

use std::sync::Arc;

use plan_model::elements::RoomUse;
use serde::Deserialize;

use crate::rule::Check;
use crate::{Exception, Limit, Rule};

/// Whether a rule binds.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Level {
    /// A shortfall is a correction.
    Required,
    /// A shortfall is an advisory.
    Advisory,
}

impl Level {
    /// As in a book.
    #[must_use]
    pub const fn word(self) -> &'static str {
        match self {
            Self::Required => "required",
            Self::Advisory => "advisory",
        }
    }
}

/// How sure something of a book is: a limit, or the number of a section.
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

/// Who answers for what a rule asks.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum AnsweredBy {
    /// Whoever builds the home.
    #[default]
    Factory,
    /// Whoever sets it up on its site, under local code whatever the home's label: porches, landings, steps, grade.
    Site,
}

impl AnsweredBy {
    /// As in a book.
    #[must_use]
    pub const fn word(self) -> &'static str {
        match self {
            Self::Factory => "factory",
            Self::Site => "site",
        }
    }
}

/// An exception for rooms of some uses: those that a rule does not cover, and would if it did not except them.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct LetOff {
    /// The uses of the rooms.
    pub rooms: Vec<RoomUse>,
    /// What it says and where it stands.
    pub exception: Exception,
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
    /// Other editions and the section that the rule has there, where that was seen in print.
    pub other_editions: Vec<(String, String)>,
    /// How sure its limits are.
    pub figures: Confidence,
    /// How the figure is measured, where the book says more than the registry.
    pub measured: Option<String>,
    /// What it does not ask of; first what [`Self::lets_off`] says.
    pub exceptions: Vec<String>,
    /// The rooms that an exception lets off, where one does.
    pub lets_off: Option<LetOff>,
    /// Who answers for it.
    pub answered_by: AnsweredBy,
    /// Its limits by name, in the order in which the rule reads them; those of a group as `group.name`.
    pub limits: Vec<(String, Limit)>,
    /// The room uses that it covers, where it goes by them.
    pub rooms: Vec<RoomUse>,
    /// The uses that join a covered room into one space without being covered.
    pub joined_with: Vec<RoomUse>,
    /// What amendments changed in it, a clause for each with both figures.
    pub amended: Vec<String>,
    pub(super) check: Arc<dyn Check>,
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

    /// That the number of its section is to be looked up in the adopted text, where it is.
    pub(crate) fn section_note(&self) -> Option<String> {
        let section = self.section.as_ref().filter(|_| self.confidence == Some(Confidence::ConfirmWithAdoptedText))?;
        Some(format!("confirm the number of section {section} with the adopted text"))
    }

    /// What of the rule is to be looked up in the adopted text before anyone relies on a verdict.
    pub(crate) fn confidence_note(&self) -> Option<String> {
        let figures = self.figures == Confidence::ConfirmWithAdoptedText;
        let doubtful = self.confidence == Some(Confidence::ConfirmWithAdoptedText);
        match (figures, self.section.as_ref().filter(|_| doubtful)) {
            (true, Some(section)) => Some(format!("confirm the limit and its section {section} with the adopted text")),
            (true, None) => Some("confirm the limit with the adopted text".to_owned()),
            (false, Some(_)) => self.section_note(),
            (false, None) => None,
        }
    }
}
