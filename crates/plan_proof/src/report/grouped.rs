//! Whole numbers for people.

use std::fmt::Write as _;

use num_bigint::BigUint;

/// Counts under each other, each with what it counts.
pub(super) fn counts_text(counts: &[(BigUint, &str)]) -> String {
    let counts: Vec<(String, &str)> = counts.iter().map(|(count, what)| (grouped(count), *what)).collect();
    let width = counts.iter().map(|(count, _)| count.len()).max().unwrap_or_default();
    counts.iter().fold(String::new(), |mut text, (count, what)| {
        let _ = writeln!(text, "  {count:>width$}  {what}");
        text
    })
}

/// Digits in threes.
#[must_use]
pub fn grouped(count: &BigUint) -> String {
    let digits = count.to_string();
    let mut text = String::with_capacity(digits.len() + digits.len() / 3);
    for (at, digit) in digits.chars().enumerate() {
        if at > 0 && (digits.len() - at).is_multiple_of(3) {
            text.push(',');
        }
        text.push(digit);
    }
    text
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn thousands_are_apart() {
        let text = |count: u64| grouped(&BigUint::from(count));
        assert_eq!([0, 999, 1_000, 276_480, 1_234_567].map(text), ["0", "999", "1,000", "276,480", "1,234,567"]);
    }
}
