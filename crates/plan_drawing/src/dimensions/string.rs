use kurbo::{Point, Rect, Vec2};
use plan_model::{Length, Side, Units};

use super::figures::{self, Figure, Level};
use crate::shapes::{line, lines};
use crate::{Align, Drawing, Face, Ink, Item, Lettering, Pen, notation};

/// How far ticks and extension lines reach beyond a string, in heights of lettering.
pub(super) const TICK: f64 = 0.32;

/// A side of the house as directions: along it (to the right or up) and out from it.
#[derive(Clone, Copy, Debug)]
pub(super) struct Direction {
    side: Side,
}

impl Direction {
    pub(super) const fn new(side: Side) -> Self {
        Self { side }
    }

    pub(super) const fn side(self) -> Side {
        self.side
    }

    /// Whether strings of this side run from left to right.
    const fn runs_across(self) -> bool {
        matches!(self.side, Side::Front | Side::Back)
    }

    /// The point at a coordinate along the side and a distance out, both from the origin of the plan.
    pub(super) fn place(self, along: f64, out: f64) -> Point {
        match self.side {
            Side::Front => Point::new(along, -out),
            Side::Back => Point::new(along, out),
            Side::Left => Point::new(-out, along),
            Side::Right => Point::new(out, along),
        }
    }

    pub(super) fn outermost(self, rect: Rect) -> f64 {
        match self.side {
            Side::Front => -rect.y0,
            Side::Back => rect.y1,
            Side::Left => -rect.x0,
            Side::Right => rect.x1,
        }
    }

    /// Whether a rectangle reaches over a coordinate along the side.
    pub(super) fn spans(self, rect: Rect, along: f64) -> bool {
        let (from, to) = if self.runs_across() { (rect.x0, rect.x1) } else { (rect.y0, rect.y1) };
        from < along && along < to
    }

    /// "Above the string", as one reads it: away from the house, or towards it.
    const fn above(self) -> Level {
        match self.side {
            Side::Back | Side::Left => Level::Outward,
            Side::Front | Side::Right => Level::Inward,
        }
    }
}

/// One string: where it is cut, and what each part says.
#[derive(Clone, Debug)]
pub(super) struct Row {
    at: Vec<Length>,
    figures: Vec<String>,
    /// Parts shorter than this go without their figure.
    least_named: Length,
}

impl Row {
    pub(super) fn new(at: Vec<Length>, units: Units) -> Self {
        let figures = at.windows(2).map(|pair| notation::length(pair[1] - pair[0], units)).collect();
        Self { at, figures, least_named: Length::ZERO }
    }

    pub(super) fn without_parts_under(self, least_named: Length) -> Self {
        Self { least_named, ..self }
    }

    pub(super) fn at(&self) -> &[Length] {
        &self.at
    }

    #[cfg(test)]
    pub(super) fn figures(&self) -> &[String] {
        &self.figures
    }

    /// The parts that say their length, from where to where.
    pub(super) fn named_parts(&self) -> impl Iterator<Item = (f64, f64, &str)> {
        let parts = self.at.windows(2).zip(&self.figures);
        let named = parts.filter(|(pair, _)| pair[1] - pair[0] >= self.least_named);
        named.map(|(pair, figure)| (pair[0].to_inches(), pair[1].to_inches(), figure.as_str()))
    }
}

/// A string with every figure in its place.
pub(super) struct Laid<'row> {
    row: &'row Row,
    figures: Vec<Figure<'row>>,
}

impl<'row> Laid<'row> {
    /// Finds a place for every figure. `crossed_at` are the extension lines that pass through on their way to strings
    /// farther out.
    pub(super) fn new(row: &'row Row, direction: Direction, crossed_at: &[f64], lettering: f64) -> Self {
        Self { row, figures: figures::place(row, direction.above(), crossed_at, lettering) }
    }

    /// Whether every figure stands at its string, without a leader.
    pub(super) fn is_roomy(&self) -> bool {
        self.figures.len() == self.row.named_parts().count()
            && self.figures.iter().all(|figure| figure.leader.is_none())
    }

    /// The least distance to the next string outwards at which no figure of either touches the other, in heights of
    /// lettering.
    pub(super) fn distance_to(&self, next: &Self, least: f64, lettering: f64) -> f64 {
        let outward = self.figures.iter().filter(|figure| figure.level != Level::Inward);
        let inward = || next.figures.iter().filter(|figure| figure.level == Level::Inward);
        outward.fold(least, |distance, figure| {
            let top = figure.level.span().1;
            let beside = inward().any(|other| figure.is_beside(other, lettering));
            let below_next = if beside { Level::OUTREACH + figures::BETWEEN } else { figures::GAP };
            distance.max(top + below_next)
        })
    }

    /// Draws it at a distance out: line, ticks, figures.
    pub(super) fn draw(&self, drawing: &mut Drawing, direction: Direction, level: f64, lettering: f64) {
        let along: Vec<f64> = self.row.at.iter().map(|cut| cut.to_inches()).collect();
        let (Some(first), Some(last)) = (along.first(), along.last()) else { return };
        let past = 0.5 * lettering;
        let string = line(direction.place(first - past, level), direction.place(last + past, level));
        drawing.stroke(string, Pen::FINE, Ink::Dimension);
        let tick = Vec2::new(1.0, 1.0) * (TICK * lettering);
        let ticks = along.iter().map(|cut| direction.place(*cut, level)).map(|at| (at - tick, at + tick));
        drawing.stroke(lines(ticks), Pen::OBJECT, Ink::Dimension);
        for figure in &self.figures {
            if let Some([from, to]) = figure.leader {
                let at = |(along, out): (f64, f64)| direction.place(along, level + out * lettering);
                drawing.stroke(line(at(from), at(to)), Pen::LIGHT, Ink::Dimension);
            }
            let (foot, head) = figure.level.span();
            drawing.items.push(Item::Text(Lettering {
                text: figure.text.to_owned(),
                at: direction.place(figure.middle, level + (foot + head) / 2.0 * lettering),
                height: lettering,
                angle: if direction.runs_across() { 0.0 } else { 90.0 },
                face: Face::Regular,
                align: Align::Centre,
                ink: Ink::Dimension,
            }));
        }
    }
}

/// A line from the house to the strings.
pub(super) fn extension(drawing: &mut Drawing, [from, to]: [Point; 2]) {
    drawing.stroke(line(from, to), Pen::LIGHT, Ink::Dimension);
}
