use std::fmt;

use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

use super::Percent;
use super::fields::LineFields;
use crate::elements::{FixtureKind, RoomUse};
use crate::{Id, Money};

/// A line of a price book: what it is for, and what it comes to.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(try_from = "LineFields", into = "LineFields")]
#[schemars(with = "LineFields")]
pub struct PriceLine {
    /// Name in files and reports, and for percentages of it.
    pub id: Id,
    /// Name on quotes.
    pub name: String,
    /// What it is.
    pub kind: LineKind,
    /// What it comes to.
    pub basis: Basis,
}

/// What a line is. Credits take off, all others add.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(rename_all = "kebab-case")]
pub enum LineKind {
    /// Any other charge.
    Charge,
    /// Money set aside in the price for what is picked later.
    Allowance,
    /// Taken off.
    Credit,
    /// Setting and joining the modules on the lot.
    SetUp,
    /// Carrying the modules to the lot.
    Freight,
    /// A percentage of the lines that are taxed.
    Tax,
}

/// What a line comes to, before it is rounded to the currency's places.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Basis {
    /// Always the same.
    Amount(Money),
    /// So much for each of what the home holds.
    Each {
        /// For one.
        price: Money,
        /// Of these.
        per: Per,
    },
    /// A percentage.
    Percent {
        /// How much.
        percent: Percent,
        /// Of the sum of these, as rounded.
        of: Vec<PercentOf>,
    },
}

/// What is counted in a home.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(rename_all = "kebab-case")]
pub enum Per {
    /// Each whole square foot of the heated area, as the published method tells it.
    HeatedSquareFoot,
    /// Each square metre of the heated area, told to the nearest hundredth.
    HeatedSquareMetre,
    /// Each factory-built module.
    Module,
    /// Each room of this use.
    Rooms(RoomUse),
    /// Each element of this kind.
    Elements(ElementKind),
    /// Each fixture of this kind.
    Fixtures(FixtureKind),
}

impl fmt::Display for Per {
    /// What is counted, as a quote names it: `sq ft of heated area`, `modules`, `rooms: bedroom`.
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::HeatedSquareFoot => f.write_str("sq ft of heated area"),
            Self::HeatedSquareMetre => f.write_str("sq m of heated area"),
            Self::Module => f.write_str("modules"),
            Self::Rooms(usage) => write!(f, "rooms: {}", usage.word()),
            Self::Elements(kind) => f.write_str(kind.word()),
            Self::Fixtures(kind) => write!(f, "fixtures: {}", kind.word()),
        }
    }
}

/// A kind of element that is counted.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(rename_all = "kebab-case")]
pub enum ElementKind {
    /// Doors with a leaf; one through the mate line is one.
    Doors,
    /// Openings without a leaf; one through the mate line is one.
    CasedOpenings,
    /// Windows.
    Windows,
    /// Posts and chases.
    Columns,
    /// Fixtures of all kinds.
    Fixtures,
    /// Smoke and carbon monoxide alarms.
    Detectors,
    /// Local exhaust fans.
    Fans,
    /// Landings at outside doors.
    Landings,
    /// Porches and decks.
    Porches,
}

impl ElementKind {
    /// The word for several of them.
    #[must_use]
    pub const fn word(self) -> &'static str {
        match self {
            Self::Doors => "doors",
            Self::CasedOpenings => "cased openings",
            Self::Windows => "windows",
            Self::Columns => "columns",
            Self::Fixtures => "fixtures",
            Self::Detectors => "detectors",
            Self::Fans => "fans",
            Self::Landings => "landings",
            Self::Porches => "porches",
        }
    }
}

/// What a percentage is of.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(from = "String", into = "String")]
#[schemars(with = "String")]
pub enum PercentOf {
    /// The base price.
    Base,
    /// What all chosen alternates add and take off.
    Options,
    /// Everything above the line.
    Subtotal,
    /// A line above.
    Line(Id),
}

impl PercentOf {
    /// The words that are no line's id.
    pub(crate) const WORDS: [&str; 3] = ["base", "options", "subtotal"];

    /// The word for it in files.
    #[must_use]
    pub fn word(&self) -> &str {
        match self {
            Self::Base => "base",
            Self::Options => "options",
            Self::Subtotal => "subtotal",
            Self::Line(id) => id.as_str(),
        }
    }
}

impl From<String> for PercentOf {
    fn from(word: String) -> Self {
        match word.as_str() {
            "base" => Self::Base,
            "options" => Self::Options,
            "subtotal" => Self::Subtotal,
            _ => Self::Line(word.into()),
        }
    }
}

impl From<PercentOf> for String {
    fn from(of: PercentOf) -> Self {
        of.word().to_owned()
    }
}
