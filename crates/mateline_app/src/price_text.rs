//! Prices as people read them.

use plan_model::{Alternate, Money};

/// The minus of figures, as wide as their plus.
const MINUS: char = '\u{2212}';

/// A price: `$148,900 USD`, `148,900 SEK`.
#[must_use]
pub(crate) fn price(amount: Money, currency: &str) -> String {
    format!("{} {currency}", short(amount, currency))
}

/// A price where its currency is known: `$148,900`, `148,900`.
#[must_use]
pub(crate) fn short(amount: Money, currency: &str) -> String {
    let text = amount.to_string();
    match text.strip_prefix('-') {
        Some(digits) => format!("{MINUS}{}{digits}", sign(currency)),
        None => format!("{}{text}", sign(currency)),
    }
}

/// What is added to or taken off a price: `+$4,900`, `\u{2212}$300`.
#[must_use]
pub(crate) fn difference(amount: Money, currency: &str) -> String {
    let text = short(amount, currency);
    if text.starts_with(MINUS) { text } else { format!("+{text}") }
}

/// What an alternate adds: `included`, `no charge`, `+$4,900`, `\u{2212}$300`.
#[must_use]
pub(crate) fn of_alternate(alternate: &Alternate, currency: &str) -> String {
    match (alternate.price.is_zero(), alternate.included) {
        (true, true) => "included".to_owned(),
        (true, false) => "no charge".to_owned(),
        _ => difference(alternate.price, currency),
    }
}

/// The same while prices are hidden: `included`, or nothing.
#[must_use]
pub(crate) const fn of_alternate_without_price(alternate: &Alternate) -> &'static str {
    if alternate.included { "included" } else { "" }
}

fn sign(currency: &str) -> &'static str {
    match currency {
        "USD" | "CAD" | "AUD" | "NZD" | "MXN" => "$",
        "GBP" => "\u{a3}",
        "EUR" => "\u{20ac}",
        _ => "",
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_price_names_its_currency() {
        assert_eq!(price(Money::from(148_900), "USD"), "$148,900 USD");
        assert_eq!(price(Money::from(-300), "CAD"), "\u{2212}$300 CAD");
        assert_eq!(price(Money::from(5), "SEK"), "5 SEK");
    }

    #[test]
    fn a_difference_has_its_sign() {
        assert_eq!(difference(Money::from(4_850), "USD"), "+$4,850");
        assert_eq!(difference(Money::from(-300), "EUR"), "\u{2212}\u{20ac}300");
    }
}
