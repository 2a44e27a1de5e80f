use std::borrow::Cow;

use num_rational::Ratio;
use schemars::{JsonSchema, Schema, SchemaGenerator, json_schema};
use serde::{Deserialize, Deserializer, Serialize, Serializer};

use crate::Units;
use crate::file::units_in_force;
use crate::length::{Authored, parse_steps, write_steps};

/// An exact figure in grid steps (lengths) or square grid steps (areas); limits and clear openings use it.
pub type Exact = Ratio<i128>;

/// A length that need not lie on the grid: what a maker publishes, or what a deduction leaves of a unit's size.
///
/// 34.2 in x 24 in is exactly 820.8 sq in this way, which floating point would make 820.8000000000001.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub struct ExactLength(Exact);

impl ExactLength {
    /// From a figure in grid steps.
    #[must_use]
    pub const fn from_steps(steps: Exact) -> Self {
        Self(steps)
    }

    /// The figure in grid steps.
    #[must_use]
    pub const fn steps(self) -> Exact {
        self.0
    }

    /// Reads decimal or feet-and-inches text; a bare number is in `units`.
    ///
    /// # Errors
    /// When the text is not a length.
    pub fn parse(text: &str, units: Units) -> Result<Self, crate::LengthError> {
        parse_steps(text, units).map(Self)
    }
}

impl Serialize for ExactLength {
    fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        write_steps(self.0, units_in_force::get()).serialize(serializer)
    }
}

impl<'de> Deserialize<'de> for ExactLength {
    fn deserialize<D: Deserializer<'de>>(deserializer: D) -> Result<Self, D::Error> {
        let authored = Authored::deserialize(deserializer)?;
        authored.steps(units_in_force::get()).map(Self).map_err(serde::de::Error::custom)
    }
}

impl JsonSchema for ExactLength {
    fn schema_name() -> Cow<'static, str> {
        "ExactLength".into()
    }

    fn json_schema(_: &mut SchemaGenerator) -> Schema {
        json_schema!({
            "description": "A length off the grid: a decimal number in the plan's units, or text such as 34 3/16\" or 867.4 mm.",
            "type": ["number", "string"]
        })
    }
}
