//! Points that stand for something in a room: they stay on their side of a wall that sweeps over them.

use plan_model::{Elements, Length, Point};

use super::Move;
use super::follow::Stretch;

/// How far ahead of the moved wall's face a swept point comes to stand: out of the wall, and inside any room that is
/// still one, however narrow it has become.
const AHEAD: i64 = Length::INCH.steps();

impl Move<'_> {
    /// Points of rooms, and detectors and fans. A point moved by as much as the wall could leave its room at the far
    /// side; it is pushed only just ahead. What hangs on the wall itself goes along with it.
    pub(super) fn push_anchors(&self, elements: &mut Elements, own: &Stretch) {
        let swept = Swept::new(self, own);
        for room in &mut elements.rooms {
            room.at = swept.pushed(room.at).unwrap_or(room.at);
        }
        for detector in &mut elements.detectors {
            detector.at = swept.carried(detector.at).unwrap_or(detector.at);
        }
        for fan in &mut elements.fans {
            fan.at = swept.carried(fan.at).unwrap_or(fan.at);
        }
    }
}

/// The ground over which the wall goes.
struct Swept<'m> {
    wall: &'m Move<'m>,
    start: i64,
    end: i64,
}

impl<'m> Swept<'m> {
    fn new(wall: &'m Move<'m>, own: &Stretch) -> Self {
        let places =
            [wall.wall.from, wall.wall.to, own.ends[0], own.ends[1]].map(|end| wall.band.line.place(end).along);
        let [start, end] = [places.into_iter().min(), places.into_iter().max()].map(Option::unwrap_or_default);
        Self { wall, start, end }
    }

    /// Where a point goes that hangs on the wall, or that it sweeps over.
    fn carried(&self, at: Point) -> Option<Point> {
        if self.wall.band.touches(at) { Some(at + self.wall.shift) } else { self.pushed(at) }
    }

    /// Where a point goes that the wall sweeps over.
    fn pushed(&self, at: Point) -> Option<Point> {
        let place = self.wall.band.line.place(at);
        let by = self.wall.by;
        // Distances from the face that goes ahead, towards where it goes.
        let ahead =
            if by > 0 { place.left - self.wall.band.faces.left } else { self.wall.band.faces.right - place.left };
        let is_swept = (self.start..=self.end).contains(&place.along) && (0..=by.abs()).contains(&ahead);
        is_swept.then(|| at + self.wall.band.line.aside((by.abs() + AHEAD - ahead) * by.signum()))
    }
}
