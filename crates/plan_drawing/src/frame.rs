//! Local frames: a fixture is drawn once, as if its back stood at the bottom, and set in its place.

use kurbo::{Affine, BezPath, Point, Rect, Vec2};
use plan_geometry::Region;
use plan_model::Facing;

use crate::lettering::width_per_height;
use crate::shapes::{lines, parts_inside, place};
use crate::{Align, Drawing, Face, Ink, Item, Lettering, Pen};

/// Where a local drawing stands on the plan.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Frame(pub(crate) Affine);

impl Frame {
    /// Origin in the middle of the back edge; x to the right as seen from the front, y from back to front.
    pub(crate) fn standing(at: plan_model::Point, faces: Facing) -> Self {
        let (dx, dy) = faces.direction();
        let front = Vec2::new(f64::from(dx), f64::from(dy)).normalize();
        let at = place(at);
        Self(Affine::new([-front.y, front.x, front.x, front.y, at.x, at.y]))
    }

    /// Origin given; x along a unit direction, y to its left.
    pub(crate) fn along(origin: Point, direction: Vec2) -> Self {
        Self(Affine::new([direction.x, direction.y, -direction.y, direction.x, origin.x, origin.y]))
    }

    pub(crate) fn place(self, local: impl Into<Point>) -> Point {
        self.0 * local.into()
    }

    /// A size of the frame as extents across and up the drawing; for a turned frame the square that surely fits.
    fn extents(self, width: f64, depth: f64) -> (f64, f64) {
        let [a, b, ..] = self.0.as_coeffs();
        if b.abs() < 0.01 {
            (width, depth)
        } else if a.abs() < 0.01 {
            (depth, width)
        } else {
            let least = width.min(depth) * 0.8;
            (least, least)
        }
    }
}

/// A line from one point of a local frame to another.
pub(crate) type LocalLine = ((f64, f64), (f64, f64));

/// A drawing in a local frame.
pub(crate) struct Sketch<'drawing> {
    drawing: &'drawing mut Drawing,
    frame: Frame,
    /// Height of capitals of notes, in plan inches.
    lettering: f64,
}

impl<'drawing> Sketch<'drawing> {
    pub(crate) fn new(drawing: &'drawing mut Drawing, frame: Frame, lettering: f64) -> Self {
        Self { drawing, frame, lettering }
    }

    pub(crate) fn fill(&mut self, path: BezPath, ink: Ink) {
        self.drawing.fill(self.set(path), ink);
    }

    pub(crate) fn stroke(&mut self, path: BezPath, pen: Pen, ink: Ink) {
        self.drawing.stroke(self.set(path), pen, ink);
    }

    /// Lines from one local point to another, as far as they lie inside a region, if there is one.
    pub(crate) fn lines_inside(&mut self, region: Option<&Region>, all: &[LocalLine], pen: Pen, ink: Ink) {
        let mut inside = Vec::new();
        for (from, to) in all.iter().map(|(from, to)| (self.place(*from), self.place(*to))) {
            match region {
                Some(region) => inside.extend(parts_inside(region, from, to)),
                None => inside.push((from, to)),
            }
        }
        self.drawing.stroke(lines(inside), pen, ink);
    }

    /// Where a local point lies on the plan.
    pub(crate) fn place(&self, local: impl Into<Point>) -> Point {
        self.frame.place(local)
    }

    /// A body seen from above: filled and outlined as an object.
    pub(crate) fn body(&mut self, path: BezPath) {
        let path = self.set(path);
        self.drawing.fill(path.clone(), Ink::ObjectFill);
        self.drawing.stroke(path, Pen::OBJECT, Ink::Object);
    }

    /// A part within a body: filled, with a fine outline.
    pub(crate) fn part(&mut self, path: BezPath) {
        let path = self.set(path);
        self.drawing.fill(path.clone(), Ink::ObjectFill);
        self.drawing.stroke(path, Pen::FINE, Ink::Object);
    }

    /// Inner lines.
    pub(crate) fn fine(&mut self, path: BezPath) {
        self.stroke(path, Pen::FINE, Ink::Fine);
    }

    /// A short mark in the middle of a local rectangle, upright or reading from the right, as large as fits; none if it
    /// would be too small to read.
    pub(crate) fn mark(&mut self, text: &str, within: Rect) {
        const SMALLEST: f64 = 0.6;
        let (across, up) = self.frame.extents(within.width(), within.height());
        let per_height = width_per_height(text);
        let fitting = |along: f64, upward: f64| (along * 0.9 / per_height).min(upward * 0.7).min(self.lettering * 0.9);
        let (flat, turned) = (fitting(across, up), fitting(up, across));
        let (height, angle) = if flat >= turned * 0.9 { (flat, 0.0) } else { (turned, 90.0) };
        if height >= SMALLEST * self.lettering {
            let (text, at) = (text.to_owned(), self.frame.place(within.center()));
            let (face, align, ink) = (Face::Regular, Align::Centre, Ink::Object);
            self.drawing.items.push(Item::Text(Lettering { text, at, height, angle, face, align, ink }));
        }
    }

    fn set(&self, mut path: BezPath) -> BezPath {
        path.apply_affine(self.frame.0);
        path
    }
}
