use std::borrow::Cow;
use std::fmt;
use std::str::FromStr;

use schemars::{JsonSchema, Schema, SchemaGenerator, json_schema};
use serde::{Deserialize, Deserializer, Serialize, Serializer};

/// A day of the Gregorian calendar, of the years 1 to 9999, written as ISO 8601 does: `2026-03-31`.
#[derive(Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct Date {
    year: u16,
    month: u8,
    day: u8,
}

/// Days from the first of January of year 1 to that of 1970.
const TO_1970: i64 = 719_162;

impl Date {
    /// A day; none where the calendar has no such day.
    #[must_use]
    pub fn new(year: u16, month: u8, day: u8) -> Option<Self> {
        let is_day = (1..=9999).contains(&year) && (1..=12).contains(&month);
        (is_day && (1..=days_of(year, month)).contains(&day)).then_some(Self { year, month, day })
    }

    /// The day so many days after the first of January 1970; none outside of the years 1 to 9999.
    #[must_use]
    pub fn from_days_after_1970(days: i64) -> Option<Self> {
        let number = days.checked_add(TO_1970).filter(|number| *number >= 0)?;
        // A year has at most 366 days, so that this is never too late.
        let mut year = u16::try_from(number / 366 + 1).ok().filter(|year| *year <= 9999)?;
        while before_year(year + 1) <= number {
            year += 1;
        }
        let mut left = number - before_year(year);
        let mut month = 1;
        while left >= i64::from(days_of(year, month)) {
            left -= i64::from(days_of(year, month));
            month += 1;
        }
        Self::new(year, month, u8::try_from(left + 1).ok()?)
    }

    /// The day so many days later; none after the year 9999.
    #[must_use]
    pub fn after(self, days: u32) -> Option<Self> {
        let months: i64 = (1..self.month).map(|month| i64::from(days_of(self.year, month))).sum();
        let number = before_year(self.year) + months + i64::from(self.day) - 1;
        Self::from_days_after_1970(number - TO_1970 + i64::from(days))
    }
}

/// Days before the first of January of a year, from that of year 1.
fn before_year(year: u16) -> i64 {
    let years = i64::from(year) - 1;
    365 * years + years / 4 - years / 100 + years / 400
}

const fn days_of(year: u16, month: u8) -> u8 {
    match month {
        2 if year.is_multiple_of(4) && (!year.is_multiple_of(100) || year.is_multiple_of(400)) => 29,
        2 => 28,
        4 | 6 | 9 | 11 => 30,
        _ => 31,
    }
}

/// A text that is no day.
#[derive(Clone, Debug, PartialEq, Eq, thiserror::Error)]
#[error("`{0}` is not a day of the calendar; write year, month and day such as 2026-03-31")]
pub struct NotADate(String);

impl FromStr for Date {
    type Err = NotADate;

    fn from_str(text: &str) -> Result<Self, NotADate> {
        let read = || {
            let part = |from: usize, to: usize| {
                let digits = text.get(from..to)?;
                digits.bytes().all(|b| b.is_ascii_digit()).then(|| digits.parse::<u16>().ok()).flatten()
            };
            let dashes = text.len() == 10 && text.get(4..5)? == "-" && text.get(7..8)? == "-";
            let small = |part: u16| u8::try_from(part).ok();
            dashes.then_some(())?;
            Self::new(part(0, 4)?, small(part(5, 7)?)?, small(part(8, 10)?)?)
        };
        read().ok_or_else(|| NotADate(text.to_owned()))
    }
}

impl fmt::Display for Date {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{:04}-{:02}-{:02}", self.year, self.month, self.day)
    }
}

impl fmt::Debug for Date {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        fmt::Display::fmt(self, f)
    }
}

impl Serialize for Date {
    fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        serializer.collect_str(self)
    }
}

impl<'de> Deserialize<'de> for Date {
    fn deserialize<D: Deserializer<'de>>(deserializer: D) -> Result<Self, D::Error> {
        String::deserialize(deserializer)?.parse().map_err(serde::de::Error::custom)
    }
}

impl JsonSchema for Date {
    fn schema_name() -> Cow<'static, str> {
        "Date".into()
    }

    fn json_schema(_: &mut SchemaGenerator) -> Schema {
        json_schema!({
            "description": "A day of the calendar, such as 2026-03-31.",
            "type": "string",
            "format": "date",
            "pattern": r"^[0-9]{4}-[0-9]{2}-[0-9]{2}$"
        })
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn date(text: &str) -> Date {
        text.parse().unwrap_or_else(|error| panic!("{error}"))
    }

    #[test]
    fn days_that_the_calendar_has_not_are_refused() {
        for text in ["2026-02-29", "2100-02-29", "2026-13-01", "2026-04-31", "2026-4-1", "0000-01-01", "2026/04/01", ""]
        {
            assert!(text.parse::<Date>().is_err(), "{text}");
        }
        assert_eq!(date("2000-02-29").to_string(), "2000-02-29");
    }

    /// Counted on a calendar: 2026 is no leap year, 2028 is one.
    #[test]
    fn days_later() {
        let cases =
            [("2026-03-01", 30, "2026-03-31"), ("2026-12-31", 1, "2027-01-01"), ("2026-02-20", 9, "2026-03-01")];
        for (from, days, to) in
            cases.into_iter().chain([("2028-02-20", 9, "2028-02-29"), ("2026-01-05", 0, "2026-01-05")])
        {
            assert_eq!(date(from).after(days), Some(date(to)));
        }
        assert_eq!(date("9999-12-31").after(1), None);
    }

    /// 1970-01-01 is day 0 of Unix time by POSIX; 2000-03-01 is day 11,017: thirty years of 365 days, seven leap days
    /// (1972 to 1996), then 31 days of January and 29 of February. Reckoned by hand.
    #[test]
    fn days_after_1970() {
        assert_eq!(Date::from_days_after_1970(0), Some(date("1970-01-01")));
        assert_eq!(Date::from_days_after_1970(30 * 365 + 7 + 31 + 29), Some(date("2000-03-01")));
        assert_eq!(Date::from_days_after_1970(-TO_1970), Some(date("0001-01-01")));
        assert_eq!(Date::from_days_after_1970(-TO_1970 - 1), None);
        assert_eq!(Date::from_days_after_1970(i64::MAX), None);
    }
}
