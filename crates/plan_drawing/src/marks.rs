//! Marks beside the plan: mate line, graphic scale, the front, and north.

use kurbo::{Point, Rect, Vec2};
use plan_model::{Home, Units};

use crate::lettering::width_per_height;
use crate::shapes::{circle, line, place, polygon, rect};
use crate::{Align, Drawing, Face, Ink, Item, Lettering, Pen};

/// How far the mate line's mark reaches from the roof's edge, in heights of lettering; dimension strings begin beyond.
pub(crate) const MATE_MARK: f64 = 5.2;

/// The mate line beyond both ends of the house, named above and below the line.
pub(crate) fn draw_mate_line(drawing: &mut Drawing, home: &Home<'_>, roofs: Rect, lettering: f64) {
    const DASH_DOT: [(f64, f64); 3] = [(0.0, 0.56), (0.68, 0.74), (0.86, 1.0)];
    let Some(mate) = home.plan.mate_line.filter(|mate| mate.from != mate.to) else { return };
    let (from, to) = (place(mate.from), place(mate.to));
    let along = (to - from).normalize();
    for (end, outwards) in [(from, -along), (to, along)] {
        let start = end + outwards * (beyond(roofs, end, outwards) + 0.6 * lettering);
        let length = (MATE_MARK - 0.6) * lettering;
        for (a, b) in DASH_DOT {
            let dash = line(start + outwards * (a * length), start + outwards * (b * length));
            drawing.stroke(dash, Pen::MEDIUM, Ink::Dimension);
        }
        // Reads from below, or from the right where the line stands upright.
        let angle: f64 = if along.y.abs() > along.x.abs() { 90.0 } else { 0.0 };
        let up = Vec2::from_angle((angle + 90.0).to_radians());
        let height = 0.72 * lettering;
        for (word, side) in [("MATE", 1.0), ("LINE", -1.0)] {
            let at = start + outwards * (length / 2.0) + up * (side * height * 1.15);
            drawing.items.push(Item::Text(Lettering {
                text: word.to_owned(),
                at,
                height,
                angle,
                face: Face::Regular,
                align: Align::Centre,
                ink: Ink::Dimension,
            }));
        }
    }
}

/// Distance from a point to the edge of a rectangle around it, in one direction.
fn beyond(rect: Rect, from: Point, direction: Vec2) -> f64 {
    let across = if direction.x > 0.0 { (rect.x1 - from.x) / direction.x } else { (rect.x0 - from.x) / direction.x };
    let up = if direction.y > 0.0 { (rect.y1 - from.y) / direction.y } else { (rect.y0 - from.y) / direction.y };
    let reach = |distance: f64| if distance.is_finite() { distance.max(0.0) } else { f64::INFINITY };
    let nearest = reach(across).min(reach(up));
    if nearest.is_finite() { nearest } else { 0.0 }
}

/// A graphic scale, its left end at `at`: it stays true when paper is copied larger or smaller.
#[must_use]
pub fn graphic_scale(units: Units, at: Point, lettering: f64) -> Drawing {
    let mut drawing = Drawing::default();
    let (unit, marks, name): (f64, [u32; 5], &str) = match units {
        Units::In => (12.0, [0, 4, 8, 16, 24], "ft"),
        Units::Mm => (1000.0 / 25.4, [0, 1, 2, 4, 6], "m"),
    };
    let bar = 0.45 * lettering;
    let place = |mark: u32| at.x + f64::from(mark) * unit;
    for (index, pair) in marks.windows(2).enumerate() {
        let part = rect(place(pair[0]), at.y, place(pair[1]), at.y + bar);
        drawing.fill(part.clone(), if index % 2 == 0 { Ink::Dimension } else { Ink::Paper });
        drawing.stroke(part, Pen::FINE, Ink::Dimension);
    }
    for (index, mark) in marks.into_iter().enumerate() {
        let is_last = index + 1 == marks.len();
        let text = if is_last { format!("{mark} {name}") } else { mark.to_string() };
        // The unit hangs over the end, so that the figure itself stands on its mark.
        let figure = width_per_height(&mark.to_string()) * 0.8 * lettering;
        let lettering = Lettering {
            text,
            at: Point::new(place(mark) - if is_last { figure / 2.0 } else { 0.0 }, at.y + bar + 0.9 * lettering),
            height: 0.8 * lettering,
            angle: 0.0,
            face: Face::Regular,
            align: if is_last { Align::Left } else { Align::Centre },
            ink: Ink::Dimension,
        };
        drawing.items.push(Item::Text(lettering));
    }
    drawing
}

/// The word FRONT with an arrow towards the house, under the middle of what is drawn; once the lot is known, a north
/// arrow beside it.
#[must_use]
pub fn front_mark(home: &Home<'_>, drawn: Rect, lettering: f64) -> Drawing {
    let mut drawing = Drawing::default();
    let size = 1.15 * lettering;
    let tip = Point::new(drawn.center().x, drawn.y0 - 1.0 * lettering);
    let head = [(0.0, 0.0), (0.75, -1.5), (0.0, -1.15), (-0.75, -1.5)];
    let arrow = polygon(head.map(|(x, y)| tip + Vec2::new(x, y) * size));
    drawing.fill(arrow, Ink::Lettering);
    drawing.items.push(Item::Text(Lettering {
        text: "FRONT".to_owned(),
        at: tip - Vec2::new(0.0, 2.55 * size),
        height: size,
        angle: 0.0,
        face: Face::Bold,
        align: Align::Centre,
        ink: Ink::Lettering,
    }));
    if let Some(bearing) = home.plan.home.up_bearing {
        let middle = tip + Vec2::new(8.0 * lettering, -1.6 * size);
        draw_north(&mut drawing, middle, f64::from(bearing), lettering);
    }
    drawing
}

/// A circle with a needle, half dark, that points north. `up_bearing` is the bearing of up on the drawing.
fn draw_north(drawing: &mut Drawing, middle: Point, up_bearing: f64, lettering: f64) {
    let radius = 1.5 * lettering;
    let north = Vec2::from_angle((90.0 + up_bearing).to_radians());
    let right = Vec2::new(north.y, -north.x);
    drawing.stroke(circle(middle, radius), Pen::FINE, Ink::Lettering);
    let (tip, tail) = (middle + north * (radius * 1.25), middle - north * radius);
    let notch = middle - north * (radius * 0.45);
    for (side, ink) in [(1.0, Ink::Lettering), (-1.0, Ink::Paper)] {
        let half = polygon([tip, tail + right * (side * radius * 0.62) + north * (radius * 0.22), notch]);
        drawing.fill(half.clone(), ink);
        drawing.stroke(half, Pen::FINE, Ink::Lettering);
    }
    drawing.items.push(Item::Text(Lettering {
        text: "N".to_owned(),
        at: middle + north * (radius * 1.25 + 0.85 * lettering),
        height: lettering,
        angle: 0.0,
        face: Face::Bold,
        align: Align::Centre,
        ink: Ink::Lettering,
    }));
}
