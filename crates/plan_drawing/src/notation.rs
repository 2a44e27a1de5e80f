//! How figures are written on the drawing.

use plan_model::{Exact, Length, Units};
use plan_rules::show;

/// A length as on dimension strings: `12'-10 1/2"`, `4 1/2"` under a foot, or millimetres without the unit.
pub(crate) fn length(length: Length, units: Units) -> String {
    let text = show::length(Exact::from(i128::from(length.steps())), units);
    match units {
        Units::In => match text.strip_prefix("0'-") {
            Some(inches) => inches.strip_prefix("0 ").unwrap_or(inches).to_owned(),
            None => text,
        },
        Units::Mm => text.strip_suffix(" mm").unwrap_or(&text).to_owned(),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn lengths_under_a_foot_are_inches_alone() {
        let sixteenths = |count: i64| length(Length::from_steps(count * Units::In.steps() / 16), Units::In);
        assert_eq!(sixteenths(72), "4 1/2\"");
        assert_eq!(sixteenths(8), "1/2\"");
        assert_eq!(sixteenths(12 * 16), "1'-0\"");
        assert_eq!(sixteenths(12 * 16 + 8), "1'-0 1/2\"");
    }

    #[test]
    fn millimetres_stand_without_their_unit() {
        assert_eq!(length(Length::from_steps(2134 * 640), Units::Mm), "2134");
    }
}
