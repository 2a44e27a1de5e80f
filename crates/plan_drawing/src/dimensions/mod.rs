//! Dimension strings outside the house, to finished faces: openings nearest to the wall, then partitions, then modules,
//! then the whole.

mod cuts;
mod string;

use kurbo::{Point, Rect};
use plan_geometry::Derived;
use plan_model::{Home, Length, Side, Units};

use crate::plan_drawing::{SMALLEST_LETTERING, house};
use crate::{Drawing, marks, site};
use string::{Direction, Row};

/// From what stands outside to the first string, in heights of lettering.
const FIRST_ROW: f64 = 2.6;
/// From string to string.
const ROW: f64 = 3.9;

/// Draws the strings of all four sides. `lettering` is the height of capitals in plan inches.
#[must_use]
pub fn dimension_strings(home: &Home<'_>, derived: &Derived, lettering: f64) -> Drawing {
    let lettering = lettering.max(SMALLEST_LETTERING);
    let mut drawing = Drawing::default();
    let Some(house) = house(home, derived) else { return drawing };
    let units = home.plan.units;
    let reach = site::reach(home, house);
    let roofs = site::roofs(home, house);
    for side in [Side::Front, Side::Back, Side::Left, Side::Right] {
        let direction = Direction::new(side);
        // The mate line's mark stands in the way at the ends of the house.
        let mark =
            if meets_mate_line(home, direction) { (marks::MATE_MARK - FIRST_ROW + 1.8) * lettering } else { 0.0 };
        let clear = direction.outermost(reach).max(direction.outermost(roofs) + mark);
        let first = clear + FIRST_ROW * lettering;
        let rows = rows(home, derived, direction, lettering, units);
        for (index, row) in rows.iter().enumerate() {
            let level = first + ROW * lettering * f64::from(u32::try_from(index).unwrap_or(0));
            let crossed_at: Vec<Length> = rows[index + 1..].iter().flat_map(Row::at).copied().collect();
            string::draw(&mut drawing, direction, level, row, &crossed_at, lettering);
        }
        draw_extensions(&mut drawing, home, direction, &rows, first, house, lettering);
    }
    drawing
}

/// The strings of one side from the wall outwards; a string that says nothing new is left out.
fn rows(home: &Home<'_>, derived: &Derived, direction: Direction, lettering: f64, units: Units) -> Vec<Row> {
    let cuts = cuts::Cuts::new(home, derived, direction.side());
    let row = |at: Vec<Length>| Row::new(at, units);
    let mut rows = Vec::new();
    let outer = [cuts.partitions(), cuts.modules(), cuts.whole()].map(row);
    let crossed_at: Vec<Length> = outer.iter().flat_map(Row::at).copied().collect();
    let jambs = row(cuts.jambs());
    rows.push(if jambs.fits(direction, &crossed_at, lettering) { jambs } else { row(cuts.centres()) });
    rows.extend(outer);
    let mut kept: Vec<Row> = Vec::new();
    let whole = rows.pop();
    for row in rows {
        if whole.as_ref().is_some_and(|whole| whole.at() != row.at()) && kept.iter().all(|other| other.at() != row.at())
        {
            kept.push(row);
        }
    }
    kept.extend(whole);
    kept.retain(|row| row.at().len() > 1);
    kept
}

fn meets_mate_line(home: &Home<'_>, direction: Direction) -> bool {
    home.plan.mate_line.is_some_and(|mate| {
        let span = mate.to - mate.from;
        direction.runs_across() == (span.y.abs() > span.x.abs())
    })
}

/// The lines from the house to the strings, from each cut to the outermost string that has it.
fn draw_extensions(
    drawing: &mut Drawing,
    home: &Home<'_>,
    direction: Direction,
    rows: &[Row],
    first: f64,
    house: Rect,
    lettering: f64,
) {
    let mut cuts: Vec<(Length, f64)> = Vec::new();
    for (index, row) in rows.iter().enumerate().rev() {
        let level = first + ROW * lettering * f64::from(u32::try_from(index).unwrap_or(0));
        for cut in row.at() {
            if cuts.iter().all(|(other, _)| other != cut) {
                cuts.push((*cut, level));
            }
        }
    }
    let outdoors: Vec<Rect> = site::floors(home).collect();
    for (cut, level) in cuts {
        let along = cut.to_inches();
        let start = outdoors
            .iter()
            .filter(|floor| direction.spans(**floor, along))
            .map(|floor| direction.outermost(*floor))
            .fold(direction.outermost(house), f64::max);
        let from = start + 0.7 * lettering;
        let to = level + 0.32 * lettering;
        let ends: [Point; 2] = [direction.place(along, from), direction.place(along, to)];
        string::extension(drawing, ends);
    }
}

#[cfg(test)]
mod tests;
