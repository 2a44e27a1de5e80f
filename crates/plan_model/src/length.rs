//! Lengths on the grid, and the text that people write for them.

use std::borrow::Cow;
use std::fmt;
use std::iter::Sum;
use std::ops::{Add, AddAssign, Mul, Neg, Sub};

use schemars::{JsonSchema, Schema, SchemaGenerator, json_schema};
use serde::{Deserialize, Deserializer, Serialize, Serializer};
use thiserror::Error;

use crate::file::units_in_force;
use crate::{Exact, Units};

/// A length in whole steps of 1/640 mm.
///
/// One inch is 16,256 steps and 1/64 in is 254, so that sixty-fourths, their halves and millimetres are all exact.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct Length(i64);

impl Length {
    /// No length.
    pub const ZERO: Self = Self(0);
    /// One inch.
    pub const INCH: Self = Self(Units::In.steps());
    /// One foot.
    pub const FOOT: Self = Self(12 * Units::In.steps());
    /// The largest coordinate or size that a plan may hold: 200 m. Differences of places twice as fine still fit in 32 bits
    /// of grid, with room for joints that reach beyond.
    pub const LARGEST: Self = Self(128_000_000);

    /// From grid steps.
    #[must_use]
    pub const fn from_steps(steps: i64) -> Self {
        Self(steps)
    }

    /// From whole inches.
    #[must_use]
    pub const fn inches(inches: i64) -> Self {
        Self(inches * Units::In.steps())
    }

    /// In grid steps.
    #[must_use]
    pub const fn steps(self) -> i64 {
        self.0
    }

    /// In inches, for drawing only: never for a comparison with a limit.
    #[must_use]
    #[expect(clippy::cast_precision_loss, reason = "a grid coordinate is far inside the exact range of f64")]
    pub fn to_inches(self) -> f64 {
        self.0 as f64 / Units::In.steps() as f64
    }

    /// The grid point nearest to a distance in inches; for pointers and other drawn positions.
    #[must_use]
    #[expect(clippy::cast_possible_truncation, clippy::cast_precision_loss, reason = "clamped to the largest length")]
    pub fn nearest_to_inches(inches: f64) -> Self {
        let limit = Self::LARGEST.0 as f64;
        Self((inches * Units::In.steps() as f64).round().clamp(-limit, limit) as i64)
    }

    /// The absolute value.
    #[must_use]
    pub const fn abs(self) -> Self {
        Self(self.0.abs())
    }

    /// Reads a number, feet-and-inches or millimetres: `154.5`, `12'-10 1/2"`, `3 1/2 in`, `2134 mm`.
    /// A bare number is in `units`.
    ///
    /// # Errors
    /// When the text is not a length, is larger than [`Length::LARGEST`], or does not lie on the grid.
    pub fn parse(text: &str, units: Units) -> Result<Self, LengthError> {
        on_grid(parse_steps(text, units)?, text, units)
    }

    /// Feet and inches as written on a drawing: `12'-10 1/2"`, to the nearest 1/16 in and exact where it can be.
    #[must_use]
    pub fn feet_inches(self) -> FeetInches {
        FeetInches(self)
    }

    /// The same of a length that is there and must not be shown as none: `less than 1/16"` where it would be rounded to
    /// nothing.
    #[must_use]
    pub fn some_feet_inches(self) -> String {
        if FeetInches(self).sixteenths() == 0 { "less than 1/16\"".to_owned() } else { self.feet_inches().to_string() }
    }
}

/// Shows a length as feet and inches; see [`Length::feet_inches`].
#[derive(Clone, Copy, Debug)]
pub struct FeetInches(Length);

impl FeetInches {
    /// The nearest whole number of sixteenths of an inch, without its sign.
    const fn sixteenths(self) -> i64 {
        const SIXTEENTH: i64 = Units::In.steps() / 16;
        (self.0.abs().0 + SIXTEENTH / 2) / SIXTEENTH
    }
}

impl fmt::Display for FeetInches {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let sixteenths = self.sixteenths();
        if self.0.0 < 0 {
            f.write_str("-")?;
        }
        let (feet, rest) = (sixteenths / 192, sixteenths % 192);
        write!(f, "{feet}'-{}", rest / 16)?;
        if rest % 16 > 0 {
            let (mut numerator, mut denominator) = (rest % 16, 16);
            while numerator % 2 == 0 {
                (numerator, denominator) = (numerator / 2, denominator / 2);
            }
            write!(f, " {numerator}/{denominator}")?;
        }
        f.write_str("\"")
    }
}

/// Why some text or number is not a length of the plan.
#[derive(Clone, Debug, PartialEq, Eq, Error)]
pub enum LengthError {
    /// Not written as a length at all.
    #[error("`{0}` is not a length; write a number, feet and inches (12'-6 1/2\"), or millimetres (2134 mm)")]
    NotALength(String),
    /// Between two points of the grid.
    #[error(
        "`{written}` does not lie on the grid (1/64 in, half of it, or 1/640 mm); the nearest that does is {nearest}"
    )]
    OffGrid {
        /// What was written.
        written: String,
        /// The nearest length on the grid, as it would be written.
        nearest: String,
    },
    /// Written more finely than anything is measured.
    #[error("`{0}` has more than seven decimal places; write it with fewer")]
    TooFine(String),
    /// Larger than anything a plan may hold.
    #[error("`{0}` is larger than 200 m, the largest length that a plan may hold")]
    TooLarge(String),
}

fn on_grid(steps: Exact, written: &str, units: Units) -> Result<Length, LengthError> {
    let nearest = steps.round();
    if steps != nearest {
        let nearest = match units {
            Units::In => nearest_sixty_fourth(steps),
            Units::Mm => write_steps(nearest, units).to_string(),
        };
        return Err(LengthError::OffGrid { written: written.to_owned(), nearest });
    }
    let steps = i64::try_from(nearest.to_integer()).map_err(|_| LengthError::TooLarge(written.to_owned()))?;
    Ok(Length(steps))
}

/// The nearest 1/64 in as it would be written, such as `550 19/64 in`.
fn nearest_sixty_fourth(steps: Exact) -> String {
    let parts = (steps / Exact::from(i128::from(Units::In.steps() / 64))).round().to_integer();
    let sign = if parts < 0 { "-" } else { "" };
    match (parts.abs() / 64, Exact::new(parts.abs() % 64, 64)) {
        (whole, part) if part == Exact::from(0) => format!("{sign}{whole} in"),
        (0, part) => format!("{sign}{part} in"),
        (whole, part) => format!("{sign}{whole} {part} in"),
    }
}

/// A length as it stands in a file: a number or text.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(untagged, expecting = "expected a length: a number, or text such as \"12'-6 1/2\\\"\" or \"2134 mm\"")]
pub(crate) enum Authored {
    Number(serde_json::Number),
    Text(String),
}

impl Authored {
    pub(crate) fn steps(&self, units: Units) -> Result<Exact, LengthError> {
        match self {
            // The shortest decimal that reads back as the same number is what the author wrote.
            Self::Number(number) => parse_steps(&plain_decimal(number), units),
            Self::Text(text) => parse_steps(text, units),
        }
    }
}

/// A number without an exponent, as `parse_steps` reads it.
fn plain_decimal(number: &serde_json::Number) -> String {
    match number.as_f64() {
        Some(float) if !number.is_i64() && !number.is_u64() => format!("{float}"),
        _ => number.to_string(),
    }
}

impl fmt::Display for Authored {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Number(number) => write!(f, "{number}"),
            Self::Text(text) => f.write_str(text),
        }
    }
}

/// The plainest way to write a figure in the plan's units: a number if a short decimal is exact, else text with the unit
/// in which the figure was written once.
pub(crate) fn write_steps(steps: Exact, units: Units) -> Authored {
    let in_units = |units: Units| steps / Exact::from(i128::from(units.steps()));
    if let Some(number) = exact_number(in_units(units)) {
        return Authored::Number(number);
    }
    for units in [Units::Mm, Units::In] {
        if let Some(decimal) = exact_decimal(in_units(units)) {
            return Authored::Text(format!("{decimal} {}", units.abbreviation()));
        }
    }
    // A figure was read as a decimal or as a fraction of one of the units, so that one of them has short parts.
    let units = if *in_units(Units::Mm).denom() < LONGEST_PART { Units::Mm } else { Units::In };
    let (value, sign) = (in_units(units), if steps < Exact::from(0) { "-" } else { "" });
    let (above, below) = (value.numer().abs(), *value.denom());
    Authored::Text(format!("{sign}{} {}/{below} {}", above / below, above % below, units.abbreviation()))
}

/// The value as a JSON number, if a decimal of no more places than are read is exact.
fn exact_number(value: Exact) -> Option<serde_json::Number> {
    if value.is_integer() {
        return i64::try_from(value.to_integer()).ok().map(Into::into);
    }
    // Correctly rounded decimal text, read back: exactly what `parse_steps` will see again.
    serde_json::Number::from_f64(exact_decimal(value)?.parse().ok()?)
}

/// The value as decimal text, likewise.
fn exact_decimal(value: Exact) -> Option<String> {
    const POWER: i128 = 10_i128.pow(MOST_PLACES as u32);
    let scaled = value * Exact::from(POWER);
    if !scaled.is_integer() {
        return None;
    }
    let scaled = scaled.to_integer();
    let sign = if scaled < 0 { "-" } else { "" };
    let text = format!("{sign}{}.{:0MOST_PLACES$}", scaled.abs() / POWER, scaled.abs() % POWER);
    Some(text.trim_end_matches('0').trim_end_matches('.').to_owned())
}

/// How many decimal places are read: enough for half a sixty-fourth of an inch (0.0078125). With this and
/// [`LONGEST_WHOLE`], products of two figures, and of those with a limit, stay inside `i128`: 200 m are 1.28e8 steps,
/// so that a figure has at most 1.3e15 over 1e7, and a product 1.7e30 over 1e14.
const MOST_PLACES: usize = 7;
/// How many digits are read before the point.
const LONGEST_WHOLE: usize = 9;
/// Fractions are of fewer parts than this.
const LONGEST_PART: i128 = 1_000_000;

/// Reads authored text as exact grid steps; a bare number is in `units`.
pub(crate) fn parse_steps(text: &str, units: Units) -> Result<Exact, LengthError> {
    let refuse = || LengthError::NotALength(text.to_owned());
    let trimmed = text.trim();
    // No figure of a plan needs more; longer ones would leave the exact range.
    if trimmed.len() > 32 {
        let whole = trimmed.split(['.', 'e', 'E']).next().unwrap_or_default();
        let is_number = trimmed.bytes().all(|b| b.is_ascii_digit() || b"+-.eE".contains(&b));
        return Err(match is_number {
            true if whole.len() > LONGEST_WHOLE => LengthError::TooLarge(text.to_owned()),
            true => LengthError::TooFine(text.to_owned()),
            false => refuse(),
        });
    }
    let (negative, body) = match trimmed.strip_prefix('-') {
        Some(rest) => (true, rest),
        None => (false, trimmed.strip_prefix('+').unwrap_or(trimmed)),
    };
    let places = |part: &str| part.bytes().take_while(u8::is_ascii_digit).count();
    if body.split('.').skip(1).any(|part| places(part) > MOST_PLACES) {
        return Err(LengthError::TooFine(text.to_owned()));
    }
    if body.split(|c: char| !c.is_ascii_digit()).next().is_some_and(|whole| whole.len() > LONGEST_WHOLE) {
        return Err(LengthError::TooLarge(text.to_owned()));
    }
    let steps = unsigned_steps(body.trim(), units).ok_or_else(refuse)?;
    if steps > Exact::from(i128::from(Length::LARGEST.0)) {
        return Err(LengthError::TooLarge(text.to_owned()));
    }
    Ok(if negative { -steps } else { steps })
}

fn unsigned_steps(body: &str, units: Units) -> Option<Exact> {
    let per = |unit: Units| Exact::from(i128::from(unit.steps()));
    if let Some(millimetres) = body.strip_suffix("mm") {
        return Some(mixed_number(millimetres)? * per(Units::Mm));
    }
    let Some((feet, rest)) = body.split_once('\'') else {
        return match body.strip_suffix("in").or_else(|| body.strip_suffix('"')) {
            Some(inches) => Some(mixed_number(inches)? * per(Units::In)),
            None => Some(mixed_number(body)? * per(units)),
        };
    };
    let rest = rest.trim().trim_start_matches('-');
    if rest.is_empty() {
        return Some(mixed_number(feet)? * Exact::from(12) * per(Units::In));
    }
    // Before inches, feet are whole: one fraction or decimal in a figure is enough, and keeps it short.
    let feet = Exact::from(whole_number(feet.trim())?) * Exact::from(12);
    let inches = mixed_number(rest.strip_suffix('"')?)?;
    (inches < Exact::from(12)).then(|| (feet + inches) * per(Units::In))
}

/// `6`, `6.25`, `1/2`, `6 1/2` or `6-1/2`.
fn mixed_number(text: &str) -> Option<Exact> {
    let text = text.trim();
    match text.split_once([' ', '-']) {
        Some((whole, part)) if part.contains('/') => Some(Exact::from(whole_number(whole)?) + fraction(part.trim())?),
        Some(_) => None,
        None if text.contains('/') => fraction(text),
        None => decimal(text),
    }
}

fn fraction(text: &str) -> Option<Exact> {
    let (above, below) = text.split_once('/')?;
    let (above, below) = (above.trim(), below.trim());
    let (above, below) = (whole_number(above)?, whole_number(below)?);
    (below > 0 && below < LONGEST_PART).then(|| Exact::new(above, below))
}

fn whole_number(text: &str) -> Option<i128> {
    let fits = !text.is_empty() && text.len() <= LONGEST_WHOLE && text.bytes().all(|b| b.is_ascii_digit());
    fits.then(|| text.parse().ok())?
}

fn decimal(text: &str) -> Option<Exact> {
    let (whole, places) = text.split_once('.').unwrap_or((text, ""));
    let digits = |part: &str| part.bytes().all(|b| b.is_ascii_digit());
    let fits = whole.len() <= LONGEST_WHOLE && places.len() <= MOST_PLACES && whole.len() + places.len() > 0;
    if !fits || !digits(whole) || !digits(places) {
        return None;
    }
    let scale = 10_i128.pow(u32::try_from(places.len()).ok()?);
    Some(Exact::new(format!("{whole}{places}").parse().ok()?, scale))
}

impl Serialize for Length {
    fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        write_steps(Exact::from(i128::from(self.0)), units_in_force::get()).serialize(serializer)
    }
}

impl<'de> Deserialize<'de> for Length {
    fn deserialize<D: Deserializer<'de>>(deserializer: D) -> Result<Self, D::Error> {
        let authored = Authored::deserialize(deserializer)?;
        let units = units_in_force::get();
        let steps = authored.steps(units).map_err(serde::de::Error::custom)?;
        on_grid(steps, &authored.to_string(), units).map_err(serde::de::Error::custom)
    }
}

impl JsonSchema for Length {
    fn schema_name() -> Cow<'static, str> {
        "Length".into()
    }

    fn json_schema(_: &mut SchemaGenerator) -> Schema {
        json_schema!({
            "description": "A length on the grid of 1/640 mm: a number in the plan's units, or text such as 12'-6 1/2\" or 2134 mm.",
            "type": ["number", "string"]
        })
    }
}

impl Add for Length {
    type Output = Self;
    fn add(self, other: Self) -> Self {
        Self(self.0 + other.0)
    }
}

impl AddAssign for Length {
    fn add_assign(&mut self, other: Self) {
        self.0 += other.0;
    }
}

impl Sub for Length {
    type Output = Self;
    fn sub(self, other: Self) -> Self {
        Self(self.0 - other.0)
    }
}

impl Neg for Length {
    type Output = Self;
    fn neg(self) -> Self {
        Self(-self.0)
    }
}

impl Mul<i64> for Length {
    type Output = Self;
    fn mul(self, times: i64) -> Self {
        Self(self.0 * times)
    }
}

impl Sum for Length {
    fn sum<I: Iterator<Item = Self>>(lengths: I) -> Self {
        lengths.fold(Self::ZERO, Add::add)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn steps(text: &str) -> i64 {
        Length::parse(text, Units::In).unwrap_or_else(|e| panic!("{e}")).steps()
    }

    #[test]
    fn reads_what_people_write() {
        assert_eq!(steps("12'-6 1/2\""), (12 * 12 * 64 + 6 * 64 + 32) * 254);
        assert_eq!(steps("7'"), 84 * 16_256);
        assert_eq!(steps("3-1/2 in"), 7 * 8_128);
        assert_eq!(steps("2134 mm"), 2134 * 640);
        assert_eq!(steps("-0.015625"), -254);
        assert_eq!(steps("1/128\""), 127);
    }

    #[test]
    fn refuses_the_rest() {
        for text in ["", "a", "7'-13\"", "1e3", "7 8", "1/0", "'", "--3", "3'4", "0x10", "3..4"] {
            assert!(matches!(Length::parse(text, Units::In), Err(LengthError::NotALength(_))), "{text}");
        }
        for text in ["200001 mm", "-7875", "9999999999", "99999999999999999999999999999999999"] {
            assert!(matches!(Length::parse(text, Units::In), Err(LengthError::TooLarge(_))), "{text}");
        }
        let tiny = format!("0.{}1", "0".repeat(39));
        for text in ["0.0000000001", &tiny] {
            assert!(matches!(Length::parse(text, Units::In), Err(LengthError::TooFine(_))), "{text}");
        }
        for text in ["1.5 1/3", "1 1/2'-1 1/3\"", "1.5'-2\"", "1/3 1/3"] {
            assert!(matches!(Length::parse(text, Units::In), Err(LengthError::NotALength(_))), "{text}");
        }
        let off = Length::parse("0.3", Units::In).expect_err("0.3 in lies between two steps");
        assert!(off.to_string().ends_with("is 19/64 in"), "{off}");
    }

    #[test]
    fn shows_feet_and_inches() {
        assert_eq!(Length::from_steps(steps("154.5")).feet_inches().to_string(), "12'-10 1/2\"");
        assert_eq!(Length::from_steps(1).some_feet_inches(), "less than 1/16\"");
        assert_eq!(Length::from_steps(steps("1/32 in") - 1).some_feet_inches(), "less than 1/16\"");
        assert_eq!(Length::from_steps(steps("1/32 in")).some_feet_inches(), "0'-0 1/16\"");
        assert_eq!(Length::from_steps(steps("-6")).feet_inches().to_string(), "-0'-6\"");
        assert_eq!(Length::from_steps(steps("11 127/128 in")).feet_inches().to_string(), "1'-0\"");
    }

    /// In a plan in the other unit too, where the decimal does not end as soon.
    #[test]
    fn what_a_maker_publishes_can_be_written_and_read_back() {
        for text in
            ["34.1234567 in", "-0.0000001 in", "1/3 in", "5 999998/999999 in", "1/7 mm", "7000 1/999983\"", "34.2\""]
        {
            for units in [Units::In, Units::Mm] {
                let steps = parse_steps(text, units);
                assert!(steps.is_ok(), "{text}");
                let written = steps.clone().map(|steps| write_steps(steps, units));
                assert_eq!(written.clone().and_then(|written| written.steps(units)), steps, "{text}: {written:?}");
            }
        }
    }

    #[test]
    fn every_grid_point_can_be_written_and_read_back() {
        for units in [Units::In, Units::Mm] {
            for step in (-3000..3000).chain(127_999_000..127_999_200) {
                let written = write_steps(Exact::from(step), units);
                assert_eq!(written.steps(units), Ok(Exact::from(step)), "{written}");
            }
        }
    }
}
