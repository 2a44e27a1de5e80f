//! Alternates and prices as people read them.

use egui::RichText;
use plan_model::{Alternate, Money};

use crate::theme;

/// A price: `$148,900 USD`, `148,900 SEK`.
#[must_use]
pub(crate) fn price(amount: Money, currency: &str) -> String {
    let text = amount.to_string();
    let (minus, digits) = text.strip_prefix('-').map_or(("", text.as_str()), |digits| ("-", digits));
    format!("{minus}{}{digits} {currency}", sign(currency))
}

/// What an alternate adds: `included`, `no charge`, `+$4,900`, `-$300`.
#[must_use]
pub(crate) fn of_alternate(alternate: &Alternate, currency: &str) -> String {
    if alternate.included && alternate.price.is_zero() {
        return "included".to_owned();
    }
    if alternate.price.is_zero() {
        return "no charge".to_owned();
    }
    let text = alternate.price.to_string();
    match text.strip_prefix('-') {
        Some(digits) => format!("-{}{digits}", sign(currency)),
        None => format!("+{}{text}", sign(currency)),
    }
}

/// The name of an alternate in a list; the one that is chosen stands out by its weight, not by colour alone.
#[must_use]
pub(crate) fn alternate_name(alternate: &Alternate, taken: bool) -> RichText {
    let name = RichText::new(&alternate.name).color(theme::TEXT);
    if taken { name.family(theme::bold()) } else { name }
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
        assert_eq!(price(Money::from(-300), "CAD"), "-$300 CAD");
        assert_eq!(price(Money::from(5), "SEK"), "5 SEK");
    }
}
