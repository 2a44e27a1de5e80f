use std::borrow::Cow;

use plan_model::Exact;
use schemars::{JsonSchema, Schema, SchemaGenerator, json_schema};
use serde::{Serialize, Serializer};
use serde_json::value::RawValue;

/// Places after which a decimal that does not end is rounded.
const PLACES: usize = 12;

/// A figure as a decimal number: exact where it ends within twelve places, else rounded to twelve, halves to even.
///
/// It is kept as text, because a floating-point number could not carry all of its digits.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Decimal(String);

impl From<Exact> for Decimal {
    fn from(value: Exact) -> Self {
        const POWER: i128 = 10_i128.pow(PLACES as u32);
        // The whole part apart, so that what is multiplied stays small.
        let whole = value.floor();
        let scaled = whole.to_integer() * POWER + half_even((value - whole) * Exact::from(POWER));
        let sign = if scaled < 0 { "-" } else { "" };
        let text = format!("{sign}{}.{:0PLACES$}", scaled.abs() / POWER, scaled.abs() % POWER);
        Self(text.trim_end_matches('0').trim_end_matches('.').to_owned())
    }
}

fn half_even(value: Exact) -> i128 {
    let below = value.floor().to_integer();
    match (value - Exact::from(below)).cmp(&Exact::new(1, 2)) {
        std::cmp::Ordering::Less => below,
        std::cmp::Ordering::Greater => below + 1,
        std::cmp::Ordering::Equal => below + below.rem_euclid(2),
    }
}

impl Serialize for Decimal {
    fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        RawValue::from_string(self.0.clone()).map_err(serde::ser::Error::custom)?.serialize(serializer)
    }
}

impl JsonSchema for Decimal {
    fn schema_name() -> Cow<'static, str> {
        "Decimal".into()
    }

    fn json_schema(_: &mut SchemaGenerator) -> Schema {
        json_schema!({
            "description": "Exact where the decimal ends within twelve places, else rounded to twelve, halves to even.",
            "type": "number"
        })
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn written(numerator: i128, denominator: i128) -> String {
        serde_json::to_string(&Decimal::from(Exact::new(numerator, denominator))).expect("a decimal is a number")
    }

    #[test]
    fn exact_where_it_ends() {
        assert_eq!(written(84, 1), "84");
        assert_eq!(written(8208, 10), "820.8");
        assert_eq!(written(167, 2), "83.5");
        assert_eq!(written(0, 1), "0");
        assert_eq!(written(-1, 4), "-0.25");
        assert_eq!(written(1, 4096), "0.000244140625");
    }

    #[test]
    fn rounded_half_to_even_where_it_does_not() {
        assert_eq!(written(1, 3), "0.333333333333");
        assert_eq!(written(-2, 3), "-0.666666666667");
        assert_eq!(written(1, 8192), "0.000122070312"); // 0.0001220703125, the half goes to the even 2
        assert_eq!(written(3, 8192), "0.000366210938"); // 0.0003662109375, the half goes to the even 8
        assert_eq!(written(1_595_000_000, 1_000_001), "1594.998405001595");
    }
}
