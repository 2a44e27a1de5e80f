use super::{Expiry, PriceBook};
use crate::Date;

/// A price book from which no quote can be made on a day.
#[derive(Clone, Debug, PartialEq, Eq, thiserror::Error)]
pub enum NotInForce {
    /// The day is before the book's first.
    #[error("the price book \"{book}\" is not effective before {effective}; the date of the quote is {date}")]
    NotYet {
        /// Name of the book.
        book: String,
        /// Its first day.
        effective: Date,
        /// The day of the quote.
        date: Date,
    },
    /// The day is after the book's last.
    #[error("the price book \"{book}\" expired on {last_day}; the date of the quote is {date}")]
    Expired {
        /// Name of the book.
        book: String,
        /// Its last day.
        last_day: Date,
        /// The day of the quote.
        date: Date,
    },
}

impl PriceBook {
    /// The last day on which a quote may be made from it; none if it has no end.
    #[must_use]
    pub fn last_day(&self) -> Option<Date> {
        match self.expires? {
            Expiry::On(date) => Some(date),
            Expiry::AfterDays(days) => self.effective.after(days),
        }
    }

    /// The last day on which a quote of this day is good: so many days after it, and never beyond the book's last day.
    ///
    /// # Errors
    /// When the book is not yet effective on that day, or has expired.
    pub fn quote_of(&self, date: Date) -> Result<Option<Date>, NotInForce> {
        let (book, last_day) = (|| self.name.clone(), self.last_day());
        if date < self.effective {
            return Err(NotInForce::NotYet { book: book(), effective: self.effective, date });
        }
        if let Some(last_day) = last_day.filter(|last_day| date > *last_day) {
            return Err(NotInForce::Expired { book: book(), last_day, date });
        }
        let good_until = self.quote_days.and_then(|days| date.after(days));
        Ok(good_until.into_iter().chain(last_day).min())
    }
}
