//! What does not fit, marked on its place at all times.

use egui::epaint::PathStroke;
use egui::{Color32, FontId, Painter, Pos2, Rect, Shape, Stroke, StrokeKind, pos2, vec2};
use plan_drawing::Ink;

use super::Camera;
use super::highlight::inches;
use crate::session::Shown;
use crate::theme;

/// Between two lines of the hatch, in screen points.
const HATCH: f32 = 6.0;

/// As near as this, in screen points, words are read for a place.
const SAID_NEAR: f32 = 12.0;

/// Hatches the ground that two things need, frames it and says so beside it; the words keep clear of `taken` places.
pub(super) fn paint(shown: &Shown, camera: &Camera, board: Rect, taken: &[Rect], painter: &Painter) {
    let ink = theme::ink(Ink::Caution);
    let mut said: Vec<Rect> = Vec::new();
    for conflict in &shown.conflicts {
        let outlines = conflict.outlines.iter();
        let outlines: Vec<Vec<Pos2>> = outlines
            .map(|outline| outline.iter().map(|corner| camera.to_screen(inches(*corner), board)).collect())
            .collect();
        for outline in &outlines {
            painter.extend(hatch(outline, Stroke::new(1.2, ink)));
            painter.add(Shape::closed_line(outline.clone(), PathStroke::new(2.5, ink)));
        }
        let places = conflict.places.iter().map(|place| camera.to_screen(inches(*place), board));
        let corners: Vec<Pos2> = outlines.iter().flatten().copied().chain(places).collect();
        let around = Rect::from_points(&corners).expand(4.0);
        if outlines.is_empty() {
            painter.rect_stroke(around, 6.0, Stroke::new(2.5, ink), StrokeKind::Outside);
        }
        // Several conflicts at one place need the words only once.
        if !said.iter().any(|other| other.intersects(around.expand(SAID_NEAR))) {
            said.push(words(around, board, taken, ink, painter));
        }
    }
}

/// Gives the place of the words.
fn words(around: Rect, board: Rect, taken: &[Rect], ink: Color32, painter: &Painter) -> Rect {
    let galley = painter.layout_no_wrap("does not fit".to_owned(), FontId::new(theme::SMALL, theme::bold()), ink);
    let size = galley.size() + vec2(12.0, 6.0);
    let off = size / 2.0 + vec2(5.0, 5.0);
    let middles = [
        pos2(around.center().x, around.top() - off.y),
        pos2(around.center().x, around.bottom() + off.y),
        pos2(around.right() + off.x, around.center().y),
        pos2(around.left() - off.x, around.center().y),
    ];
    let places = middles.map(|middle| Rect::from_center_size(middle, size));
    let is_free = |place: &&Rect| board.contains_rect(**place) && !taken.iter().any(|other| other.intersects(**place));
    let place = *places.iter().find(is_free).unwrap_or(&places[0]);
    painter.rect(place, 3.0, theme::CARD, Stroke::new(1.5, ink), StrokeKind::Inside);
    painter.galley(place.center() - galley.size() / 2.0, galley, ink);
    place
}

/// Lines across a shape, rising to the right.
fn hatch(outline: &[Pos2], stroke: Stroke) -> Vec<Shape> {
    let level = |point: Pos2| point.x + point.y;
    let along = |point: Pos2| point.x - point.y;
    let bounds = Rect::from_points(outline);
    let mut shapes = Vec::new();
    // Levels are counted from the shape's own corner, so that the hatch moves with the plan.
    let mut at = bounds.left() + bounds.top() + HATCH;
    while at < bounds.right() + bounds.bottom() {
        let sides = outline.iter().zip(outline.iter().cycle().skip(1));
        let crossed = sides.filter(|(a, b)| (level(**a) > at) != (level(**b) > at));
        let mut stops: Vec<f32> = crossed
            .map(|(a, b)| along(*a) + (along(*b) - along(*a)) * (at - level(*a)) / (level(*b) - level(*a)))
            .collect();
        stops.sort_by(f32::total_cmp);
        for ends in stops.chunks_exact(2) {
            let end = |stop: f32| pos2((at + stop) / 2.0, (at - stop) / 2.0);
            shapes.push(Shape::line_segment([end(ends[0]), end(ends[1])], stroke));
        }
        at += HATCH;
    }
    shapes
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_hatch_stays_inside_its_shape() {
        let outline = [pos2(10.0, 10.0), pos2(50.0, 10.0), pos2(50.0, 22.0), pos2(10.0, 22.0)];
        let bounds = Rect::from_points(&outline).expand(0.01);
        let lines = hatch(&outline, Stroke::new(1.0, Color32::BLACK));
        assert!(lines.len() > 5);
        for line in lines {
            let Shape::LineSegment { points, .. } = line else { panic!("{line:?}") };
            assert!(points.iter().all(|end| bounds.contains(*end)), "{points:?}");
        }
    }
}
