//! What hangs from the ceiling: lowered parts and beams as hidden lines, alarms and fans as small symbols.

use kurbo::{Point, Rect};
use plan_model::Home;
use plan_model::elements::DetectorKind;

use crate::shapes::{between, circle, ellipse, rectangle, together};
use crate::{Drawing, Ink, Pen};

/// Radius of an alarm's symbol, in inches: larger than the thing, as is usual for symbols.
pub(crate) const DETECTOR: f64 = 4.0;
/// Radius of a fan's symbol, in inches.
pub(crate) const FAN: f64 = 5.0;

/// Lowered ceilings and beams.
pub(crate) fn draw_lowered(drawing: &mut Drawing, home: &Home<'_>) {
    for soffit in &home.elements.soffits {
        drawing.stroke(rectangle(between(soffit.from, soffit.to)), Pen::HIDDEN, Ink::Fine);
    }
}

/// Alarms and exhaust fans.
pub(crate) fn draw_symbols(drawing: &mut Drawing, home: &Home<'_>) {
    for detector in &home.elements.detectors {
        let at = crate::shapes::place(detector.at);
        let (letters, height) = match detector.kind {
            DetectorKind::Photoelectric | DetectorKind::Ionization => ("S", 4.4),
            DetectorKind::CarbonMonoxide => ("C", 4.4),
            DetectorKind::Combined => ("SC", 3.1),
        };
        symbol(drawing, at, DETECTOR);
        drawing.note(letters, at, height, Ink::Object);
    }
    for fan in &home.elements.fans {
        let at = crate::shapes::place(fan.at);
        symbol(drawing, at, FAN);
        let blade = |dx: f64, dy: f64| {
            let (across, along) = if dx == 0.0 { (1.1, 2.1) } else { (2.1, 1.1) };
            ellipse((at.x + dx * 2.3, at.y + dy * 2.3), across, along)
        };
        let blades = together([blade(1.0, 0.0), blade(-1.0, 0.0), blade(0.0, 1.0), blade(0.0, -1.0)]);
        drawing.stroke(blades, Pen::FINE, Ink::Object);
    }
}

fn symbol(drawing: &mut Drawing, at: Point, radius: f64) {
    let ring = circle(at, radius);
    drawing.fill(ring.clone(), Ink::ObjectFill);
    drawing.stroke(ring, Pen::FINE, Ink::Object);
}

/// The places of the symbols, for lettering to keep clear of.
pub(crate) fn symbol_places(home: &Home<'_>) -> Vec<Rect> {
    let square = |at: plan_model::Point, radius: f64| {
        Rect::from_center_size(crate::shapes::place(at), (2.0 * radius, 2.0 * radius))
    };
    let detectors = home.elements.detectors.iter().map(|detector| square(detector.at, DETECTOR));
    detectors.chain(home.elements.fans.iter().map(|fan| square(fan.at, FAN))).collect()
}
