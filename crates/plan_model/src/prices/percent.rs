use std::borrow::Cow;
use std::fmt;
use std::str::FromStr;

use rust_decimal::Decimal;
use schemars::{JsonSchema, Schema, SchemaGenerator, json_schema};
use serde::{Deserialize, Deserializer, Serialize, Serializer};

/// A percentage as exact decimal text: `6.25` is 6.25 %, a sixteenth.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub struct Percent(Decimal);

impl Percent {
    /// Longer text is no percentage that people write.
    const LONGEST: usize = 10;

    /// The hundredth part, by which an amount is multiplied.
    #[must_use]
    pub fn factor(self) -> Decimal {
        // Shorter than a decimal by far: two places more always fit, so that nothing is rounded.
        Decimal::from_i128_with_scale(self.0.mantissa(), self.0.scale() + 2)
    }

    /// Whether it takes off.
    #[must_use]
    pub fn is_negative(self) -> bool {
        self.0 < Decimal::ZERO
    }

    /// Whether it lies between nothing and the whole, on either side.
    #[must_use]
    pub fn is_part(self) -> bool {
        !self.0.is_zero() && self.0.abs() <= Decimal::ONE_HUNDRED
    }
}

impl FromStr for Percent {
    type Err = String;

    fn from_str(text: &str) -> Result<Self, String> {
        let plain = text.bytes().all(|b| b.is_ascii_digit() || b == b'-' || b == b'.');
        let read = Decimal::from_str(text).ok().filter(|_| plain && text.len() <= Self::LONGEST);
        read.map(Self).ok_or_else(|| format!("`{text}` is not a percentage; write decimal text such as \"6.25\""))
    }
}

impl fmt::Display for Percent {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{} %", self.0.normalize())
    }
}

impl Serialize for Percent {
    fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        serializer.collect_str(&self.0)
    }
}

impl<'de> Deserialize<'de> for Percent {
    fn deserialize<D: Deserializer<'de>>(deserializer: D) -> Result<Self, D::Error> {
        String::deserialize(deserializer)?.parse().map_err(serde::de::Error::custom)
    }
}

impl JsonSchema for Percent {
    fn schema_name() -> Cow<'static, str> {
        "Percent".into()
    }

    fn json_schema(_: &mut SchemaGenerator) -> Schema {
        json_schema!({
            "description": "A percentage as decimal text, such as 6.25; from -100 to 100, negative for credits only.",
            "type": "string",
            "pattern": r"^-?[0-9]+(\.[0-9]+)?$",
            "maxLength": 10
        })
    }
}
