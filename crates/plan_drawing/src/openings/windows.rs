use plan_geometry::Derived;
use plan_model::{Home, WindowOperation};

use super::{Slot, direction, outdoors, wall};
use crate::frame::Sketch;
use crate::shapes::{lines, rect, together};
use crate::{Drawing, Ink, Pen};

/// Width of a frame seen from above, in inches (common practice, no source).
const FRAME: f64 = 1.5;

pub(super) fn draw(drawing: &mut Drawing, home: &Home<'_>, derived: &Derived, lettering: f64) {
    for figures in &derived.windows {
        let Some(window) = home.elements.windows.get(figures.index) else { continue };
        let Some(host) = wall(home, &window.wall) else { continue };
        let operation = home.plan.catalogue.window(&window.unit).map(|unit| unit.operation);
        let slot = Slot::new(&figures.outline, direction(host));
        let sketch = &mut Sketch::new(drawing, slot.frame, lettering);
        slot.clear(sketch);
        sketch.fill(rect(0.0, -slot.half, slot.length, slot.half), Ink::ObjectFill);
        if let Some(side) = outdoors(&figures.sides) {
            sill(sketch, slot, side);
        }
        let faces = [-slot.half, slot.half].map(|y| ((0.0, y), (slot.length, y)));
        sketch.stroke(lines(faces), Pen::MEDIUM, Ink::Wall);
        let side = outdoors(&figures.sides).unwrap_or(1.0);
        glass(sketch, slot, side, operation);
    }
}

/// A board outside that stands a little proud of the wall and past the jambs.
fn sill(sketch: &mut Sketch<'_>, slot: Slot, outdoors: f64) {
    const PROUD: f64 = 1.5;
    const PAST: f64 = 2.0;
    let board = rect(-PAST, outdoors * slot.half, slot.length + PAST, outdoors * (slot.half + PROUD));
    sketch.fill(board.clone(), Ink::ObjectFill);
    sketch.stroke(board, Pen::FINE, Ink::Object);
}

/// Frame and glass, towards the outside of the wall where windows sit.
fn glass(sketch: &mut Sketch<'_>, slot: Slot, outdoors: f64, operation: Option<WindowOperation>) {
    let (middle, deep) = (outdoors * slot.half * 0.25, slot.half * 0.42);
    let jambs = [(0.0, FRAME), (slot.length - FRAME, slot.length)];
    let jamb = |(x0, x1): (f64, f64)| rect(x0, middle - deep, x1, middle + deep);
    sketch.stroke(together(jambs.map(jamb)), Pen::FINE, Ink::Object);
    let (x0, x1, centre) = (FRAME, slot.length - FRAME, slot.length / 2.0);
    let (inner, outer) = (middle - outdoors * 0.75, middle + outdoors * 0.75);
    let panes = match operation {
        // Two sashes, one before the other.
        Some(WindowOperation::SingleHung | WindowOperation::DoubleHung) => {
            vec![((x0, inner), (x1, inner)), ((x0, outer), (x1, outer))]
        }
        // Two sashes side by side, each in its own track.
        Some(WindowOperation::Slider) => {
            vec![((x0, inner), (centre + 1.0, inner)), ((centre - 1.0, outer), (x1, outer))]
        }
        Some(
            WindowOperation::Casement | WindowOperation::Awning | WindowOperation::Hopper | WindowOperation::Fixed,
        )
        | None => vec![((x0, middle), (x1, middle))],
    };
    sketch.stroke(lines(panes), Pen::FINE, Ink::Object);
}
