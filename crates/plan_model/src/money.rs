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

    /// Whether it takes off.
    #[must_use]
    pub fn is_negative(&self) -> bool {
        self.0 < Decimal::ZERO
    }

    /// Whether it is a whole number of a currency's smallest unit, which has so many decimal places.
    #[must_use]
    pub fn fits(&self, places: u32) -> bool {
        self.0.normalize().scale() <= places
    }

    /// The product with a factor, exact until it is rounded once to so many decimal places, half away from zero; none where it
    /// is larger than an amount can be.
    #[must_use]
    pub fn times(self, factor: Decimal, places: u32) -> Option<Self> {
        // In whole numbers, because a product of two decimals is rounded unasked where it has too many digits.
        let product = self.0.mantissa().checked_mul(factor.mantissa())?;
        let scale = self.0.scale() + factor.scale();
        let rounded = if scale <= places {
            product.checked_mul(10_i128.checked_pow(places - scale)?)?
        } else {
            let unit = 10_i128.checked_pow(scale - places)?;
            let (whole, rest) = (product / unit, product % unit);
            if rest.abs() >= unit - rest.abs() { whole + rest.signum() } else { whole }
        };
        Decimal::try_from_i128_with_scale(rounded, places).ok().map(Self)
    }

    /// The amount rounded to so many decimal places, half away from zero; none where it is larger than an amount can be.
    #[must_use]
    pub fn rounded(self, places: u32) -> Option<Self> {
        self.times(Decimal::ONE, places)
    }

    /// The exact sum; none where it is larger than an amount can be.
    #[must_use]
    pub fn plus(self, other: Self) -> Option<Self> {
        self.0.checked_add(other.0).map(Self)
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
    /// Whole amounts without places, others with two or more; thousands apart by commas. Asked for places, at least so many:
    /// an amount is never rounded to be shown.
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let shown = self.0.normalize();
        let least = f.precision().unwrap_or(if shown.scale() == 0 { 0 } else { 2 });
        let text = format!("{shown:.*}", least.max(shown.scale() as usize));
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
        assert_eq!(format!("{:.2}", Money::from(148_900)), "148,900.00");
        assert_eq!(format!("{:.2}", Money(Decimal::new(1_255, 3))), "1.255");
    }

    /// Reckoned by hand: 0.125 and 0.135 lie halfway between cents, 0.1249 does not.
    #[test]
    fn halves_are_rounded_away_from_zero() {
        let rounded = |text: &str, places| Money(Decimal::from_str(text).unwrap_or_default()).rounded(places);
        let cases = [("0.125", "0.13"), ("-0.125", "-0.13"), ("0.135", "0.14"), ("0.1249", "0.12"), ("7", "7.00")];
        for (text, expected) in cases {
            assert_eq!(rounded(text, 2).map(|amount| amount.0.to_string()).as_deref(), Some(expected), "{text}");
        }
        assert_eq!(rounded("0.5", 0), Some(Money::from(1)));
        assert_eq!(rounded("-1.4", 0), Some(Money::from(-1)));
    }

    /// A product of 25 digits stays exact; one of more than an amount can hold is none. Whole numbers multiplied beside it.
    #[test]
    fn products_are_exact_or_none() {
        let large = Money(Decimal::from_i128_with_scale(99_999_999_999_999_999, 2));
        let factor = Decimal::from_i128_with_scale(99_999_999, 6);
        let product = large.times(factor, 8).map(|amount| amount.0);
        assert_eq!(product, Some(Decimal::from_i128_with_scale(99_999_999_999_999_999 * 99_999_999, 8)));
        let factor = Decimal::from_i128_with_scale(99_999_999_999_999_999, 0);
        assert_eq!(large.times(factor, 2), None);
    }
}
