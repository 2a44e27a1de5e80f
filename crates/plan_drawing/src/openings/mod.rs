//! Doors and windows, drawn over the walls that they are cut from.

mod doors;
mod folding;
mod windows;

use kurbo::{Point, Vec2};
use plan_geometry::{Derived, Side};
use plan_model::elements::Wall;
use plan_model::{Home, Id};

use crate::Drawing;
use crate::frame::{Frame, Sketch};
use crate::shapes::{line, place, rect};
use crate::{Ink, Pen};

pub(crate) use doors::swept_floor;

/// Draws every opening that stands in a wall.
pub(crate) fn draw(drawing: &mut Drawing, home: &Home<'_>, derived: &Derived, lettering: f64) {
    doors::draw(drawing, home, derived, lettering);
    windows::draw(drawing, home, derived, lettering);
}

/// Draws the open boundaries between rooms of one space; walls lie over their ends.
pub(crate) fn draw_boundaries(drawing: &mut Drawing, home: &Home<'_>) {
    for boundary in &home.elements.open_boundaries {
        drawing.stroke(line(place(boundary.from), place(boundary.to)), Pen::FAINT, Ink::Fine);
    }
}

/// The part of a wall that an opening takes, in a frame of its own: x along the wall from 0 to `length`, y to the left
/// of the wall from `-half` to `half`.
#[derive(Clone, Copy, Debug)]
struct Slot {
    frame: Frame,
    length: f64,
    half: f64,
}

impl Slot {
    fn new(outline: &[plan_model::Point; 4], along: Vec2) -> Self {
        let left = Vec2::new(-along.y, along.x);
        let corners = outline.map(|corner| place(corner).to_vec2());
        let reach = |direction: Vec2| {
            let at = corners.map(|corner| corner.dot(direction));
            (at.iter().copied().fold(f64::INFINITY, f64::min), at.iter().copied().fold(f64::NEG_INFINITY, f64::max))
        };
        let ((x0, x1), (y0, y1)) = (reach(along), reach(left));
        let origin = (along * x0 + left * ((y0 + y1) / 2.0)).to_point();
        Self { frame: Frame::along(origin, along), length: x1 - x0, half: (y1 - y0) / 2.0 }
    }

    /// Takes the opening out of the wall. A little more than the wall, so that no edge of it shows.
    fn clear(self, sketch: &mut Sketch<'_>) {
        const OVER: f64 = 0.25;
        sketch.fill(rect(0.0, -self.half - OVER, self.length, self.half + OVER), Ink::Floor);
    }

    fn corners(self, x0: f64, y0: f64, x1: f64, y1: f64) -> Vec<Point> {
        [(x0, y0), (x1, y0), (x1, y1), (x0, y1)].map(|corner| self.frame.place(corner)).to_vec()
    }
}

/// Direction of a wall from its `from` to its `to`; to the right for a wall without length.
fn direction(wall: &Wall) -> Vec2 {
    let run = place(wall.to) - place(wall.from);
    if run == Vec2::ZERO { Vec2::new(1.0, 0.0) } else { run.normalize() }
}

fn wall<'home>(home: &'home Home<'_>, id: &Id) -> Option<&'home Wall> {
    home.elements.walls.iter().find(|wall| wall.id == *id)
}

/// On which side of the wall outdoors lies: 1 to its left, -1 to its right, none for an opening between rooms.
fn outdoors(sides: &[Side; 2]) -> Option<f64> {
    match sides {
        [Side { room: None, .. }, Side { room: Some(_), .. }] => Some(1.0),
        [Side { room: Some(_), .. }, Side { room: None, .. }] => Some(-1.0),
        _ => None,
    }
}
