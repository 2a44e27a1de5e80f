//! Plans moved, turned by a quarter and mirrored: the same home, drawn elsewhere.

use plan_model::elements::{End, PlacedBy, Swing};
use plan_model::{Elements, Facing, Length, Plan, Point, Side};

/// A way to draw the same home elsewhere.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Transform {
    /// Moved by a difference of places.
    Moved(Point),
    /// Turned counter-clockwise by a quarter about the origin.
    QuarterTurned,
    /// Mirrored left to right about the y axis.
    Mirrored,
}

impl Transform {
    /// A place, transformed.
    #[must_use]
    pub fn point(self, point: Point) -> Point {
        match self {
            Self::Moved(by) => point + by,
            Self::QuarterTurned => Point::new(-point.y, point.x),
            Self::Mirrored => Point::new(-point.x, point.y),
        }
    }

    /// The whole plan, transformed.
    #[must_use]
    pub fn plan(self, plan: &Plan) -> Plan {
        let mut plan = plan.clone();
        for module in &mut plan.modules {
            module.from = self.point(module.from);
            module.to = self.point(module.to);
        }
        for eave in &mut plan.home.eaves {
            eave.side = self.side(eave.side);
        }
        if let Some(line) = &mut plan.mate_line {
            line.from = self.point(line.from);
            line.to = self.point(line.to);
        }
        for elements in plan.all_elements_mut() {
            self.elements(elements);
        }
        for choice in &mut plan.choices {
            choice.at = choice.at.map(|at| self.point(at));
        }
        plan
    }

    fn elements(self, elements: &mut Elements) {
        let mirrored = self == Self::Mirrored;
        for wall in &mut elements.walls {
            wall.from = self.point(wall.from);
            wall.to = self.point(wall.to);
            if mirrored {
                wall.placed_by = match wall.placed_by {
                    PlacedBy::Centre => PlacedBy::Centre,
                    PlacedBy::LeftFace => PlacedBy::RightFace,
                    PlacedBy::RightFace => PlacedBy::LeftFace,
                };
            }
        }
        for door in &mut elements.doors {
            if mirrored {
                door.swing = door.swing.map(|swing| match swing {
                    Swing::Left => Swing::Right,
                    Swing::Right => Swing::Left,
                });
            }
        }
        for boundary in &mut elements.open_boundaries {
            boundary.from = self.point(boundary.from);
            boundary.to = self.point(boundary.to);
        }
        for column in &mut elements.columns {
            column.from = self.point(column.from);
            column.to = self.point(column.to);
        }
        for room in &mut elements.rooms {
            room.at = self.point(room.at);
        }
        for fixture in &mut elements.fixtures {
            fixture.at = self.point(fixture.at);
            fixture.faces = self.facing(fixture.faces);
            if mirrored {
                let width = fixture.width;
                for bowl in &mut fixture.bowls {
                    *bowl = width - *bowl;
                }
                fixture.drain = fixture.drain.map(|end| match end {
                    End::Left => End::Right,
                    End::Right => End::Left,
                });
            }
        }
        for piece in &mut elements.furniture {
            piece.at = self.point(piece.at);
            piece.faces = self.facing(piece.faces);
        }
        for slope in elements.ceilings.iter_mut().filter_map(|ceiling| ceiling.slope.as_mut()) {
            slope.from = self.point(slope.from);
            slope.to = self.point(slope.to);
            if mirrored {
                std::mem::swap(&mut slope.from, &mut slope.to);
            }
        }
        for soffit in &mut elements.soffits {
            soffit.from = self.point(soffit.from);
            soffit.to = self.point(soffit.to);
        }
        for detector in &mut elements.detectors {
            detector.at = self.point(detector.at);
        }
        for fan in &mut elements.fans {
            fan.at = self.point(fan.at);
        }
        for landing in &mut elements.landings {
            landing.from = self.point(landing.from);
            landing.to = self.point(landing.to);
        }
        for porch in &mut elements.porches {
            porch.from = self.point(porch.from);
            porch.to = self.point(porch.to);
        }
    }

    fn facing(self, facing: Facing) -> Facing {
        let (dx, dy) = facing.direction();
        let turned = match self {
            Self::Moved(_) => Some(facing),
            Self::QuarterTurned => Facing::new(-dy, dx),
            Self::Mirrored => Facing::new(-dx, dy),
        };
        turned.unwrap_or(facing)
    }

    const fn side(self, side: Side) -> Side {
        match (self, side) {
            (Self::Moved(_), side) => side,
            (Self::QuarterTurned, Side::Front) => Side::Right,
            (Self::QuarterTurned, Side::Right) => Side::Back,
            (Self::QuarterTurned, Side::Back) => Side::Left,
            (Self::QuarterTurned, Side::Left) => Side::Front,
            (Self::Mirrored, Side::Left) => Side::Right,
            (Self::Mirrored, Side::Right) => Side::Left,
            (Self::Mirrored, side) => side,
        }
    }
}

/// The outline turned by any angle about the origin, to the nearest grid step.
#[must_use]
#[expect(clippy::cast_precision_loss, clippy::cast_possible_truncation, reason = "exact in f64 below 2^53")]
pub fn turned(outline: &[Point], degrees: f64) -> Vec<Point> {
    let (sin, cos) = degrees.to_radians().sin_cos();
    let nearest = |value: f64| Length::from_steps(value.round() as i64);
    outline
        .iter()
        .map(|point| {
            let (x, y) = (point.x.steps() as f64, point.y.steps() as f64);
            Point::new(nearest(x * cos - y * sin), nearest(x * sin + y * cos))
        })
        .collect()
}
