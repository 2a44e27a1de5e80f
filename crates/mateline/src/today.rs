use std::time::{SystemTime, UNIX_EPOCH};

use plan_model::Date;

/// Today in UTC, by the clock of the system; none where it shows no year that the calendar has.
pub(crate) fn today() -> Option<Date> {
    const SECONDS_OF_A_DAY: u64 = 24 * 60 * 60;
    let since = SystemTime::now().duration_since(UNIX_EPOCH).ok()?;
    Date::from_days_after_1970(i64::try_from(since.as_secs() / SECONDS_OF_A_DAY).ok()?)
}
