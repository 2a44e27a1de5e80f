use kurbo::Point;
use plan_geometry::{Derived, DoorFigures, Leaf};
use plan_model::elements::Wall;
use plan_model::{DoorOperation, Home};

use super::{Slot, direction, folding, outdoors, wall};
use crate::frame::Sketch;
use crate::shapes::{arc_between, lines, place, polygon, rect};
use crate::{Drawing, Ink, Pen};

/// Thickness of a door leaf, in inches (common practice, no source).
const LEAF: f64 = 1.375;

/// A door with everything that its drawing needs.
struct Hung<'a> {
    figures: &'a DoorFigures,
    host: &'a Wall,
    operation: DoorOperation,
    /// The whole opening, through both walls of a doubled one.
    opening: Slot,
    /// The part in the wall that carries the leaf.
    leaf_slot: Slot,
}

impl<'a> Hung<'a> {
    fn new(home: &'a Home<'_>, figures: &'a DoorFigures) -> Option<Self> {
        let door = home.elements.doors.get(figures.index)?;
        let host = wall(home, &door.wall)?;
        let operation = home.plan.catalogue.door(&door.unit)?.operation;
        let along = direction(host);
        let opening = Slot::new(&figures.outline, along);
        Some(Self { figures, host, operation, opening, leaf_slot: Slot::new(&figures.leaf_wall_outline, along) })
    }

    /// The side to which leaves fold: away from the closet that they close; 1 to the left of the wall.
    fn fold_side(&self, home: &Home<'_>) -> f64 {
        let room = self.figures.sides[0].room.as_ref();
        let left = room.and_then(|id| home.elements.rooms.iter().find(|room| room.id == *id));
        if left.is_some_and(|room| is_storage(room.usage)) { -1.0 } else { 1.0 }
    }

    /// Length of wall free for a pocket before the near jamb and beyond the far one.
    fn free_wall(&self, derived: &Derived) -> [f64; 2] {
        let slot = self.leaf_slot;
        let origin = slot.frame.place((0.0, 0.0));
        let along = slot.frame.place((1.0, 0.0)) - origin;
        let at = |point: plan_model::Point| (place(point) - origin).dot(along);
        let others = derived.doors.iter().map(|door| (&door.id, &door.outline));
        let others = others.chain(derived.windows.iter().map(|window| (&window.id, &window.outline)));
        let in_line = others.filter(|(id, outline)| {
            let across = |point: plan_model::Point| (place(point) - origin).cross(along).abs();
            **id != self.figures.id && outline.iter().all(|corner| across(*corner) < slot.half + 1.0)
        });
        let stops: Vec<f64> = in_line.flat_map(|(_, outline)| outline.map(at)).collect();
        let (from, to) = (at(self.host.from), at(self.host.to));
        let before = stops.iter().copied().filter(|stop| *stop <= 0.0).fold(from, f64::max);
        let beyond = stops.iter().copied().filter(|stop| *stop >= slot.length).fold(to, f64::min);
        [-before, beyond - slot.length]
    }
}

const fn is_storage(usage: plan_model::elements::RoomUse) -> bool {
    use plan_model::elements::RoomUse;
    matches!(
        usage,
        RoomUse::Closet | RoomUse::Linen | RoomUse::Pantry | RoomUse::Mechanical | RoomUse::Laundry | RoomUse::Storage
    )
}

pub(super) fn draw(drawing: &mut Drawing, home: &Home<'_>, derived: &Derived, lettering: f64) {
    for hung in derived.doors.iter().filter_map(|figures| Hung::new(home, figures)) {
        let sketch = &mut Sketch::new(drawing, hung.opening.frame, lettering);
        hung.opening.clear(sketch);
        if let Some(side) = outdoors(&hung.figures.sides).filter(|_| hung.figures.is_exterior) {
            threshold(sketch, hung.opening, side);
        }
        match hung.operation {
            DoorOperation::Hinged => {
                if let Some(leaf) = &hung.figures.leaf {
                    hinged(drawing, leaf);
                }
            }
            DoorOperation::Sliding => sliding(&mut in_leaf_wall(drawing, &hung, lettering), hung.leaf_slot),
            DoorOperation::Pocket => {
                let free = hung.free_wall(derived);
                pocket(&mut in_leaf_wall(drawing, &hung, lettering), hung.leaf_slot, free);
            }
            DoorOperation::Bifold => {
                let side = hung.fold_side(home);
                folding::draw(&mut in_leaf_wall(drawing, &hung, lettering), hung.leaf_slot, side);
            }
            DoorOperation::CasedOpening => head(sketch, hung.opening),
        }
    }
}

fn in_leaf_wall<'drawing>(drawing: &'drawing mut Drawing, hung: &Hung<'_>, lettering: f64) -> Sketch<'drawing> {
    Sketch::new(drawing, hung.leaf_slot.frame, lettering)
}

/// Floor that leaves pass over, as convex shapes: no lettering should stand there.
pub(crate) fn swept_floor(home: &Home<'_>, derived: &Derived) -> Vec<Vec<Point>> {
    let swept = |hung: Hung<'_>| match hung.operation {
        DoorOperation::Hinged => hung.figures.leaf.as_ref().map(sector),
        DoorOperation::Bifold => Some(folding::swept(hung.leaf_slot, hung.fold_side(home))),
        DoorOperation::Sliding | DoorOperation::Pocket | DoorOperation::CasedOpening => None,
    };
    derived.doors.iter().filter_map(|figures| Hung::new(home, figures)).filter_map(swept).collect()
}

/// The quarter of a circle that a leaf passes over, as a polygon around it.
fn sector(leaf: &Leaf) -> Vec<Point> {
    let (hinge, closed, open) = (place(leaf.hinge), place(leaf.closed), place(leaf.open));
    // Two tangents at the ends of the arc meet at a third of the way; a polygon of five corners lies close around it.
    let (u, v) = (closed - hinge, open - hinge);
    let near = std::f64::consts::FRAC_PI_8.tan();
    vec![hinge, closed, closed + v * near, open + u * near, open]
}

/// The leaf at a right angle and the quarter circle of its free edge.
fn hinged(drawing: &mut Drawing, leaf: &Leaf) {
    let (hinge, closed, open) = (place(leaf.hinge), place(leaf.closed), place(leaf.open));
    drawing.stroke(arc_between(hinge, open, closed), Pen::FINE, Ink::Fine);
    let across = (closed - hinge).normalize() * LEAF;
    let body = polygon([hinge, open, open + across, hinge + across]);
    drawing.fill(body.clone(), Ink::ObjectFill);
    drawing.stroke(body, Pen::MEDIUM, Ink::Object);
}

/// Two panels that overlap in the middle, each in its own track.
fn sliding(sketch: &mut Sketch<'_>, slot: Slot) {
    const LAP: f64 = 1.5;
    let middle = slot.length / 2.0;
    let panels = [rect(0.0, 0.0, middle + LAP, LEAF), rect(middle - LAP, -LEAF, slot.length, 0.0)];
    for panel in panels {
        sketch.fill(panel.clone(), Ink::ObjectFill);
        sketch.stroke(panel, Pen::MEDIUM, Ink::Object);
    }
    sketch.fine(lines([
        ((2.5, LEAF / 2.0), (middle + LAP - 2.5, LEAF / 2.0)),
        ((middle - LAP + 2.5, -LEAF / 2.0), (slot.length - 2.5, -LEAF / 2.0)),
    ]));
}

/// The leaf half out of its pocket, the pocket hidden in the wall where it is longer.
fn pocket(sketch: &mut Sketch<'_>, slot: Slot, [before, beyond]: [f64; 2]) {
    const SLIT: f64 = 1.0;
    // Mirrored where the pocket lies beyond the far jamb; x runs from the mouth of the pocket into the opening.
    let is_near = before >= beyond;
    let set = |x: f64| if is_near { x } else { slot.length - x };
    let depth = slot.length.min(before.max(beyond) - 1.0).max(0.0);
    sketch.fill(rect(set(-depth), -SLIT, set(0.0), SLIT), Ink::Floor);
    let hidden = lines([((set(-depth), -SLIT), (set(0.0), -SLIT)), ((set(-depth), SLIT), (set(0.0), SLIT))]);
    sketch.stroke(hidden, Pen::HIDDEN, Ink::Fine);
    let leaf = rect(set(-slot.length / 2.0), -LEAF / 2.0, set(slot.length / 2.0), LEAF / 2.0);
    sketch.fill(leaf.clone(), Ink::ObjectFill);
    sketch.stroke(leaf, Pen::MEDIUM, Ink::Object);
}

/// The edges of the wall overhead.
fn head(sketch: &mut Sketch<'_>, slot: Slot) {
    let edges = lines([-slot.half, slot.half].map(|y| ((0.0, y), (slot.length, y))));
    sketch.stroke(edges, Pen::HIDDEN, Ink::Fine);
}

/// The sill under an outside door, a little proud of the wall.
fn threshold(sketch: &mut Sketch<'_>, slot: Slot, outdoors: f64) {
    const PROUD: f64 = 1.5;
    let (inner, outer) = (outdoors * (slot.half - 4.0), outdoors * (slot.half + PROUD));
    let sill = rect(0.0, inner, slot.length, outer);
    sketch.fill(sill.clone(), Ink::Floor);
    sketch.stroke(sill, Pen::FINE, Ink::Object);
}

#[cfg(test)]
mod tests {
    use kurbo::Vec2;
    use plan_model::Point as Place;

    use super::*;

    #[test]
    fn the_sector_of_a_leaf_holds_every_place_of_its_free_edge() {
        let leaf = Leaf {
            hinge: Place::inches(10, 10),
            closed: Place::inches(42, 10),
            open: Place::inches(10, 42),
            reached: Place::inches(10, 42),
            stopped_by: None,
        };
        let corners = sector(&leaf);
        for degree in 0..=90 {
            let edge = Point::new(10.0, 10.0) + Vec2::from_angle(f64::from(degree).to_radians()) * 31.9;
            let inside =
                corners.iter().zip(corners.iter().cycle().skip(1)).all(|(a, b)| (*b - *a).cross(edge - *a) >= -1e-9);
            assert!(inside, "at {degree} degrees");
        }
    }
}
