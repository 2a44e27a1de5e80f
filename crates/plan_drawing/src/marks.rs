//! Marks beside the plan: mate line, graphic scale, the front, and north.

use kurbo::{Point, Rect, Vec2};
use plan_model::elements::WallKind;
use plan_model::{Home, Units};

use crate::lettering::width_per_height;
use crate::shapes::{circle, line, place, polygon, rect};
use crate::{Align, Drawing, Face, Ink, Item, Lettering, Pen, site};

/// How far the mate line is drawn from the roof's edge, in heights of lettering.
const MATE_MARK: f64 = 1.3;
/// Height of its words.
const MATE_WORDS: f64 = 0.72;

/// One end of the mate line beyond the roof.
struct MateEnd {
    /// At the roof's edge.
    start: Point,
    outwards: Vec2,
}

/// The two ends of the mate line beyond the roof; the one first on which strings leave room for words.
fn mate_ends(home: &Home<'_>, house: Rect) -> Option<[MateEnd; 2]> {
    let mate = home.plan.mate_line.filter(|mate| mate.from != mate.to)?;
    let (from, to) = (place(mate.from), place(mate.to));
    let along = (to - from).normalize();
    let roofs = site::roofs(home, house);
    let end = |end: Point, outwards: Vec2| MateEnd { start: end + outwards * beyond(roofs, end, outwards), outwards };
    let ends = [end(from, -along), end(to, along)];
    // Figures of dimension strings stand away from the house on the left and at the back.
    let [first, second] = ends;
    let is_left_or_back = if along.y.abs() > along.x.abs() { -along.y > 0.0 } else { along.x > 0.0 };
    Some(if is_left_or_back { [first, second] } else { [second, first] })
}

/// The words at the first end, above and below the mate walls, whose faces dimension strings measure.
fn mate_lettering(home: &Home<'_>, end: &MateEnd, lettering: f64) -> [Lettering; 2] {
    let along = end.outwards;
    // Reads from below, or from the right where the line stands upright.
    let angle: f64 = if along.y.abs() > along.x.abs() { 90.0 } else { 0.0 };
    let up = Vec2::from_angle((angle + 90.0).to_radians());
    let height = MATE_WORDS * lettering;
    let walls = home.elements.walls.iter().filter(|wall| wall.kind == WallKind::Mate);
    let half = walls.map(|wall| wall.thickness.to_inches()).fold(0.0, f64::max);
    let width = width_per_height("MATE") * height;
    [("MATE", 1.0), ("LINE", -1.0)].map(|(word, side)| {
        let at =
            end.start + along * (0.4 * lettering + width / 2.0) + up * (side * (half + 0.3 * lettering + height / 2.0));
        let (face, align, ink) = (Face::Regular, Align::Centre, Ink::Dimension);
        Lettering { text: word.to_owned(), at, height, angle, face, align, ink }
    })
}

/// The floor that the mate line's words take, for dimension strings to stand beyond.
pub(crate) fn mate_words(home: &Home<'_>, house: Rect, lettering: f64) -> Option<Rect> {
    let [end, _] = mate_ends(home, house)?;
    let [first, second] = mate_lettering(home, &end, lettering).map(|word| word.bounds());
    // Figures stand on the far side of the string there, so that it may come nearer.
    const NEARER: f64 = 2.5;
    Some(first.union(second) - end.outwards * (NEARER * lettering))
}

/// The mate line beyond both ends of the house, named at one.
pub(crate) fn draw_mate_line(drawing: &mut Drawing, home: &Home<'_>, house: Rect, lettering: f64) {
    const DASH_DOT: [(f64, f64); 2] = [(0.3, 0.95), (1.1, MATE_MARK)];
    let Some(ends) = mate_ends(home, house) else { return };
    for MateEnd { start, outwards } in &ends {
        for (a, b) in DASH_DOT {
            let dash = line(*start + *outwards * (a * lettering), *start + *outwards * (b * lettering));
            drawing.stroke(dash, Pen::MEDIUM, Ink::Dimension);
        }
    }
    let words = mate_lettering(home, &ends[0], lettering);
    drawing.items.extend(words.map(Item::Text));
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
