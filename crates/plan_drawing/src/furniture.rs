//! Furniture, drawn lighter than anything built in: it shows that it fits and then steps back.

use kurbo::BezPath;
use plan_model::elements::{Furniture, FurnitureKind};

use crate::frame::{Frame, Sketch};
use crate::shapes::{line, lines, rect, rounded, together};
use crate::{Drawing, Ink, Pen};

const OUTLINE: Pen = Pen::solid(0.2);

/// Draws furniture: rugs lie under everything, chairs stand under tables.
pub(crate) fn draw(drawing: &mut Drawing, furniture: &[Furniture], lettering: f64) {
    let mut in_order: Vec<&Furniture> = furniture.iter().collect();
    in_order.sort_by_key(|piece| match piece.kind {
        FurnitureKind::Rug => 0,
        FurnitureKind::Chair => 1,
        _ => 2,
    });
    for piece in in_order {
        let (right, depth) = (piece.width.to_inches() / 2.0, piece.depth.to_inches());
        let sketch = &mut Sketch::new(drawing, Frame::standing(piece.at, piece.faces), lettering);
        match piece.kind {
            FurnitureKind::Bed => bed(sketch, right, depth),
            FurnitureKind::Sofa => seats(sketch, right, depth, 26.0),
            FurnitureKind::Armchair => seats(sketch, right, depth, 4.0 * right),
            FurnitureKind::Chair => chair(sketch, right, depth),
            FurnitureKind::Table => table(sketch, right, depth),
            FurnitureKind::Desk => desk(sketch, right, depth),
            FurnitureKind::Chest => chest(sketch, right, depth),
            FurnitureKind::Rug => rug(sketch, right, depth),
        }
    }
}

/// How far a bed's pillows and turned-down sheet reach from its head.
pub(crate) fn bed_head(depth: f64) -> f64 {
    (depth * 0.36).min(29.0)
}

fn body(sketch: &mut Sketch<'_>, path: BezPath) {
    sketch.fill(path.clone(), Ink::FurnitureFill);
    sketch.stroke(path, OUTLINE, Ink::Furniture);
}

fn inner(sketch: &mut Sketch<'_>, path: BezPath) {
    sketch.stroke(path, Pen::LIGHT, Ink::Furniture);
}

fn bed(sketch: &mut Sketch<'_>, right: f64, depth: f64) {
    /// Narrower beds have one pillow, in inches (common practice, no source).
    const TWO_PILLOWS: f64 = 50.0;
    body(sketch, rounded(-right, 1.5, right, depth, 2.5));
    body(sketch, rect(-right, 0.0, right, 2.0));
    let (pillow_from, pillow_to) = (4.0, 4.0 + (depth * 0.18).min(14.0));
    let pillow = |x0: f64, x1: f64| rounded(x0, pillow_from, x1, pillow_to, 3.0);
    let pillows = if 2.0 * right >= TWO_PILLOWS {
        together([pillow(-right + 2.5, -1.2), pillow(1.2, right - 2.5)])
    } else {
        pillow(-right + 4.0, right - 4.0)
    };
    sketch.fill(pillows.clone(), Ink::ObjectFill);
    sketch.stroke(pillows, OUTLINE, Ink::Furniture);
    let (hem, fold) = (pillow_to + 2.0, bed_head(depth));
    inner(sketch, lines([((-right, hem), (right, hem)), ((-right, fold), (right, fold))]));
    // One corner of the cover is turned back.
    let corner = (right * 0.5).min(14.0);
    inner(sketch, line((right - corner, fold), (right, fold + corner)));
}

/// A back, two arms and as many cushions as stand side by side.
fn seats(sketch: &mut Sketch<'_>, right: f64, depth: f64, cushion: f64) {
    let arm = (right * 0.22).min(6.5);
    let back = (depth * 0.24).min(8.0);
    body(sketch, rounded(-right, 0.0, right, depth, 3.0));
    let seat = 2.0 * (right - arm);
    let count = (seat / cushion).round().clamp(1.0, 5.0);
    let width = seat / count;
    let mut x = -right + arm;
    while x < right - arm - 0.1 {
        inner(sketch, rounded(x, back, x + width, depth - 0.8, 2.0));
        x += width;
    }
    inner(sketch, lines([((-right + arm, 1.2), (-right + arm, depth)), ((right - arm, 1.2), (right - arm, depth))]));
}

fn chair(sketch: &mut Sketch<'_>, right: f64, depth: f64) {
    body(sketch, rounded(-right, 1.0, right, depth, right * 0.35));
    body(sketch, rounded(-right, 0.0, right, depth * 0.16, 1.2));
}

fn table(sketch: &mut Sketch<'_>, right: f64, depth: f64) {
    body(sketch, rounded(-right, 0.0, right, depth, 1.5));
    inner(sketch, rounded(-right + 1.5, 1.5, right - 1.5, depth - 1.5, 1.0));
}

fn desk(sketch: &mut Sketch<'_>, right: f64, depth: f64) {
    body(sketch, rect(-right, 0.0, right, depth));
    let screen = (right * 0.5).min(11.0);
    inner(
        sketch,
        together([
            rect(-screen, 3.0, screen, 4.4),
            rounded(-screen * 0.8, depth - 9.0, screen * 0.8, depth - 4.0, 0.8),
        ]),
    );
}

fn chest(sketch: &mut Sketch<'_>, right: f64, depth: f64) {
    body(sketch, rect(-right, 0.0, right, depth));
    inner(sketch, lines([((-right, depth - 1.5), (right, depth - 1.5)), ((0.0, depth - 1.5), (0.0, depth))]));
}

fn rug(sketch: &mut Sketch<'_>, right: f64, depth: f64) {
    let edge = rect(-right, 0.0, right, depth);
    sketch.fill(edge.clone(), Ink::FurnitureFill);
    inner(sketch, together([edge, rect(-right + 3.0, 3.0, right - 3.0, depth - 3.0)]));
    let mut fringe = Vec::new();
    let mut y = 1.0;
    while y < depth {
        fringe.extend([((-right - 2.0, y), (-right, y)), ((right, y), (right + 2.0, y))]);
        y += 2.0;
    }
    inner(sketch, lines(fringe));
}
