//! How figures are written on the drawing. What is measured is never shown as more than it is.

use plan_geometry::Area;
use plan_model::{Exact, Length, Plan, Units};

/// How figures are written: as the plan's own units ask.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Notation {
    /// `12'-10 1/2"` and `180.2 sq ft`.
    FeetInches,
    /// `3924` and `16.7 m²`.
    Metric,
}

/// Which way a figure between two marks of the scale goes.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Rounding {
    Down,
    Nearest,
    Up,
}

impl Rounding {
    fn apply(self, figure: Exact) -> i128 {
        match self {
            Self::Down => figure.floor(),
            Self::Nearest => figure.round(),
            Self::Up => figure.ceil(),
        }
        .to_integer()
    }
}

impl Notation {
    pub(crate) const fn of(plan: &Plan) -> Self {
        match plan.units {
            Units::In => Self::FeetInches,
            Units::Mm => Self::Metric,
        }
    }

    /// A length on the drawing, to the nearest 1/16 in or millimetre.
    pub(crate) fn length(self, length: Length) -> String {
        self.exact_length(Exact::from(i128::from(length.steps())), Rounding::Nearest)
    }

    /// A length in grid steps.
    pub(crate) fn exact_length(self, steps: Exact, rounding: Rounding) -> String {
        match self {
            Self::FeetInches => {
                let sixteenth = i128::from(Units::In.steps() / 16);
                let sixteenths = rounding.apply(steps / Exact::from(sixteenth));
                let rounded = Length::from_steps(i64::try_from(sixteenths * sixteenth).unwrap_or(i64::MAX));
                let text = rounded.feet_inches().to_string();
                match text.strip_prefix("0'-") {
                    Some(inches) => inches.strip_prefix("0 ").unwrap_or(inches).to_owned(),
                    None => text,
                }
            }
            Self::Metric => rounding.apply(steps / Exact::from(i128::from(Units::Mm.steps()))).to_string(),
        }
    }

    /// A floor area, cut to one decimal: 69.97 sq ft must not read as 70.
    pub(crate) fn area(self, area: Area) -> String {
        self.exact_area(area.exact(), Rounding::Down)
    }

    /// An area in square grid steps, to one decimal.
    pub(crate) fn exact_area(self, square_steps: Exact, rounding: Rounding) -> String {
        let (unit, name) = match self {
            Self::FeetInches => (Area::SQUARE_FOOT.square_steps(), "sq ft"),
            Self::Metric => ((1000 * i128::from(Units::Mm.steps())).pow(2), "m\u{b2}"),
        };
        let tenths = rounding.apply(square_steps * Exact::from(10) / Exact::from(unit));
        match tenths % 10 {
            0 => format!("{} {name}", tenths / 10),
            tenth => format!("{}.{} {name}", tenths / 10, tenth.abs()),
        }
    }
}
