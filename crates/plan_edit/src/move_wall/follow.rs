//! The ends of walls and open boundaries that follow a moved wall, and its own.

use plan_model::elements::{OpenBoundary, Wall};
use plan_model::{Id, Length, Point};

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
                    && !self.band.line.is_parallel_to(other.from, other.to)
                    && Band::of(other).touches_segment(corners)
            };
            let mut farthest = None;
            for other in self.standing.walls().filter(met) {
                let end = self.within_reach(old[which] + self.slide(other.from, other.to))?;
                let reach = self.band.line.place(end).along * outwards;
                is_exact &= self.band.line.is_square_to(other.from, other.to);
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
        if held == [false; 2] || self.band.line.is_parallel_to(wall.from, wall.to) {
            return Ok(None);
        }
        let ends = self.slid([wall.from, wall.to], held, self.slide(wall.from, wall.to))?;
        let start_along = Line::new(wall.from, wall.to).place(ends[0]).along;
        let is_exact = self.slides_exactly(wall.from, wall.to);
        self.stretch(&wall.id, [wall.from, wall.to], ends, start_along, is_exact).map(Some)
    }

    /// An open boundary that ends on the moved wall; one that carries on the wall's own line goes along as a whole.
    pub(super) fn stretch_boundary(&self, boundary: &OpenBoundary) -> Result<Option<Stretch>, Refused> {
        let old = [boundary.from, boundary.to];
        let held = old.map(|end| self.band.touches(end));
        if held == [false; 2] {
            return Ok(None);
        }
        let ends = if self.band.line.is_parallel_to(boundary.from, boundary.to) {
            self.slid(old, [true; 2], self.shift)?
        } else {
            self.slid(old, held, self.slide(boundary.from, boundary.to))?
        };
        self.stretch(&boundary.id, old, ends, 0, self.slides_exactly(boundary.from, boundary.to)).map(Some)
    }

    /// The ends after those that the moved wall holds have slid.
    fn slid(&self, ends: [Point; 2], held: [bool; 2], slide: Point) -> Result<[Point; 2], Refused> {
        let end = |which: usize| {
            if held[which] { self.within_reach(ends[which] + slide) } else { Ok(ends[which]) }
        };
        Ok([end(0)?, end(1)?])
    }

    fn stretch(
        &self,
        id: &Id,
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
    /// parallel to the wall. On an unchanged line, the way back is exactly the opposite.
    fn slide(&self, from: Point, to: Point) -> Point {
        if self.band.line.is_square_to(from, to) {
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
