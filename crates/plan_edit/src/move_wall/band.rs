use plan_model::elements::Wall;
use plan_model::{Facing, Length, Point};

use crate::line::{Faces, Line, Place};

/// The solid of a wall between the ends that were drawn: what others touch when they are attached to it.
#[derive(Clone, Copy, Debug)]
pub(super) struct Band {
    pub(super) line: Line,
    pub(super) faces: Faces,
    length: i64,
    slack: i64,
}

impl Band {
    pub(super) fn of(wall: &Wall) -> Self {
        let line = Line::new(wall.from, wall.to);
        Self { line, faces: Faces::of(wall), length: line.length(), slack: line.slack() }
    }

    /// Whether a point lies in it or on its faces.
    pub(super) fn touches(&self, point: Point) -> bool {
        self.touches_segment([point, point])
    }

    /// Whether a segment shares a point with it, faces included.
    pub(super) fn touches_segment(&self, segment: [Point; 2]) -> bool {
        let [a, b] = segment.map(|point| self.line.place(point));
        let (start, end) = (-self.slack, self.length + self.slack);
        let (right, left) = (self.faces.right - self.slack, self.faces.left + self.slack);
        let apart = |a: i64, b: i64, low: i64, high: i64| a.max(b) < low || a.min(b) > high;
        if apart(a.along, b.along, start, end) || apart(a.left, b.left, right, left) {
            return false;
        }
        // The boxes overlap: apart only if all four corners lie on one side of the segment.
        let side = |along: i64, left: i64| {
            let product = |u: i64, v: i64| i128::from(u) * i128::from(v);
            product(b.along - a.along, left - a.left) - product(b.left - a.left, along - a.along)
        };
        let sides = [side(start, right), side(end, right), side(end, left), side(start, left)].map(i128::signum);
        !(sides == [1; 4] || sides == [-1; 4])
    }

    /// Whether the end of another wall touches it. `which` is 0 for the other's `from`, 1 for its `to`.
    pub(super) fn touches_end(&self, other: &Wall, which: usize) -> bool {
        let end = [other.from, other.to][which];
        // Most walls are nowhere near: look before working out the corners.
        let place = self.line.place(end);
        let near = self.slack + other.thickness.steps();
        if place.along < -near
            || place.along > self.length + near
            || place.left < self.faces.right - near
            || place.left > self.faces.left + near
        {
            return false;
        }
        self.touches_segment(end_corners(other, which))
    }

    /// Whether a thing stands with its back against one of the faces. `at` is the middle of its back edge.
    pub(super) fn backs(&self, at: Point, faces: Facing, width: Length) -> bool {
        let Place { along, left } = self.line.place(at);
        let near = |face: i64| (left - face).abs() <= self.slack;
        let looks = looks_aside(&self.line, faces);
        let against = (looks > 0 && near(self.faces.left)) || (looks < 0 && near(self.faces.right));
        let half = width.steps() / 2;
        against && along + half > 0 && along - half < self.length
    }

    /// Whether a rectangle square to the axes stands with a side against one of the faces.
    pub(super) fn has_beside(&self, corner: Point, opposite: Point) -> bool {
        let [a, b] = [corner, opposite].map(|point| self.line.place(point));
        let beside = a.left.min(b.left) == self.faces.left || a.left.max(b.left) == self.faces.right;
        self.line.is_square_to_axes() && beside && a.along.max(b.along) > 0 && a.along.min(b.along) < self.length
    }
}

/// The left and right corner of a wall's end.
pub(super) fn end_corners(wall: &Wall, which: usize) -> [Point; 2] {
    let line = Line::new(wall.from, wall.to);
    let faces = Faces::of(wall);
    let end = [wall.from, wall.to][which];
    [end + line.aside(faces.left), end + line.aside(faces.right)]
}

/// 1 when a thing looks square to the left of the line, -1 when square to its right, else 0.
fn looks_aside(line: &Line, faces: Facing) -> i32 {
    /// Parts of a [`Facing`] go up to 1000: no wall is met more squarely than to one part in as many.
    const SHARPEST: i128 = 1000;
    let (dx, dy) = faces.direction();
    let facing = Point::new(Length::from_steps(dx.into()), Length::from_steps(dy.into()));
    let normal = line.normal();
    let ahead = crate::line::dot(facing, normal);
    let aside = crate::line::dot(facing, Point::new(-normal.y, normal.x));
    let square = if line.is_square_to_axes() { aside == 0 } else { aside.abs() * SHARPEST <= ahead.abs() };
    if square { ahead.signum() as i32 } else { 0 }
}
