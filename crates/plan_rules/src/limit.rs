use plan_model::{Exact, ExactLength, Length, Units};

/// A limit of a rule book, exact, in the measure that is compared with it.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Limit {
    /// A length in grid steps.
    Length(Exact),
    /// An area in square grid steps.
    Area(Exact),
    /// A part of a whole: one half for `50 %`.
    Share(Exact),
    /// So many.
    Count(Exact),
}

impl Limit {
    /// Reads a limit with its unit: `7 ft`, `6 ft 8 in`, `36 in`, `7'-0"`, `914 mm`, `5.7 sq ft`, `820.8 sq in`,
    /// `0.53 sq m`, `50 %`.
    ///
    /// # Errors
    /// A sentence that says what is wrong with the text.
    pub fn parse(text: &str) -> Result<Self, String> {
        let refuse = || {
            format!(
                "`{text}` is no limit; write a number and its unit: 7 ft, 36 in, 914 mm, 70 sq ft, 820.8 sq in, 50 %"
            )
        };
        let trimmed = text.trim();
        if number(trimmed).is_some() {
            return Err(format!(
                "`{text}` has no unit; write one after the number: ft, in, mm, sq ft, sq in, sq m or %"
            ));
        }
        if let Some(percent) = trimmed.strip_suffix('%') {
            return number(percent).map(|value| Self::Share(value / Exact::from(100))).ok_or_else(refuse);
        }
        for (suffix, side) in AREA_UNITS {
            if let Some(value) = trimmed.strip_suffix(suffix) {
                // So many square feet are a strip so many feet long and one foot wide.
                return number(value).map(|value| Self::Area(value * of(side) * of(side))).ok_or_else(refuse);
            }
        }
        length(trimmed).map(Self::Length).ok_or_else(refuse)
    }
}

const METRE: Length = Length::from_steps(1000 * Units::Mm.steps());
const AREA_UNITS: [(&str, Length); 4] =
    [("sq ft", Length::FOOT), ("sq in", Length::INCH), ("sq m", METRE), ("m2", METRE)];

fn of(length: Length) -> Exact {
    Exact::from(i128::from(length.steps()))
}

/// `7 ft`, `6 ft 8 in`, or whatever a plan file takes for a length with a unit.
fn length(text: &str) -> Option<Exact> {
    if text.starts_with(['-', '+']) {
        return None;
    }
    let Some((feet, rest)) = text.split_once("ft") else {
        let written = text.len() <= LONGEST_NUMBER + " in".len();
        return ExactLength::parse(text, Units::In).ok().filter(|_| written).map(ExactLength::steps);
    };
    let inches = match rest.trim() {
        "" => Exact::from(0),
        rest => number(rest.strip_suffix("in")?).filter(|inches| *inches < Exact::from(12))?,
    };
    Some(number(feet)? * of(Length::FOOT) + inches * of(Length::INCH))
}

/// The longest number that is read. No limit needs more, and products of such numbers stay inside 128 bits.
const LONGEST_NUMBER: usize = 12;

/// A number without sign or unit, in the notation of plan files: `6`, `820.8`, `1/2`, `6 1/2`.
fn number(text: &str) -> Option<Exact> {
    let text = text.trim();
    if text.len() > LONGEST_NUMBER {
        return None;
    }
    let plain = text.starts_with(|c: char| c.is_ascii_digit())
        && text.chars().all(|c| c.is_ascii_digit() || matches!(c, '.' | '/' | ' '));
    let steps = ExactLength::parse(text, Units::Mm).ok().filter(|_| plain)?.steps();
    Some(steps / Exact::from(i128::from(Units::Mm.steps())))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn reads_what_officials_write() {
        let foot = of(Length::FOOT);
        let inch = of(Length::INCH);
        assert_eq!(Limit::parse("7 ft"), Ok(Limit::Length(foot * Exact::from(7))));
        assert_eq!(Limit::parse("6 ft 8 in"), Ok(Limit::Length(inch * Exact::from(80))));
        assert_eq!(Limit::parse("7'-0\""), Ok(Limit::Length(inch * Exact::from(84))));
        assert_eq!(Limit::parse("914 mm"), Ok(Limit::Length(Exact::from(914 * 640))));
        assert_eq!(Limit::parse("5.7 sq ft"), Limit::parse("820.8 sq in"));
        assert_eq!(Limit::parse("70 sq ft"), Ok(Limit::Area(foot * foot * Exact::from(70))));
        assert_eq!(Limit::parse("50 %"), Ok(Limit::Share(Exact::new(1, 2))));
        assert_eq!(Limit::parse("34 3/16 in"), Ok(Limit::Length(inch * Exact::new(547, 16))));
    }

    #[test]
    fn metric_and_inch_areas_are_not_the_same() {
        // W52, arithmetic: 0.530 m2 is 821.5 sq in, so that a window of exactly 820.8 sq in meets the one limit and not the other.
        let (Ok(Limit::Area(metric)), Ok(Limit::Area(inch))) =
            (Limit::parse("0.530 sq m"), Limit::parse("820.8 sq in"))
        else {
            panic!("both are areas")
        };
        assert!(metric > inch);
    }

    #[test]
    fn refuses_the_rest() {
        for text in
            ["", "ft", "-7 ft", "7 ft 13 in", "7 sq", "about 7 ft", "%", "7 ft 2", "sq ft", "1/0 in", "7' sq ft"]
        {
            let message = Limit::parse(text).expect_err(text);
            assert!(message.contains("is no limit"), "{message}");
        }
        assert!(Limit::parse("84").expect_err("a bare number").contains("has no unit"));
    }
}
