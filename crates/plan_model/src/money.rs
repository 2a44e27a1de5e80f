use std::borrow::Cow;
use std::fmt;
use std::iter::Sum;
use std::ops::{Add, Sub};
use std::str::FromStr;

use rust_decimal::Decimal;
use schemars::{JsonSchema, Schema, SchemaGenerator, json_schema};
use serde::{Deserialize, Deserializer, Serialize, Serializer};

/// An amount in the plan's currency, as an exact decimal.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, PartialOrd, Ord)]
pub struct Money(Decimal);

impl Money {
    /// Nothing to pay.
    pub const ZERO: Self = Self(Decimal::ZERO);

    /// The amount.
    #[must_use]
    pub const fn amount(self) -> Decimal {
        self.0
    }

    /// Whether there is nothing to pay.
    #[must_use]
    pub fn is_zero(&self) -> bool {
        self.0.is_zero()
    }
}

impl From<i64> for Money {
    fn from(whole: i64) -> Self {
        Self(whole.into())
    }
}

impl fmt::Display for Money {
    /// Whole amounts without places, others with two or more; thousands apart by commas.
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let shown = self.0.normalize();
        let text =
            if shown.scale() == 0 { shown.to_string() } else { format!("{shown:.*}", shown.scale().max(2) as usize) };
        let (sign, text) = text.strip_prefix('-').map_or(("", text.as_str()), |rest| ("-", rest));
        let (whole, places) = text.split_once('.').map_or((text, None), |(w, p)| (w, Some(p)));
        f.write_str(sign)?;
        for (index, digit) in whole.chars().enumerate() {
            if index > 0 && (whole.len() - index) % 3 == 0 {
                f.write_str(",")?;
            }
            write!(f, "{digit}")?;
        }
        places.map_or(Ok(()), |places| write!(f, ".{places}"))
    }
}

impl Add for Money {
    type Output = Self;
    fn add(self, other: Self) -> Self {
        Self(self.0.saturating_add(other.0))
    }
}

impl Sub for Money {
    type Output = Self;
    fn sub(self, other: Self) -> Self {
        Self(self.0.saturating_sub(other.0))
    }
}

impl Sum for Money {
    fn sum<I: Iterator<Item = Self>>(amounts: I) -> Self {
        amounts.fold(Self::ZERO, Add::add)
    }
}

impl Serialize for Money {
    fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        serializer.serialize_str(&self.0.to_string())
    }
}

impl<'de> Deserialize<'de> for Money {
    fn deserialize<D: Deserializer<'de>>(deserializer: D) -> Result<Self, D::Error> {
        let text = String::deserialize(deserializer)?;
        let refuse =
            || serde::de::Error::custom(format!("`{text}` is not an amount; write decimal text such as \"1250.00\""));
        // No amount of a price book needs more digits; sums of such amounts stay exact.
        if text.len() > 18 {
            return Err(refuse());
        }
        let plain = text.bytes().all(|b| b.is_ascii_digit() || b == b'-' || b == b'.');
        Decimal::from_str(&text).ok().filter(|_| plain).map(Self).ok_or_else(refuse)
    }
}

impl JsonSchema for Money {
    fn schema_name() -> Cow<'static, str> {
        "Money".into()
    }

    fn json_schema(_: &mut SchemaGenerator) -> Schema {
        json_schema!({
            "description": "An amount in the plan's currency as decimal text, such as 1250.00 or -300.",
            "type": "string",
            "pattern": r"^-?[0-9]+(\.[0-9]+)?$",
            "maxLength": 18
        })
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn shows_thousands_and_cents() {
        let show = |text: &str| Money(Decimal::from_str(text).unwrap_or_default()).to_string();
        assert_eq!(show("148900.00"), "148,900");
        assert_eq!(show("-1250.5"), "-1,250.50");
        assert_eq!(show("0"), "0");
    }
}
