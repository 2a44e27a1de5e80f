//! Dimension strings outside the house, to finished faces: openings nearest to the wall, then partitions, then modules,
//! then the whole.

mod cuts;
mod figures;
mod string;

use kurbo::{Point, Rect};
use plan_geometry::Derived;
use plan_model::{Home, Length, Side, Units};

use crate::plan_drawing::{SMALLEST_LETTERING, house};
use crate::{Drawing, marks, site};
use string::{Direction, Laid, Row};

/// From what stands outside to the first string, in heights of lettering.
const FIRST_ROW: f64 = 3.0;
/// From string to string where no figure needs more.
const ROW: f64 = 2.4;
/// Parts of the string of openings that are shorter go without a figure: they are narrow posts between two units.
const LEAST_NAMED: Length = Length::from_steps(4 * Length::INCH.steps());

/// Which dimension strings are drawn.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Hash)]
pub enum Rows {
    /// Openings, partitions, modules and the whole.
    #[default]
    All,
    /// Partitions and the whole.
    PartitionsAndOverall,
    /// The whole alone.
    Overall,
}

/// Draws the strings of all four sides. `lettering` is the height of capitals in plan inches.
#[must_use]
pub fn dimension_strings(home: &Home<'_>, derived: &Derived, rows: Rows, lettering: f64) -> Drawing {
    let lettering = lettering.max(SMALLEST_LETTERING);
    let mut drawing = Drawing::default();
    let Some(house) = house(home, derived) else { return drawing };
    let clear = clear_of_strings(home, house, lettering);
    for side in [Side::Front, Side::Back, Side::Left, Side::Right] {
        let direction = Direction::new(side);
        let rows = wanted_rows(home, derived, direction, rows, lettering);
        let laid: Vec<Laid<'_>> = rows
            .iter()
            .enumerate()
            .map(|(index, row)| Laid::new(row, direction, &cuts_of(&rows[index + 1..]), lettering))
            .collect();
        let mut level = direction.outermost(clear) + (FIRST_ROW - CLEAR) * lettering;
        let mut levels = Vec::new();
        for (index, row) in laid.iter().enumerate() {
            levels.push(level);
            row.draw(&mut drawing, direction, level, lettering);
            level += laid.get(index + 1).map_or(0.0, |next| row.distance_to(next, ROW, lettering)) * lettering;
        }
        draw_extensions(&mut drawing, home, direction, &rows, &levels, house, lettering);
    }
    drawing
}

/// Heights of lettering between what stands outside and the nearest figure of a string.
const CLEAR: f64 = FIRST_ROW - figures::Level::OUTREACH;

/// The rectangle around the house, its porches, landings and roofs that dimension strings keep out of; only extension
/// lines reach into it.
pub(crate) fn clear_of_strings(home: &Home<'_>, house: Rect, lettering: f64) -> Rect {
    let reach = site::reach(home, house);
    let words = marks::mate_words(home, house, lettering);
    words.map_or(reach, |words| reach.union(words)).inset(CLEAR * lettering)
}

fn cuts_of(rows: &[Row]) -> Vec<f64> {
    rows.iter().flat_map(Row::at).map(|cut| cut.to_inches()).collect()
}

fn wanted_rows(home: &Home<'_>, derived: &Derived, direction: Direction, rows: Rows, lettering: f64) -> Vec<Row> {
    let (cuts, units) = (cuts::Cuts::new(home, derived, direction.side()), home.plan.units);
    let row = |at: Vec<Length>| Row::new(at, units);
    match rows {
        Rows::All => all_rows(&cuts, direction, lettering, units),
        Rows::PartitionsAndOverall => saying_something_new(vec![row(cuts.partitions())], row(cuts.whole())),
        Rows::Overall => saying_something_new(Vec::new(), row(cuts.whole())),
    }
}

/// The strings of one side from the wall outwards.
fn all_rows(cuts: &cuts::Cuts, direction: Direction, lettering: f64, units: Units) -> Vec<Row> {
    let row = |at: Vec<Length>| Row::new(at, units);
    let outer = [cuts.partitions(), cuts.modules(), cuts.whole()].map(row);
    let jambs = row(cuts.jambs()).without_parts_under(LEAST_NAMED);
    let is_roomy = Laid::new(&jambs, direction, &cuts_of(&outer), lettering).is_roomy();
    let openings = if is_roomy { jambs } else { row(cuts.centres()).without_parts_under(LEAST_NAMED) };
    let [partitions, modules, whole] = outer;
    saying_something_new(vec![openings, partitions, modules], whole)
}

/// Leaves out strings that say nothing new.
fn saying_something_new(rows: Vec<Row>, whole: Row) -> Vec<Row> {
    let mut kept: Vec<Row> = Vec::new();
    for row in rows {
        if row.at() != whole.at() && kept.iter().all(|other| other.at() != row.at()) {
            kept.push(row);
        }
    }
    kept.push(whole);
    kept.retain(|row| row.at().len() > 1);
    kept
}

/// The lines from the house to the strings, from each cut to the outermost string that has it.
fn draw_extensions(
    drawing: &mut Drawing,
    home: &Home<'_>,
    direction: Direction,
    rows: &[Row],
    levels: &[f64],
    house: Rect,
    lettering: f64,
) {
    let mut cuts: Vec<(Length, f64)> = Vec::new();
    for (row, level) in rows.iter().zip(levels).rev() {
        for cut in row.at() {
            if cuts.iter().all(|(other, _)| other != cut) {
                cuts.push((*cut, *level));
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
        let to = level + string::TICK * lettering;
        let ends: [Point; 2] = [direction.place(along, from), direction.place(along, to)];
        string::extension(drawing, ends);
    }
}

#[cfg(test)]
mod tests;
