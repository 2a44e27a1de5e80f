use std::collections::BTreeMap;
use std::fmt;
use std::str::FromStr;

use schemars::JsonSchema;
use serde::{Deserialize, Serialize};
use thiserror::Error;

use crate::file::nearest;
use crate::{Id, Plan};

/// One alternate for every choice of a plan, and whether the plan is reversed: a home that can be ordered.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Selection {
    alternates: BTreeMap<Id, Id>,
    reversed: bool,
}

impl Selection {
    /// The selection of every included alternate.
    #[must_use]
    pub fn included(plan: &Plan) -> Self {
        let included = |choice: &crate::Choice| Some((choice.id.clone(), choice.included()?.id.clone()));
        Self { alternates: plan.choices.iter().filter_map(included).collect(), reversed: false }
    }

    /// The alternate chosen for a choice.
    #[must_use]
    pub fn alternate(&self, choice: &Id) -> Option<&Id> {
        self.alternates.get(choice)
    }

    /// The same selection with another answer to one choice.
    ///
    /// # Errors
    /// When the plan has no such choice or alternate; the message names the nearest.
    pub fn with(&self, plan: &Plan, answer: &AlternateRef) -> Result<Self, SelectionError> {
        let unknown_choice = || SelectionError::NoSuchChoice {
            choice: answer.choice.clone(),
            nearest: nearest(answer.choice.as_str(), plan.choices.iter().map(|choice| choice.id.as_str())),
        };
        let choice = plan.choice(&answer.choice).ok_or_else(unknown_choice)?;
        let unknown_alternate = || SelectionError::NoSuchAlternate {
            answer: answer.clone(),
            nearest: nearest(answer.alternate.as_str(), choice.alternates.iter().map(|a| a.id.as_str())),
        };
        let alternate = choice.alternate(&answer.alternate).ok_or_else(unknown_alternate)?;
        let mut alternates = self.alternates.clone();
        alternates.insert(choice.id.clone(), alternate.id.clone());
        Ok(Self { alternates, ..*self })
    }

    /// The same answers for the plan as it is drawn, or for the reversed plan.
    #[must_use]
    pub fn with_reversed(&self, reversed: bool) -> Self {
        Self { reversed, ..self.clone() }
    }

    /// Whether the plan is built mirrored left to right.
    #[must_use]
    pub const fn is_reversed(&self) -> bool {
        self.reversed
    }

    /// Every choice with its chosen alternate, by the choice's name.
    pub fn iter(&self) -> impl Iterator<Item = (&Id, &Id)> {
        self.alternates.iter()
    }

    /// Whether it takes this alternate.
    #[must_use]
    pub fn takes(&self, answer: &AlternateRef) -> bool {
        self.alternate(&answer.choice) == Some(&answer.alternate)
    }
}

/// An answer to a choice, written `CHOICE=ALTERNATE`.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize, JsonSchema)]
#[serde(try_from = "String", into = "String")]
#[schemars(with = "String")]
pub struct AlternateRef {
    /// The choice.
    pub choice: Id,
    /// The alternate.
    pub alternate: Id,
}

impl FromStr for AlternateRef {
    type Err = SelectionError;

    fn from_str(text: &str) -> Result<Self, SelectionError> {
        match text.split_once('=') {
            Some((choice, alternate)) if !choice.is_empty() && !alternate.is_empty() => {
                Ok(Self { choice: choice.into(), alternate: alternate.into() })
            }
            _ => Err(SelectionError::NotAnAnswer(text.to_owned())),
        }
    }
}

impl TryFrom<String> for AlternateRef {
    type Error = SelectionError;

    fn try_from(text: String) -> Result<Self, SelectionError> {
        text.parse()
    }
}

impl From<AlternateRef> for String {
    fn from(answer: AlternateRef) -> Self {
        answer.to_string()
    }
}

impl fmt::Display for AlternateRef {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{}={}", self.choice, self.alternate)
    }
}

/// Why a selection does not fit a plan.
#[derive(Clone, Debug, PartialEq, Eq, Error)]
pub enum SelectionError {
    /// Not of the form `CHOICE=ALTERNATE`.
    #[error("`{0}` is not an answer to a choice; write CHOICE=ALTERNATE")]
    NotAnAnswer(String),
    /// The plan asks no such question.
    #[error("the plan has no choice `{choice}`{}", did_you_mean(.nearest))]
    NoSuchChoice {
        /// What was asked for.
        choice: Id,
        /// The nearest choice of the plan.
        nearest: Option<String>,
    },
    /// The choice has no such answer.
    #[error("the choice `{}` has no alternate `{}`{}", .answer.choice, .answer.alternate, did_you_mean(.nearest))]
    NoSuchAlternate {
        /// What was asked for.
        answer: AlternateRef,
        /// The nearest alternate of the choice.
        nearest: Option<String>,
    },
}

fn did_you_mean(nearest: &Option<String>) -> String {
    nearest.as_ref().map_or_else(String::new, |name| format!("; did you mean `{name}`?"))
}
