//! The arithmetic of the heated area in reports, so that a person can follow it with a pencil.

use std::fmt::Write as _;

use plan_geometry::{Area, AreaArithmetic, AreaMethod, AreaPart, Derived, HeatedArea};
use plan_model::{Exact, Home, Id, Length, Units};
use schemars::JsonSchema;
use serde::Serialize;

use super::decimal::Decimal;
use super::text::table;
use super::units::{grid_area, grid_length, point};
use crate::show;

/// One part of the heated area. The parts do not overlap and sum up to it; where a module's outline cuts a slanted side, up to
/// the rounding of the corners to the grid.
#[derive(Debug, Serialize, JsonSchema)]
pub(super) struct HeatedPart {
    /// The module in whose outline the part lies; null for what lies in none.
    module: Option<Id>,
    /// Its shorter side; null for a part with slanted sides, whose area is worked out by the coordinates of its corners.
    width: Option<Decimal>,
    /// Its longer side; null likewise.
    length: Option<Decimal>,
    area: Decimal,
    /// Corners of the outer boundary, counter-clockwise, then those of each hole, clockwise.
    boundaries: Vec<Vec<[Decimal; 2]>>,
}

/// The parts of a home's heated area, module by module; none while it is unknown.
pub(super) fn heated_parts(derived: &Derived, units: Units) -> Vec<HeatedPart> {
    let Some(heated) = derived.heated() else { return Vec::new() };
    let part = |module: Option<&Id>, part: &AreaPart| {
        let [width, length] = match part.method {
            AreaMethod::Sides { width, length } => [width, length].map(|side| Some(grid_length(side, units))),
            AreaMethod::Coordinates { .. } => [None, None],
        };
        let corners = |boundary: &Vec<_>| boundary.iter().map(|corner| point(*corner, units)).collect();
        HeatedPart {
            module: module.cloned(),
            width,
            length,
            area: grid_area(part.area, units),
            boundaries: part.region.boundaries().map(corners).collect(),
        }
    };
    sums(heated).flat_map(|(module, sum)| sum.parts.iter().map(move |one| part(module, one))).collect()
}

/// The sum of each module, then of what lies in none.
fn sums(heated: &HeatedArea) -> impl Iterator<Item = (Option<&Id>, &AreaArithmetic)> {
    let modules = heated.modules.iter().map(|module| (Some(&module.id), &module.sum));
    modules.chain(std::iter::once((None, &heated.outside)))
}

/// The section of a text report, ended by a line end; empty while the heated area is unknown.
pub(super) fn heated_section(home: &Home<'_>, derived: &Derived) -> String {
    let units = home.plan.units;
    let Some(heated) = derived.heated() else { return String::new() };
    let mut text = "\nHEATED AREA\n".to_owned();
    for (module, sum) in sums(heated).filter(|(_, sum)| !sum.parts.is_empty()) {
        for part in &sum.parts {
            let _ = writeln!(text, "  {}: {}", name(home, heated, module), product(part, units));
        }
        if sum.parts.len() > 1 {
            let _ = writeln!(text, "  {}, together: {}", name(home, heated, module), pencil(sum.area, units));
        }
        text.extend(sum.parts.iter().map(|part| traverse(part, units)));
    }
    let whole = heated.whole.area;
    let _ = writeln!(
        text,
        "  Sum: {}; to the whole square foot, {} sq ft",
        pencil(whole, units),
        whole.whole_square_feet()
    );
    text.push_str("  Method: ANSI Z765-2021, to the exterior finished face, worked out from the plan\n");
    text
}

fn name(home: &Home<'_>, heated: &HeatedArea, module: Option<&Id>) -> String {
    let drawn = |id: &Id| home.plan.modules.iter().find(|module| module.id == *id);
    match module {
        Some(id) => drawn(id).map(|module| module.name.clone()).unwrap_or_default(),
        None if heated.modules.is_empty() => "House".to_owned(),
        None => "In no module".to_owned(),
    }
}

fn product(part: &AreaPart, units: Units) -> String {
    let area = pencil(part.area, units);
    match part.method {
        AreaMethod::Sides { width, length } => format!("{} x {} = {area}", side(length, units), side(width, units)),
        AreaMethod::Coordinates { .. } => format!("by the coordinates of its corners = {area}"),
    }
}

/// The corners of a part that is no rectangle, with what each contributes; empty for a rectangle.
fn traverse(part: &AreaPart, units: Units) -> String {
    let boundaries = part.traverse();
    let corners = boundaries.iter().enumerate().flat_map(|(index, corners)| {
        corners.iter().enumerate().map(move |(number, corner)| {
            let number = if index == 0 { format!("{}", number + 1) } else { format!("hole {index}, {}", number + 1) };
            [number, side(corner.at.x, units), side(corner.at.y, units), pencil(corner.product, units)]
        })
    });
    let rows: Vec<[String; 4]> = corners.collect();
    if rows.is_empty() {
        return String::new();
    }
    let head = ["corner", "x", "y", "x times next y, less next x times y"];
    format!("{}  The area is half of the sum of the last column.\n", table(head, &rows))
}

fn side(value: Length, units: Units) -> String {
    show::length(Exact::from(i128::from(value.steps())), units)
}

/// An area with as many places as a sum on paper needs: three, rounded for show.
fn pencil(value: Area, units: Units) -> String {
    const PLACES: usize = 3;
    const POWER: i128 = 10_i128.pow(PLACES as u32);
    let (unit, word) = show::area_unit(units);
    let scaled = value.square_steps().abs() * POWER;
    let nearest = (2 * scaled + unit) / (2 * unit);
    let sign = if value < Area::ZERO && nearest > 0 { "-" } else { "" };
    let text = format!("{sign}{}.{:0PLACES$}", nearest / POWER, nearest % POWER);
    format!("{} {word}", text.trim_end_matches('0').trim_end_matches('.'))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn areas_for_a_sum_on_paper() {
        let square = |inches: i64| Area::of_rectangle(Length::inches(inches), Length::INCH);
        assert_eq!(pencil(square(696 * 165), Units::In), "797.5 sq ft");
        assert_eq!(pencil(square(672 * 320), Units::In), "1493.333 sq ft");
        assert_eq!(pencil(Area::ZERO - square(18), Units::In), "-0.125 sq ft");
        assert_eq!(pencil(Area::ZERO, Units::Mm), "0 sq m");
    }
}
