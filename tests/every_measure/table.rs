//! Tables of measures in Markdown: what is measured, of what, how much, and how that was reckoned.

use plan_geometry::{Amount, Figure, Measure};
use plan_model::{Exact, Length, Units};

pub(super) const INCH: i128 = Length::INCH.steps() as i128;
pub(super) const SQUARE_INCH: i128 = INCH * INCH;

/// One measure as it was reckoned by hand.
#[derive(Debug)]
pub(super) struct Row<'a> {
    /// The name of the measure in reports.
    pub(super) name: &'a str,
    /// The elements that it is of, in order.
    of: Vec<&'a str>,
    /// How much.
    pub(super) amount: Stated,
    /// The row as it is written.
    pub(super) line: &'a str,
}

impl Row<'_> {
    pub(super) fn is_of(&self, measure: &Measure) -> bool {
        self.name == measure.name.word() && self.of.iter().copied().eq(measure.of.iter().map(plan_model::Id::as_str))
    }
}

/// The rows of all tables of a page.
pub(super) fn rows(page: &str) -> Vec<Row<'_>> {
    let is_row = |line: &&str| line.starts_with("| ") && !line.starts_with("| measure |") && !line.starts_with("| ---");
    page.lines().filter(is_row).map(row).collect()
}

fn row(line: &str) -> Row<'_> {
    let cells: Vec<&str> = line.trim_matches('|').split('|').map(str::trim).collect();
    let [name, of, amount, _] = cells[..] else { panic!("a row has four cells: {line}") };
    let of = of.split(", ").filter(|id| !id.is_empty()).collect();
    let amount = Stated::read(amount).unwrap_or_else(|| panic!("`{amount}` is no amount: {line}"));
    Row { name, of, amount, line }
}

/// An amount as a person writes it.
#[derive(Debug)]
pub(super) enum Stated {
    /// `12 1/2"`, `10'-0" + hypot(3", 4")`: what is whole in steps, and the square roots beside it.
    Length { whole: Exact, roots: f64 },
    /// `402.25 sq in`, in square steps.
    Area(Exact),
    /// `67.3°`, in tenths.
    TenthsOfDegree(Exact),
    /// `2`.
    Count(usize),
    /// `yes` or `no`.
    Possible(bool),
    /// `unknown`.
    Unknown,
}

impl Stated {
    fn read(text: &str) -> Option<Self> {
        Some(match text {
            "yes" => Self::Possible(true),
            "no" => Self::Possible(false),
            "unknown" => Self::Unknown,
            _ => {
                if let Some(area) = text.strip_suffix(" sq in") {
                    Self::Area(decimal(area)? * Exact::from(SQUARE_INCH))
                } else if let Some(angle) = text.strip_suffix('°') {
                    Self::TenthsOfDegree(decimal(angle)? * Exact::from(10))
                } else if let Ok(count) = text.parse() {
                    Self::Count(count)
                } else {
                    sum(text)?
                }
            }
        })
    }

    /// Whether an amount is this one: exactly, or within the slack that it is told with.
    pub(super) fn holds(&self, amount: &Amount) -> bool {
        match (self, amount) {
            (Self::Length { .. }, Amount::Length(measured)) => (measured.value - self.steps()).abs() <= measured.slack,
            (Self::Length { whole, roots }, Amount::OpeningLength(Figure::Known { value, .. })) => {
                *roots == 0.0 && value == whole
            }
            (Self::Area(stated), Amount::Area(area)) => *stated == Exact::from(area.square_steps()),
            (Self::Area(stated), Amount::OpeningArea(Figure::Known { value, .. })) => stated == value,
            (Self::TenthsOfDegree(stated), Amount::TenthsOfDegree(tenths)) => {
                *stated == Exact::from(i128::from(*tenths))
            }
            (Self::Count(stated), Amount::Count(count)) => stated == count,
            (Self::Possible(stated), Amount::Possible(possible)) => stated == possible,
            (
                Self::Unknown,
                Amount::Unknown(_)
                | Amount::OpeningLength(Figure::Unknown(_))
                | Amount::OpeningArea(Figure::Unknown(_)),
            ) => true,
            _ => false,
        }
    }

    /// A length rounded down to the step.
    fn steps(&self) -> Length {
        let Self::Length { whole, roots } = self else { return Length::ZERO };
        let whole = *whole.numer() as f64 / *whole.denom() as f64;
        Length::from_steps((whole + roots).floor() as i64)
    }
}

/// Lengths and hypotenuses, added and taken away.
fn sum(text: &str) -> Option<Stated> {
    let (mut whole, mut roots) = (Exact::from(0), 0.0);
    let (mut rest, mut is_added) = (text, true);
    loop {
        let end = [" + ", " - "].iter().filter_map(|sign| rest.find(sign)).min();
        let term = &rest[..end.unwrap_or(rest.len())];
        match term.strip_prefix("hypot(") {
            Some(legs) => {
                let (one, other) = legs.strip_suffix(')')?.split_once(", ")?;
                let hypotenuse = (steps(one)? as f64).hypot(steps(other)? as f64);
                roots += if is_added { hypotenuse } else { -hypotenuse };
            }
            None => {
                let length = Exact::from(i128::from(steps(term)?));
                whole += if is_added { length } else { -length };
            }
        }
        let Some(end) = end else { return Some(Stated::Length { whole, roots }) };
        is_added = rest[end..].starts_with(" + ");
        rest = &rest[end + 3..];
    }
}

fn steps(length: &str) -> Option<i64> {
    Length::parse(length, Units::In).ok().map(Length::steps)
}

/// `12.25`, without loss.
fn decimal(text: &str) -> Option<Exact> {
    let (whole, part) = text.split_once('.').unwrap_or((text, ""));
    let digits: i128 = format!("{whole}{part}").parse().ok()?;
    Some(Exact::new(digits, 10_i128.pow(u32::try_from(part.len()).ok()?)))
}
