//! The ends of walls and open boundaries that follow a moved wall, and its own.

use plan_model::elements::{OpenBoundary, Wall};
use plan_model::{Length, Point};

use super::Move;
use super::band::{Band, end_corners};
use crate::Refused;
use crate::line::{Line, dot, nearest_quotient};

/// New ends of a wall or open boundary.
#[derive(Clone, Copy, Debug)]
pub(super) struct Stretch {
    /// Its `from` and `to`.
    pub(super) ends: [Point; 2],
    /// What the distances of its openings from its start change by, so that they stay on the drawing.
    pub(super) openings_by: Length,
    /// Whether nothing was rounded to the grid on the way.
    pub(super) is_exact: bool,
}

impl Move<'_> {
    /// The moved wall itself: each end slides along the wall on which it ends. Where several walls meet it there, it
    /// goes out to the farthest, so that it keeps meeting all of them.
    pub(super) fn own_stretch(&self) -> Result<Stretch, Refused> {
        let old = [self.wall.from, self.wall.to];
        let mut ends = old.map(|end| end + self.shift);
        let mut is_exact = self.band.line.is_square_to_axes();
        for (which, outwards) in [(0, -1), (1, 1)] {
            let corners = end_corners(self.wall, which);
            let met = |other: &&Wall| {
                other.id != self.wall.id
                    && !self.band.is_parallel(other.from, other.to)
                    && Band::of(other).touches_segment(corners)
            };
            let mut farthest = None;
            for other in self.standing.walls().filter(met) {
                let end = self.within_reach(old[which] + self.slide(other.from, other.to))?;
                let reach = self.band.line.place(end).along * outwards;
                is_exact &= self.band.is_square(other.from, other.to);
                if farthest.is_none_or(|(farthest, _)| reach > farthest) {
                    farthest = Some((reach, end));
                }
            }
            if let Some((_, end)) = farthest {
                ends[which] = end;
            }
        }
        let start_along = self.band.line.place(self.within_reach(ends[0])? - self.shift).along;
        self.within_reach(ends[1])?;
        self.stretch(&self.wall.id, old, ends, start_along, is_exact)
    }

    /// A wall that ends on the moved one; none if it does not, or runs beside it.
    pub(super) fn stretch_wall(&self, wall: &Wall) -> Result<Option<Stretch>, Refused> {
        let held = [0, 1].map(|which| self.band.touches_end(wall, which));
        if held == [false; 2] || self.band.is_parallel(wall.from, wall.to) || self.standing.is_removed(&wall.id) {
            return Ok(None);
        }
        let old = [wall.from, wall.to];
        let slide = self.slide(wall.from, wall.to);
        let mut ends = old;
        for which in 0..2 {
            if held[which] {
                ends[which] = self.within_reach(old[which] + slide)?;
            }
        }
        let start_along = if held[0] { Line::new(wall.from, wall.to).place(ends[0]).along } else { 0 };
        self.stretch(&wall.id, old, ends, start_along, self.slides_exactly(wall.from, wall.to)).map(Some)
    }

    /// An open boundary that ends on the moved wall; one that carries on the wall's own line goes along as a whole.
    pub(super) fn stretch_boundary(&self, boundary: &OpenBoundary) -> Result<Option<Stretch>, Refused> {
        let old = [boundary.from, boundary.to];
        let mut held = old.map(|end| self.band.touches(end));
        if held == [false; 2] || self.standing.is_removed(&boundary.id) {
            return Ok(None);
        }
        let slide = if self.band.is_parallel(boundary.from, boundary.to) {
            held = [true; 2];
            self.shift
        } else {
            self.slide(boundary.from, boundary.to)
        };
        let mut ends = old;
        for which in 0..2 {
            if held[which] {
                ends[which] = self.within_reach(old[which] + slide)?;
            }
        }
        self.stretch(&boundary.id, old, ends, 0, self.slides_exactly(boundary.from, boundary.to)).map(Some)
    }

    fn stretch(
        &self,
        id: &plan_model::Id,
        old: [Point; 2],
        ends: [Point; 2],
        start_along: i64,
        is_exact: bool,
    ) -> Result<Stretch, Refused> {
        if dot(ends[1] - ends[0], old[1] - old[0]) <= 0 {
            return Err(Refused::NothingLeft { wall: self.wall.id.clone(), shortened: id.clone() });
        }
        Ok(Stretch { ends, openings_by: Length::from_steps(-start_along), is_exact })
    }

    /// How far a point on the line from `from` to `to` slides along that line to stay on the moved wall. The line is not
    /// parallel to the wall. An odd function of the shift: the way back is exactly the opposite.
    fn slide(&self, from: Point, to: Point) -> Point {
        if self.band.is_square(from, to) {
            return self.shift;
        }
        let ahead = to - from;
        let normal = self.band.line.normal();
        let part = |part: Length| {
            let numerator = i128::from(part.steps()) * dot(self.shift, normal);
            Length::from_steps(nearest_quotient(numerator, dot(ahead, normal)))
        };
        Point::new(part(ahead.x), part(ahead.y))
    }

    fn slides_exactly(&self, from: Point, to: Point) -> bool {
        self.band.line.is_square_to_axes() && Line::new(from, to).is_square_to_axes()
    }
}
