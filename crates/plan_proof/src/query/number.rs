//! Numbers as people write them, exact.

use std::cmp::Ordering;

/// A decimal: its digits as a whole number, so many of them behind the point.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Number {
    pub(crate) digits: i128,
    pub(crate) places: u32,
}

/// No amount of a plan file has more letters.
const LONGEST: usize = 18;

impl Number {
    /// Reads digits, perhaps in threes with commas, perhaps with a point and more digits.
    pub(super) fn read(text: &str) -> Option<Self> {
        let (whole, behind) = text.split_once('.').unwrap_or((text, "0"));
        let groups: Vec<&str> = whole.split(',').collect();
        let in_threes =
            groups.len() == 1 || (1..=3).contains(&groups[0].len()) && groups[1..].iter().all(|group| group.len() == 3);
        let digits = groups.concat();
        let are_digits = |text: &str| !text.is_empty() && text.bytes().all(|byte| byte.is_ascii_digit());
        if !in_threes || !are_digits(&digits) || !are_digits(behind) || digits.len() + behind.len() > LONGEST {
            return None;
        }
        let behind = behind.trim_end_matches('0');
        let places = u32::try_from(behind.len()).ok()?;
        Some(Self { digits: format!("{digits}{behind}").parse().ok()?, places })
    }

    /// As a whole number, if it is one.
    pub(super) fn whole(self) -> Option<usize> {
        (self.places == 0).then(|| usize::try_from(self.digits).ok())?
    }

    /// Its digits with so many of them behind the point; it has no more.
    pub(crate) const fn with_places(self, places: u32) -> i128 {
        self.digits * 10_i128.pow(places.saturating_sub(self.places))
    }
}

impl PartialOrd for Number {
    fn partial_cmp(&self, other: &Self) -> Option<Ordering> {
        Some(self.cmp(other))
    }
}

impl Ord for Number {
    fn cmp(&self, other: &Self) -> Ordering {
        let places = self.places.max(other.places);
        self.with_places(places).cmp(&other.with_places(places))
    }
}

impl PartialEq for Number {
    fn eq(&self, other: &Self) -> bool {
        self.cmp(other).is_eq()
    }
}

impl Eq for Number {}

#[cfg(test)]
mod tests {
    use super::*;

    fn read(text: &str) -> Option<(i128, u32)> {
        Number::read(text).map(|number| (number.digits, number.places))
    }

    #[test]
    fn reads_what_people_write() {
        assert_eq!(read("4"), Some((4, 0)));
        assert_eq!(read("250,000"), Some((250_000, 0)));
        assert_eq!(read("1,234,567.50"), Some((12_345_675, 1)));
        assert_eq!(read("0.05"), Some((5, 2)));
        assert_eq!(read("12345678901234567"), Some((12_345_678_901_234_567, 0)));
    }

    #[test]
    fn refuses_the_rest() {
        for text in ["", "four", "25,00", "2500,000", ",000", "1,,000", "1.", ".5", "1.2.3", "-4", "4,", "1e5", "٤"] {
            assert_eq!(read(text), None, "{text}");
        }
        assert_eq!(read("1234567890123456789"), None, "more digits than any amount has");
    }
}
