use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

use crate::{AlternateRef, Elements, Id, Money, Point};

/// One question to the buyer.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct Choice {
    /// Name in messages, files and on the command line.
    pub id: Id,
    /// Name on the drawing and in lists.
    pub name: String,
    /// The place on the plan that it changes, if it changes one; it is answered there.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub at: Option<Point>,
    /// The possible answers; exactly one is included in the base price.
    pub alternates: Vec<Alternate>,
}

impl Choice {
    /// The alternate in the base price.
    #[must_use]
    pub fn included(&self) -> Option<&Alternate> {
        self.alternates.iter().find(|alternate| alternate.included)
    }

    /// The alternate of this name.
    #[must_use]
    pub fn alternate(&self, id: &Id) -> Option<&Alternate> {
        self.alternates.iter().find(|alternate| alternate.id == *id)
    }
}

/// How many of some alternates, of whatever choices, are taken in a selection.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct Count {
    /// What is counted, in messages: "cameras and music players".
    pub name: String,
    /// The alternates that are counted.
    pub of: Vec<AlternateRef>,
    /// No fewer than this.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub at_least: Option<usize>,
    /// No more than this.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub at_most: Option<usize>,
    /// Only in selections that take this alternate.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub with: Option<AlternateRef>,
}

/// One answer to a choice.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct Alternate {
    /// Name, unique within its choice.
    pub id: Id,
    /// Name on the drawing and in lists.
    pub name: String,
    /// Whether it is in the base price.
    #[serde(default, skip_serializing_if = "std::ops::Not::not")]
    pub included: bool,
    /// Added to the base price.
    #[serde(default, skip_serializing_if = "Money::is_zero")]
    pub price: Money,
    /// Alternates of other choices without which this one cannot be taken.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub needs: Vec<AlternateRef>,
    /// Alternates of other choices with which this one cannot be taken.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub excludes: Vec<AlternateRef>,
    /// Elements that it takes out of the home, its own choice's or another's.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub removes: Vec<Id>,
    /// Elements that it puts into the home.
    #[serde(default, skip_serializing_if = "Elements::is_empty")]
    pub brings: Elements,
}
