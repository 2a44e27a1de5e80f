use kurbo::{Point, Rect, Vec2};
use plan_model::{Length, Side, Units};

use crate::lettering::width_per_height;
use crate::shapes::{line, lines};
use crate::{Align, Drawing, Face, Ink, Item, Lettering, Pen, notation};

/// Between the string and the foot of its lettering, in heights of lettering.
const GAP: f64 = 0.55;
/// Least space between two figures side by side.
const APART: f64 = 0.6;

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
    pub(super) const fn runs_across(self) -> bool {
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

    /// 1 where "above the string", as one reads it, is away from the house; -1 where it is towards it.
    const fn above(self) -> f64 {
        match self.side {
            Side::Back | Side::Left => 1.0,
            Side::Front | Side::Right => -1.0,
        }
    }
}

/// One string: where it is cut, and what each part says.
#[derive(Clone, Debug)]
pub(super) struct Row {
    at: Vec<Length>,
    figures: Vec<String>,
}

impl Row {
    pub(super) fn new(at: Vec<Length>, units: Units) -> Self {
        let figures = at.windows(2).map(|pair| notation::length(pair[1] - pair[0], units)).collect();
        Self { at, figures }
    }

    pub(super) fn at(&self) -> &[Length] {
        &self.at
    }

    #[cfg(test)]
    pub(super) fn figures(&self) -> &[String] {
        &self.figures
    }

    /// Whether every figure finds a place.
    pub(super) fn fits(&self, direction: Direction, crossed_at: &[Length], lettering: f64) -> bool {
        self.figures_in_place(direction, crossed_at, lettering).iter().all(Option::is_some)
    }

    /// Where each figure stands; none where there is no room for it.
    ///
    /// A figure that fits between its ticks stands there, above the string. The others stand over their ticks, first
    /// on the side away from the house, where few extension lines run, shifted a little if a neighbour is in the way.
    /// `crossed_at` are the extension lines that pass through on their way to other strings: figures between ticks keep
    /// clear of them where they can.
    fn figures_in_place(
        &self,
        direction: Direction,
        crossed_at: &[Length],
        lettering: f64,
    ) -> Vec<Option<FigurePlace>> {
        let apart = APART * lettering;
        let spans: Vec<(f64, f64, f64)> = self
            .at
            .windows(2)
            .zip(&self.figures)
            .map(|(pair, figure)| (pair[0].to_inches(), pair[1].to_inches(), width_per_height(figure) * lettering))
            .collect();
        let above = direction.above();
        let fitting = |&(from, to, width): &(f64, f64, f64)| {
            let middle = between_crossings(from, to, crossed_at, width + apart);
            (width + apart <= to - from).then_some(FigurePlace { middle, out: above })
        };
        let mut places: Vec<Option<FigurePlace>> = spans.iter().map(fitting).collect();
        for (index, &(from, to, width)) in spans.iter().enumerate() {
            if places[index].is_none() {
                let is_free = |place: &FigurePlace| {
                    let others = places.iter().zip(&spans).filter_map(|(other, span)| Some((other.as_ref()?, span.2)));
                    let on_level = others.filter(|(other, _)| other.out.total_cmp(&place.out).is_eq());
                    on_level.into_iter().all(|(other, other_width)| {
                        (other.middle - place.middle).abs() >= (width + other_width) / 2.0 + apart
                    })
                };
                let middle = (from + to) / 2.0;
                let shifts = [0.0, 0.2, -0.2, 0.4, -0.4, 0.6, -0.6].map(|part| middle + part * width);
                let on = |out: f64| shifts.map(|middle| FigurePlace { middle, out });
                let is_crossed = |place: &FigurePlace| {
                    let (low, high) = (place.middle - width / 2.0, place.middle + width / 2.0);
                    crossed_at.iter().map(|cut| cut.to_inches()).any(|cut| low < cut && cut < high)
                };
                let uncrossed = on(1.0).into_iter().filter(|place| !is_crossed(place));
                let tried = uncrossed.chain(on(1.0)).chain(on(-1.0));
                places[index] = tried.into_iter().find(is_free);
            }
        }
        places
    }
}

/// The place nearest to the middle of a part where a figure is not crossed; the middle if there is none.
fn between_crossings(from: f64, to: f64, crossed_at: &[Length], width: f64) -> f64 {
    let middle = (from + to) / 2.0;
    let crossings = crossed_at.iter().map(|cut| cut.to_inches()).filter(|cut| from < *cut && *cut < to);
    let mut stops: Vec<f64> = std::iter::once(from).chain(crossings).chain([to]).collect();
    stops.sort_by(f64::total_cmp);
    let free = stops.windows(2).filter(|stop| stop[1] - stop[0] >= width);
    let nearest = free.map(|stop| middle.clamp(stop[0] + width / 2.0, stop[1] - width / 2.0));
    nearest.min_by(|a, b| (a - middle).abs().total_cmp(&(b - middle).abs())).unwrap_or(middle)
}

/// Where a figure stands on its string.
#[derive(Clone, Copy, Debug)]
struct FigurePlace {
    /// Along the string.
    middle: f64,
    /// 1 on the side away from the house, -1 towards it.
    out: f64,
}

/// Draws a string at a distance out: line, ticks, figures.
pub(super) fn draw(
    drawing: &mut Drawing,
    direction: Direction,
    level: f64,
    row: &Row,
    crossed_at: &[Length],
    lettering: f64,
) {
    let along: Vec<f64> = row.at.iter().map(|cut| cut.to_inches()).collect();
    let (Some(first), Some(last)) = (along.first(), along.last()) else { return };
    let past = 0.5 * lettering;
    let string = line(direction.place(first - past, level), direction.place(last + past, level));
    drawing.stroke(string, Pen::FINE, Ink::Dimension);
    let tick = Vec2::new(1.0, 1.0) * (0.32 * lettering);
    let ticks = along.iter().map(|cut| direction.place(*cut, level)).map(|at| (at - tick, at + tick));
    drawing.stroke(lines(ticks), Pen::OBJECT, Ink::Dimension);
    for (figure, place) in row.figures.iter().zip(row.figures_in_place(direction, crossed_at, lettering)) {
        let Some(FigurePlace { middle, out }) = place else { continue };
        let out = level + (GAP + 0.5) * lettering * out;
        drawing.items.push(Item::Text(Lettering {
            text: figure.clone(),
            at: direction.place(middle, out),
            height: lettering,
            angle: if direction.runs_across() { 0.0 } else { 90.0 },
            face: Face::Regular,
            align: Align::Centre,
            ink: Ink::Dimension,
        }));
    }
}

/// A line from the house to the strings.
pub(super) fn extension(drawing: &mut Drawing, [from, to]: [Point; 2]) {
    drawing.stroke(line(from, to), Pen::LIGHT, Ink::Dimension);
}
