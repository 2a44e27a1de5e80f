use std::fmt;
use std::str::FromStr;

use schemars::JsonSchema;
use serde::{Deserialize, Serialize};
use thiserror::Error;

/// A day of the calendar as people state it, written `2026-03-02` (ISO 8601).
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize, JsonSchema)]
#[serde(try_from = "String", into = "String")]
#[schemars(with = "String", extend("format" = "date"))]
pub struct Date(String);

/// Text that is no day.
#[derive(Clone, Debug, PartialEq, Eq, Error)]
#[error("`{0}` is not a date; write year, month and day, such as 2026-03-02")]
pub struct NotADate(String);

/// Days of a month of the Gregorian calendar.
const fn days(year: u32, month: u32) -> u32 {
    match month {
        2 if year.is_multiple_of(4) && (!year.is_multiple_of(100) || year.is_multiple_of(400)) => 29,
        2 => 28,
        4 | 6 | 9 | 11 => 30,
        1..=12 => 31,
        _ => 0,
    }
}

impl FromStr for Date {
    type Err = NotADate;

    fn from_str(text: &str) -> Result<Self, NotADate> {
        let refuse = || NotADate(text.to_owned());
        let is_laid_out = text.len() == 10
            && text.bytes().enumerate().all(|(at, b)| if at == 4 || at == 7 { b == b'-' } else { b.is_ascii_digit() });
        let mut parts = text.split('-').map(|part| part.parse().ok());
        match (parts.next().flatten(), parts.next().flatten(), parts.next().flatten()) {
            (Some(year), Some(month), Some(day)) if is_laid_out && (1..=days(year, month)).contains(&day) => {
                Ok(Self(text.to_owned()))
            }
            _ => Err(refuse()),
        }
    }
}

impl TryFrom<String> for Date {
    type Error = NotADate;

    fn try_from(text: String) -> Result<Self, NotADate> {
        text.parse()
    }
}

impl From<Date> for String {
    fn from(date: Date) -> Self {
        date.0
    }
}

impl fmt::Display for Date {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(&self.0)
    }
}

#[cfg(test)]
mod tests {
    use super::Date;

    #[test]
    fn days_of_the_calendar_are_read_and_nothing_else() {
        for day in ["2026-03-02", "2024-02-29", "2000-02-29", "1999-12-31"] {
            assert_eq!(day.parse::<Date>().map(|date| date.to_string()).as_deref(), Ok(day));
        }
        for no_day in [
            "2026-02-29",
            "1900-02-29",
            "2026-13-01",
            "2026-00-10",
            "2026-3-2",
            "02/03/2026",
            "",
            "2026-04-31",
            "2026-03-0a",
        ] {
            assert!(no_day.parse::<Date>().is_err(), "{no_day}");
        }
    }

    #[test]
    fn dates_stand_in_the_order_of_days() {
        let date = |text: &str| text.parse::<Date>().expect("a day");
        assert!(date("2025-12-31") < date("2026-01-01"));
    }
}
