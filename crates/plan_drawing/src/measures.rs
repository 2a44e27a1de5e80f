//! Measures shown on the plan, in the blue pencil of a draughtsman: the distance between the two faces that make it, the
//! way that is walked, the ground that counts, with the figure beside it.

use kurbo::{BezPath, Point, Shape, Vec2};
use plan_geometry::{Mark, Measure};
use plan_model::Units;
use plan_rules::show;

use crate::plan_drawing::SMALLEST_LETTERING;
use crate::shapes::{circle, line, lines, place, polygon, rounded, together};
use crate::{Align, Drawing, Face, Ink, Item, Lettering, Pen};

/// Draws what shows a measure, and how much it is. `lettering` is the height of capitals in plan inches, the same as for the
/// plan below. A measure without a place on the plan gives an empty drawing.
#[must_use]
pub fn measure_marks(measure: &Measure, units: Units, lettering: f64) -> Drawing {
    let lettering = lettering.max(SMALLEST_LETTERING);
    let mut drawing = Drawing::default();
    draw_marks(&mut drawing, &measure.marks, lettering);
    if let Some(at) = measure.marks.first().and_then(|mark| figure_place(mark, lettering)) {
        draw_figure(&mut drawing, show::amount(&measure.amount, units), at, lettering);
    }
    drawing
}

/// Draws marks without a figure.
pub(crate) fn draw_marks(drawing: &mut Drawing, marks: &[Mark], lettering: f64) {
    // Grounds lie below, so that no wash hides a line.
    for mark in marks {
        if let Some(shape) = ground(mark) {
            drawing.fill(shape.clone(), Ink::MeasureWash);
            drawing.stroke(shape, Pen::MEASURE, Ink::Measure);
        }
    }
    for mark in marks {
        match mark {
            Mark::Span(ends) => draw_span(drawing, ends.map(place), lettering),
            Mark::Way(points) => {
                draw_way(drawing, &points.iter().copied().map(place).collect::<Vec<_>>(), lettering);
            }
            Mark::Disc { .. } | Mark::Ground(_) => {}
        }
    }
}

/// The closed shape of a mark that covers ground.
fn ground(mark: &Mark) -> Option<BezPath> {
    match mark {
        Mark::Disc { centre, diameter } => Some(circle(place(*centre), diameter.to_inches() / 2.0)),
        Mark::Ground(corners) if corners.len() > 2 => Some(polygon(corners.iter().copied().map(place))),
        Mark::Ground(_) | Mark::Span(_) | Mark::Way(_) => None,
    }
}

/// A dimension with short lines along the faces and ticks; a dot where the two places are one.
fn draw_span(drawing: &mut Drawing, [a, b]: [Point; 2], lettering: f64) {
    if a == b {
        drawing.fill(circle(a, 0.3 * lettering), Ink::Measure);
        return;
    }
    let along = (b - a).normalize();
    let square = Vec2::new(-along.y, along.x);
    let (across, tick) = (square * (0.8 * lettering), (along + square) * (0.42 * lettering));
    drawing.stroke(line(a, b), Pen::MEASURE, Ink::Measure);
    drawing.stroke(lines([a, b].map(|end| (end - across, end + across))), Pen::FINE, Ink::Measure);
    drawing.stroke(lines([a, b].map(|end| (end - tick, end + tick))), Pen::solid(0.6), Ink::Measure);
}

/// A line from a dot where the way begins to an arrowhead where it ends.
fn draw_way(drawing: &mut Drawing, points: &[Point], lettering: f64) {
    let [first, .., before, last] = points else {
        if let [first, last] = points {
            draw_way(drawing, &[*first, first.midpoint(*last), *last], lettering);
        }
        return;
    };
    drawing.stroke(together(points.windows(2).map(|ends| line(ends[0], ends[1]))), Pen::MEASURE, Ink::Measure);
    drawing.fill(circle(*first, 0.45 * lettering), Ink::Measure);
    if before != last {
        let back = (*before - *last).normalize() * lettering;
        let aside = Vec2::new(-back.y, back.x) * 0.4;
        drawing.fill(polygon([*last, *last + back + aside, *last + back - aside]), Ink::Measure);
    }
}

/// Where the figure stands: beside the middle of a line, in the middle of ground.
fn figure_place(mark: &Mark, lettering: f64) -> Option<Point> {
    match mark {
        Mark::Span(ends) => {
            let [a, b] = ends.map(place);
            let along = if a == b { Vec2::new(1.0, 0.0) } else { (b - a).normalize() };
            // Above a line across the drawing, to the right of one that runs up.
            let square = Vec2::new(-along.y, along.x);
            let up = if square.y.abs() > 0.3 { square * square.y.signum() } else { square * square.x.signum() };
            Some(
                a.midpoint(b)
                    + up * (1.9 * lettering)
                    + Vec2::new(if up.y.abs() > 0.3 { 0.0 } else { 1.6 * lettering }, 0.0),
            )
        }
        Mark::Way(points) => halfway(&points.iter().copied().map(place).collect::<Vec<_>>()),
        Mark::Disc { centre, .. } => Some(place(*centre)),
        Mark::Ground(_) => ground(mark).map(|shape| shape.bounding_box().center()),
    }
}

/// The place half way along a way.
fn halfway(points: &[Point]) -> Option<Point> {
    let mut left = points.windows(2).map(|ends| ends[0].distance(ends[1])).sum::<f64>() / 2.0;
    for ends in points.windows(2) {
        let length = ends[0].distance(ends[1]);
        if left <= length && length > 0.0 {
            return Some(ends[0].lerp(ends[1], left / length));
        }
        left -= length;
    }
    points.first().copied()
}

/// The figure on a plate of its own, so that it can be read over whatever lies below.
fn draw_figure(drawing: &mut Drawing, text: String, at: Point, lettering: f64) {
    let figure = Lettering {
        text,
        at,
        height: lettering,
        angle: 0.0,
        face: Face::Bold,
        align: Align::Centre,
        ink: Ink::Measure,
    };
    let plate = figure.bounds().inflate(0.7 * lettering, 0.6 * lettering);
    let plate = rounded(plate.x0, plate.y0, plate.x1, plate.y1, 0.5 * lettering);
    drawing.fill(plate.clone(), Ink::Floor);
    drawing.stroke(plate, Pen::FINE, Ink::Measure);
    drawing.items.push(Item::Text(figure));
}

#[cfg(test)]
mod tests {
    use plan_geometry::{Amount, MeasureName, Measured};
    use plan_model::{Length, Point as Place};

    use super::*;

    fn drawn(marks: Vec<Mark>) -> Drawing {
        let amount = Amount::Length(Measured::exact(Length::inches(36)));
        let measure = Measure { name: MeasureName::PassageWidth, part: None, of: vec!["hall".into()], amount, marks };
        measure_marks(&measure, Units::In, 4.0)
    }

    fn figures(drawing: &Drawing) -> Vec<&str> {
        let text = |item: &'_ Item| matches!(item, Item::Text(_));
        let figures = drawing.items.iter().filter(|item| text(item));
        figures.filter_map(|item| if let Item::Text(text) = item { Some(text.text.as_str()) } else { None }).collect()
    }

    #[test]
    fn every_mark_is_drawn_with_its_figure() {
        let corners = [(0, 0), (36, 0), (36, 24), (0, 24)].map(|(x, y)| Place::inches(x, y)).to_vec();
        for mark in [
            Mark::Span([Place::inches(0, 0), Place::inches(36, 0)]),
            Mark::Way(corners[..2].to_vec()),
            Mark::Way(corners.clone()),
            Mark::Disc { centre: Place::inches(10, 10), diameter: Length::inches(60) },
            Mark::Ground(corners),
        ] {
            let drawing = drawn(vec![mark.clone()]);
            assert_eq!(figures(&drawing), ["3'-0\""], "{mark:?}");
            let lines = drawing.items.iter().filter(|item| matches!(item, Item::Stroke { ink: Ink::Measure, .. }));
            assert!(lines.count() >= 2, "{mark:?}");
        }
    }

    #[test]
    fn what_has_no_place_or_no_length_does_not_fail() {
        assert!(drawn(Vec::new()).items.is_empty());
        let here = Place::inches(5, 5);
        for mark in [Mark::Span([here, here]), Mark::Way(vec![here]), Mark::Way(vec![here, here]), Mark::Ground(vec![])]
        {
            let bounds = drawn(vec![mark]).bounds();
            assert!(bounds.is_none_or(|bounds| bounds.is_finite()), "{bounds:?}");
        }
    }

    #[test]
    fn a_figure_stands_half_way_along_a_way() {
        let way = [(0.0, 0.0), (30.0, 0.0), (30.0, 50.0)].map(Point::from);
        assert_eq!(halfway(&way), Some(Point::new(30.0, 10.0)));
    }
}
