//! Amounts as people write them, and whether a measure is as much.

use plan_geometry::{Amount, Figure, OFF_AXIS_SLACK};
use plan_model::{Exact, Length, Units};

/// What an amount may be off by beside the slack that it is told with, in steps and square steps.
#[derive(Clone, Copy)]
pub(super) struct Slack {
    length: i64,
    area: i64,
}

impl Slack {
    /// Drawn square to the axes.
    pub(super) const NONE: Self = Self { length: 0, area: 0 };

    /// Drawn at an angle. What a stopped leaf leaves open is told without a slack: where a face that it meets at 5 to 12 is
    /// off by the slack of two faces, its free edge is by 12/5 of that. An area is off by the slack along edges of no more than
    /// 100 ft.
    pub(super) const OFF_AXIS: Self =
        Self { length: 2 * OFF_AXIS_SLACK.steps() * 12 / 5, area: OFF_AXIS_SLACK.steps() * 100 * Length::FOOT.steps() };
}

/// An amount as a person writes it.
pub(super) enum Stated {
    /// `12 1/2"`, `10'-0" + hypot(3", 4")`, in steps: what is told without a root, and the roots.
    Length {
        /// The lengths.
        straight: Exact,
        /// The hypotenuses.
        slanted: f64,
    },
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
    pub(super) fn read(text: &str) -> Option<Self> {
        match text {
            "yes" => return Some(Self::Possible(true)),
            "no" => return Some(Self::Possible(false)),
            "unknown" => return Some(Self::Unknown),
            _ => {}
        }
        if let Some(area) = text.strip_suffix(" sq in") {
            Some(Self::Area(decimal(area)? * SQUARE_INCH))
        } else if let Some(angle) = text.strip_suffix('°') {
            Some(Self::TenthsOfDegree(decimal(angle)? * 10))
        } else {
            text.parse().map(Self::Count).ok().or_else(|| sum(text))
        }
    }

    /// Whether an amount is this one: exactly, with hypotenuses rounded down to the step, or within the slack.
    pub(super) fn holds(&self, amount: &Amount, slack: Slack) -> bool {
        let within = |one: Exact, other: Exact, slack: i64| {
            let difference = one - other;
            difference.max(-difference) <= Exact::from(i128::from(slack))
        };
        match (self, amount) {
            (Self::Length { straight, slanted }, Amount::Length(measured)) => {
                let stated = if *slanted == 0.0 { *straight } else { rounded_down(*straight, *slanted) };
                within(stated, Exact::from(i128::from(measured.value.steps())), measured.slack.steps())
            }
            (Self::Length { straight, .. }, Amount::OpeningLength(Figure::Known { value, .. })) => {
                within(*straight, *value, slack.length)
            }
            (Self::Area(stated), Amount::Area(area)) => within(*stated, area.exact(), slack.area),
            (Self::Area(stated), Amount::OpeningArea(Figure::Known { value, .. })) => {
                within(*stated, *value, slack.area)
            }
            (Self::TenthsOfDegree(stated), Amount::TenthsOfDegree(tenths)) => {
                *stated == Exact::from(i128::from(*tenths))
            }
            (Self::Count(stated), Amount::Count(count)) => stated == count,
            (Self::Possible(stated), Amount::Possible(possible)) => stated == possible,
            (Self::Unknown, amount) => is_unknown(amount),
            _ => false,
        }
    }
}

const fn is_unknown(amount: &Amount) -> bool {
    matches!(
        amount,
        Amount::Unknown(_) | Amount::OpeningLength(Figure::Unknown(_)) | Amount::OpeningArea(Figure::Unknown(_))
    )
}

const INCH: i128 = Length::INCH.steps() as i128;
const SQUARE_INCH: i128 = INCH * INCH;

/// An amount in the words of the tables, for a person to compare: in decimals that may be rounded.
pub(super) fn shown(amount: &Amount) -> String {
    let per = |value: Exact, unit: i128| (value / unit).numer().to_owned() as f64 / *(value / unit).denom() as f64;
    match amount {
        Amount::Length(measured) => format!("{}\"", measured.value.to_inches()),
        Amount::Area(area) => format!("{} sq in", per(area.exact(), SQUARE_INCH)),
        Amount::OpeningLength(Figure::Known { value, .. }) => format!("{}\"", per(*value, INCH)),
        Amount::OpeningArea(Figure::Known { value, .. }) => format!("{} sq in", per(*value, SQUARE_INCH)),
        Amount::Count(count) => count.to_string(),
        Amount::TenthsOfDegree(tenths) => format!("{}°", f64::from(*tenths) / 10.0),
        Amount::Possible(possible) => if *possible { "yes" } else { "no" }.to_owned(),
        Amount::Unknown(_) | Amount::OpeningLength(_) | Amount::OpeningArea(_) => "unknown".to_owned(),
    }
}

/// Lengths and hypotenuses, added and taken away.
fn sum(text: &str) -> Option<Stated> {
    let (mut straight, mut slanted) = (Exact::from(0), 0.0);
    let (mut rest, mut is_added) = (text, true);
    loop {
        let end = [" + ", " - "].iter().filter_map(|sign| rest.find(sign)).min();
        let term = &rest[..end.unwrap_or(rest.len())];
        if let Some(legs) = term.strip_prefix("hypot(") {
            let (one, other) = legs.strip_suffix(')')?.split_once(", ")?;
            let hypotenuse = (steps(one)? as f64).hypot(steps(other)? as f64);
            slanted += if is_added { hypotenuse } else { -hypotenuse };
        } else {
            let length = Exact::from(i128::from(steps(term)?));
            straight += if is_added { length } else { -length };
        }
        let Some(end) = end else { return Some(Stated::Length { straight, slanted }) };
        is_added = rest[end..].starts_with(" + ");
        rest = &rest[end + " + ".len()..];
    }
}

fn steps(length: &str) -> Option<i64> {
    Length::parse(length, Units::In).ok().map(Length::steps)
}

fn rounded_down(straight: Exact, slanted: f64) -> Exact {
    straight.floor() + Exact::from(slanted.floor() as i128)
}

/// `12.25`, without loss.
fn decimal(text: &str) -> Option<Exact> {
    let (whole, part) = text.split_once('.').unwrap_or((text, ""));
    let digits: i128 = format!("{whole}{part}").parse().ok()?;
    Some(Exact::new(digits, 10_i128.pow(u32::try_from(part.len()).ok()?)))
}
