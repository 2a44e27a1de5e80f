//! Figures as people read them: rounded only for show, and never onto or across the limit beside them.

use plan_geometry::{Amount, Area, Basis, Figure};
use plan_model::{Exact, Units};

use crate::Limit;

/// A length by itself: `12'-10 1/2"` or `2134 mm`.
///
/// Sixteenths where they are exact, else sixty-fourths where those are, else the nearest sixteenth; millimetres with at
/// most one place.
#[must_use]
pub fn length(value: Exact, units: Units) -> String {
    match units {
        Units::In if is_multiple(value, SIXTY_FOURTH) => feet_inches(value, 64),
        Units::In => feet_inches(value, 16),
        Units::Mm => decimal(value, MILLIMETRE, 1) + " mm",
    }
}

/// A length beside its limit: 35-63/64 in beside 36 is `just under 3'-0" (2'-11 63/64")`.
#[must_use]
pub fn length_beside(value: Exact, limit: Exact, units: Units) -> String {
    let unit = match units {
        Units::In => SIXTEENTH,
        Units::Mm => MILLIMETRE / 10,
    };
    let rounded = Exact::from(nearest(value, 1, unit) * unit);
    let Some(near) = across(value, rounded, limit) else { return length(value, units) };
    let near = format!("{near} {}", length(limit, units));
    match units {
        Units::In if is_multiple(value, SIXTY_FOURTH) => format!("{near} ({})", feet_inches(value, 64)),
        _ => near,
    }
}

/// An area by itself: `180.2 sq ft`, `5.57 sq ft` or `16.74 sq m`; two places below ten square feet.
#[must_use]
pub fn area(value: Exact, units: Units) -> String {
    let (unit, word) = area_unit(units);
    format!("{} {word}", decimal(value, unit, area_places(value, units)))
}

/// An area beside its limit: with a place more where rounding would reach the limit, and `just under 70 sq ft` where
/// even that would.
#[must_use]
pub fn area_beside(value: Exact, limit: Exact, units: Units) -> String {
    let (unit, word) = area_unit(units);
    let first = area_places(value, units);
    let last = match units {
        Units::In => 2,
        Units::Mm => 3,
    };
    let right_side = (first..=last).find(|places| {
        let power = 10_i128.pow(*places);
        // Left unreduced, because it is compared and nothing else.
        across(value, Exact::new_raw(nearest(value, power, unit) * unit, power), limit).is_none()
    });
    match right_side {
        Some(places) => format!("{} {word}", decimal(value, unit, places)),
        None => format!("just {} {}", if value < limit { "under" } else { "over" }, area(limit, units)),
    }
}

/// A limit of a book, in feet and inches.
#[must_use]
pub fn limit(limit: Limit) -> String {
    match limit {
        Limit::Length(value) => length(value, Units::In),
        Limit::Area(value) => area(value, Units::In),
        Limit::Share(share) => percent(share),
        Limit::Count(count) => count.to_string(),
    }
}

/// A part of a whole in percent: 8 %.
#[must_use]
pub fn percent(share: Exact) -> String {
    let percent = share * Exact::from(100);
    let shown = (percent * Exact::from(100)).round().to_integer();
    if percent.is_integer() { format!("{percent} %") } else { format!("{}.{:02} %", shown / 100, shown % 100) }
}

/// How much a measure is: `12'-10 1/2"`, `6.03 sq ft est.`, `yes`, `unknown`.
#[must_use]
pub fn amount(amount: &Amount, units: Units) -> String {
    match amount {
        Amount::Length(measured) => length(Exact::from(i128::from(measured.value.steps())), units),
        Amount::Area(floor) => area(floor.exact(), units),
        Amount::OpeningLength(of_opening) => figure(of_opening, |value| length(value, units)),
        Amount::OpeningArea(of_opening) => figure(of_opening, |value| area(value, units)),
        Amount::Count(count) => count.to_string(),
        Amount::TenthsOfDegree(tenths) => format!("{}.{} degrees", tenths / 10, tenths % 10),
        Amount::Possible(true) => "yes".to_owned(),
        Amount::Possible(false) => "no".to_owned(),
        Amount::Unknown(_) => UNKNOWN.to_owned(),
    }
}

/// How much a measure is, and why where that is unknown: `unknown: no door leads outdoors`.
#[must_use]
pub fn amount_or_reason(told: &Amount, units: Units) -> String {
    let shown = amount(told, units);
    told.unknown_because().map_or_else(|| shown.clone(), |why| format!("{shown}: {why}"))
}

/// A figure of an opening; what is estimated is marked `est.`.
#[must_use]
pub fn figure(figure: &Figure, show: impl Fn(Exact) -> String) -> String {
    match figure {
        Figure::Known { value, basis: Basis::Stated } => show(*value),
        Figure::Known { value, basis: Basis::Estimated } => format!("{} est.", show(*value)),
        Figure::Unknown(_) => UNKNOWN.to_owned(),
    }
}

const UNKNOWN: &str = "unknown";
const INCH: i128 = Units::In.steps() as i128;
const SIXTEENTH: i128 = INCH / 16;
const SIXTY_FOURTH: i128 = INCH / 64;
const MILLIMETRE: i128 = Units::Mm.steps() as i128;
const SQUARE_METRE: i128 = (1000 * MILLIMETRE) * (1000 * MILLIMETRE);

fn is_multiple(value: Exact, unit: i128) -> bool {
    value.is_integer() && value.to_integer() % unit == 0
}

/// The whole number nearest to so many times the value in the unit, halves away from zero.
///
/// In whole numbers, because every step of rational arithmetic looks for a common divisor, and a judgement shows a
/// hundred figures.
fn nearest(value: Exact, times: i128, unit: i128) -> i128 {
    let (above, below) = (value.numer() * times, value.denom() * unit);
    (2 * above.abs() + below) / (2 * below) * above.signum()
}

/// Whether rounding brought the value onto or over a limit that it is not on, and from which side.
fn across(value: Exact, rounded: Exact, limit: Exact) -> Option<&'static str> {
    if value < limit && rounded >= limit {
        Some("just under")
    } else if value > limit && rounded <= limit {
        Some("just over")
    } else {
        None
    }
}

/// For writing: 64 bits are written much faster than 128, and hold whatever a plan may hold.
fn sign_and_size(count: i128) -> (&'static str, u64) {
    (if count < 0 { "-" } else { "" }, u64::try_from(count.unsigned_abs()).unwrap_or(u64::MAX))
}

/// Feet and inches to the nearest part of an inch.
fn feet_inches(value: Exact, parts: u64) -> String {
    let (sign, count) = sign_and_size(nearest(value, parts.into(), INCH));
    let (feet, rest) = (count / (12 * parts), count % (12 * parts));
    let (inches, mut above, mut below) = (rest / parts, rest % parts, parts);
    if above == 0 {
        return format!("{sign}{feet}'-{inches}\"");
    }
    while above % 2 == 0 {
        (above, below) = (above / 2, below / 2);
    }
    format!("{sign}{feet}'-{inches} {above}/{below}\"")
}

/// The unit of areas beside lengths in these units, in square grid steps, and its name.
pub(crate) const fn area_unit(units: Units) -> (i128, &'static str) {
    match units {
        Units::In => (Area::SQUARE_FOOT.square_steps(), "sq ft"),
        Units::Mm => (SQUARE_METRE, "sq m"),
    }
}

fn area_places(value: Exact, units: Units) -> u32 {
    let small = value < Exact::from(10 * Area::SQUARE_FOOT.square_steps());
    match units {
        Units::In if !small => 1,
        Units::In | Units::Mm => 2,
    }
}

/// The value in the unit as a decimal with at most so many places, without trailing zeros.
fn decimal(value: Exact, unit: i128, places: u32) -> String {
    let power = 10_u64.pow(places);
    let (sign, scaled) = sign_and_size(nearest(value, power.into(), unit));
    let fraction = format!("{:0width$}", scaled % power, width = places as usize);
    match fraction.trim_end_matches('0') {
        "" => format!("{sign}{}", scaled / power),
        fraction => format!("{sign}{}.{fraction}", scaled / power),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn inches(numerator: i128, denominator: i128) -> Exact {
        Exact::new(numerator * INCH, denominator)
    }

    fn square_feet(numerator: i128, denominator: i128) -> Exact {
        Exact::new(numerator, denominator) * Area::SQUARE_FOOT.exact()
    }

    #[test]
    fn lengths_by_themselves() {
        assert_eq!(length(inches(309, 2), Units::In), "12'-10 1/2\"");
        assert_eq!(length(inches(36 * 64 - 1, 64), Units::In), "2'-11 63/64\"");
        assert_eq!(length(inches(342, 10), Units::In), "2'-10 3/16\"");
        assert_eq!(length(inches(0, 1), Units::In), "0'-0\"");
        assert_eq!(length(inches(-6, 1), Units::In), "-0'-6\"");
        assert_eq!(length(inches(12 * 1000 - 1, 1000), Units::In), "1'-0\"");
        assert_eq!(length(inches(84, 1), Units::Mm), "2133.6 mm");
        assert_eq!(length(Exact::from(914 * 640), Units::Mm), "914 mm");
    }

    #[test]
    fn a_length_never_reaches_a_limit_that_it_is_not_on() {
        let limit = inches(36, 1);
        let beside = |value| length_beside(value, limit, Units::In);
        assert_eq!(beside(inches(36, 1)), "3'-0\"");
        assert_eq!(beside(inches(36 * 64 - 1, 64)), "just under 3'-0\" (2'-11 63/64\")");
        assert_eq!(beside(inches(36 * 64 + 1, 64)), "just over 3'-0\" (3'-0 1/64\")");
        assert_eq!(beside(inches(36 * 16 - 1, 16)), "2'-11 15/16\"");
        assert_eq!(beside(inches(71, 2)), "2'-11 1/2\"");
        assert_eq!(beside(Exact::from(914 * 640)), "just under 3'-0\"");
        assert_eq!(length_beside(Exact::from(914 * 640), limit, Units::Mm), "914 mm");
        assert_eq!(length_beside(inches(36, 1) - Exact::from(1), limit, Units::Mm), "just under 914.4 mm");
        assert_eq!(length_beside(inches(36, 1) + Exact::from(1), limit, Units::In), "just over 3'-0\"");
    }

    #[test]
    fn areas_by_themselves() {
        assert_eq!(area(square_feet(70, 1), Units::In), "70 sq ft");
        assert_eq!(area(square_feet(18_024, 100), Units::In), "180.2 sq ft");
        assert_eq!(area(square_feet(55_720, 10_000), Units::In), "5.57 sq ft");
        assert_eq!(area(Exact::from(SQUARE_METRE) * Exact::new(530, 1000), Units::Mm), "0.53 sq m");
    }

    #[test]
    fn what_is_unknown_is_shown_with_the_reason() {
        let why = || "no door leads outdoors".to_owned();
        let unknown = [
            Amount::Unknown(why()),
            Amount::OpeningLength(Figure::Unknown(why())),
            Amount::OpeningArea(Figure::Unknown(why())),
        ];
        for unknown in unknown {
            assert_eq!(amount_or_reason(&unknown, Units::In), "unknown: no door leads outdoors");
        }
        assert_eq!(amount_or_reason(&Amount::Count(2), Units::In), "2");
    }

    #[test]
    fn an_area_never_reaches_a_limit_that_it_is_not_on() {
        let seventy = |value| area_beside(value, square_feet(70, 1), Units::In);
        assert_eq!(seventy(square_feet(70, 1)), "70 sq ft");
        assert_eq!(seventy(square_feet(699, 10)), "69.9 sq ft");
        assert_eq!(seventy(square_feet(6_996, 100)), "69.96 sq ft");
        assert_eq!(seventy(square_feet(69_996, 1000)), "just under 70 sq ft");
        assert_eq!(seventy(square_feet(70_001, 1000)), "just over 70 sq ft");
        // 20 x 41 in and 34 x 24 in, which many handouts round up to 5.7.
        let opening = |value| area_beside(value, square_feet(57, 10), Units::In);
        assert_eq!(opening(square_feet(820, 144)), "5.69 sq ft");
        assert_eq!(opening(square_feet(816, 144)), "5.67 sq ft");
        assert_eq!(opening(square_feet(8208, 1440)), "5.7 sq ft");
        assert_eq!(opening(square_feet(8207, 1440)), "just under 5.7 sq ft");
    }

    #[test]
    fn nothing_shown_lies_on_the_other_side_of_its_limit() {
        let limit = inches(36, 1);
        for step in -1100..1100_i128 {
            let value = limit + Exact::from(step);
            let shown = length_beside(value, limit, Units::In);
            assert_eq!(shown == "3'-0\"", step == 0, "{step}: {shown}");
            assert!(step >= 0 || shown.starts_with("just under") || shown.starts_with("2'-11"), "{step}: {shown}");
            assert!(step <= 0 || shown.starts_with("just over") || shown.starts_with("3'-0 "), "{step}: {shown}");
        }
    }
}
