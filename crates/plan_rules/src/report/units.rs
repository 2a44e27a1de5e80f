use plan_geometry::Area;
use plan_model::{Exact, Length, Point, Units};
use schemars::JsonSchema;
use serde::Serialize;

use super::decimal::Decimal;
use crate::Quantity;
use crate::show::area_unit;

/// The units of a report, which are those of the plan.
#[derive(Clone, Copy, Debug, Serialize, JsonSchema)]
pub struct ReportUnits {
    /// The unit of every length: `in` or `mm`.
    length: &'static str,
    /// The unit of every area: `sq ft` or `sq m`.
    area: &'static str,
}

impl From<Units> for ReportUnits {
    fn from(units: Units) -> Self {
        Self { length: units.abbreviation(), area: area_unit(units).1 }
    }
}

/// A figure in grid steps as a number in the plan's unit.
pub(super) fn length(steps: Exact, units: Units) -> Decimal {
    Decimal::from(steps / Exact::from(i128::from(units.steps())))
}

/// A length on the grid as a number in the plan's unit.
pub(super) fn grid_length(value: Length, units: Units) -> Decimal {
    length(Exact::from(i128::from(value.steps())), units)
}

/// A figure in square grid steps as a number in the plan's unit of area.
pub(super) fn area(square_steps: Exact, units: Units) -> Decimal {
    Decimal::from(square_steps / Exact::from(area_unit(units).0))
}

/// An area of the drawing as a number in the plan's unit of area.
#[must_use]
pub fn grid_area(value: Area, units: Units) -> Decimal {
    area(value.exact(), units)
}

/// A place on the plan in the plan's unit.
pub(super) fn point(at: Point, units: Units) -> [Decimal; 2] {
    [grid_length(at.x, units), grid_length(at.y, units)]
}

/// A figure of a verdict as a number, and the unit that it is in.
pub(super) fn quantity(figure: Exact, quantity: Quantity, units: Units) -> Decimal {
    match quantity {
        Quantity::LengthAtLeast | Quantity::LengthAtMost => length(figure, units),
        Quantity::AreaAtLeast => area(figure, units),
        Quantity::CountAtLeast | Quantity::Possible => Decimal::from(figure),
    }
}

/// The unit of a verdict's figures.
pub(super) fn unit_of(quantity: Quantity, units: Units) -> &'static str {
    match quantity {
        Quantity::LengthAtLeast | Quantity::LengthAtMost => units.abbreviation(),
        Quantity::AreaAtLeast => area_unit(units).1,
        Quantity::CountAtLeast => "count",
        Quantity::Possible => "yes-or-no",
    }
}
