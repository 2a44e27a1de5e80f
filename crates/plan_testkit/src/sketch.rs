//! Homes of several rooms, drawn wall by wall in a few lines, at any angle.

use plan_model::elements::{
    Ceiling, Detector, DetectorKind, Door, Fixture, FixtureKind, Fuel, OpenBoundary, PlacedBy, Room, RoomUse, Wall,
    WallKind, Window,
};
use plan_model::{
    DoorOperation, DoorUnit, ExactLength, Facing, Length, Plan, Point, PublishedClear, WindowOperation, WindowUnit,
};

use crate::{doorway, empty_plan, turned};

/// A home under the pencil. Places are given square to the sheet, and turned by the sketch's angle as they are drawn.
#[derive(Clone, Debug)]
pub struct Sketch {
    plan: Plan,
    degrees: f64,
}

impl Sketch {
    /// Nothing drawn yet, square to the sheet.
    #[must_use]
    pub fn new() -> Self {
        Self::at_angle(0.0)
    }

    /// Nothing drawn yet; all that follows is turned about the origin by so many degrees.
    #[must_use]
    pub fn at_angle(degrees: f64) -> Self {
        Self { plan: empty_plan(), degrees }
    }

    /// A place as it is drawn.
    #[must_use]
    pub fn place(&self, at: Point) -> Point {
        if self.degrees == 0.0 { at } else { turned(&[at], self.degrees).first().copied().unwrap_or(at) }
    }

    /// Outside walls, 6 in thick, around an outline to their inner faces, counter-clockwise: `outside-0` is that after
    /// the first corner.
    #[must_use]
    pub fn outside(mut self, outline: &[(i64, i64)]) -> Self {
        for (index, from) in outline.iter().enumerate() {
            let to = outline.get(index + 1).or(outline.first()).unwrap_or(from);
            let wall = self.wall(&format!("outside-{index}"), WallKind::Exterior, *from, *to, 6, PlacedBy::LeftFace);
            self.plan.base.walls.push(wall);
        }
        self
    }

    /// A partition 4 in thick, by its centre line.
    #[must_use]
    pub fn partition(mut self, id: &str, from: (i64, i64), to: (i64, i64)) -> Self {
        let wall = self.wall(id, WallKind::Partition, from, to, 4, PlacedBy::Centre);
        self.plan.base.walls.push(wall);
        self
    }

    /// A doubled mate wall, 8 in thick in all, by the line between its halves: `id` is the half to the left of that line,
    /// `id` with `-right` the other.
    #[must_use]
    pub fn mate_walls(mut self, id: &str, from: (i64, i64), to: (i64, i64)) -> Self {
        let left = self.wall(id, WallKind::Mate, from, to, 4, PlacedBy::RightFace);
        let right = self.wall(&format!("{id}-right"), WallKind::Mate, from, to, 4, PlacedBy::LeftFace);
        self.plan.base.walls.extend([left, right]);
        self
    }

    fn wall(
        &self,
        id: &str,
        kind: WallKind,
        from: (i64, i64),
        to: (i64, i64),
        thickness: i64,
        placed_by: PlacedBy,
    ) -> Wall {
        let [from, to] = [from, to].map(|(x, y)| self.place(Point::inches(x, y)));
        Wall { id: id.into(), kind, from, to, thickness: Length::inches(thickness), placed_by, movable: false }
    }

    /// A room by a point inside it.
    #[must_use]
    pub fn room(mut self, id: &str, usage: RoomUse, at: (i64, i64)) -> Self {
        let at = self.place(Point::inches(at.0, at.1));
        self.plan.base.rooms.push(Room { id: id.into(), name: id.into(), usage, at });
        self
    }

    /// An open boundary.
    #[must_use]
    pub fn boundary(mut self, id: &str, from: (i64, i64), to: (i64, i64)) -> Self {
        let [from, to] = [from, to].map(|(x, y)| self.place(Point::inches(x, y)));
        self.plan.base.open_boundaries.push(OpenBoundary { id: id.into(), from, to });
        self
    }

    /// A hinged door 32 x 80 in without a leaf's swing, so far along its wall.
    #[must_use]
    pub fn door(self, id: &str, wall: &str, at: i64) -> Self {
        self.opening(id, wall, at, DoorOperation::Hinged, [32, 80])
    }

    /// A cased opening of a width and height.
    #[must_use]
    pub fn cased_opening(self, id: &str, wall: &str, at: i64, size: [i64; 2]) -> Self {
        self.opening(id, wall, at, DoorOperation::CasedOpening, size)
    }

    fn opening(mut self, id: &str, wall: &str, at: i64, operation: DoorOperation, [width, height]: [i64; 2]) -> Self {
        let unit = format!("{id}-unit");
        let [width, height] = [width, height].map(Length::inches);
        self.plan.catalogue.doors.push(DoorUnit {
            id: unit.as_str().into(),
            operation,
            width,
            height,
            clear: None,
            glass: None,
        });
        // An opening in one half of a mate wall leads through the other.
        let other = format!("{wall}-right");
        let through = self.plan.base.walls.iter().find(|wall| wall.id.as_str() == other).map(|wall| wall.id.clone());
        self.plan.base.doors.push(Door { through, ..doorway(id, &unit, wall, Length::inches(at)) });
        self
    }

    /// A window 24 in wide, so far along its wall, whose maker publishes width and height of the glass and of the clear
    /// opening, in tenths of an inch. What is left out is unknown, but for a window that does not open.
    #[must_use]
    pub fn window(
        mut self,
        id: &str,
        wall: &str,
        at: i64,
        operation: WindowOperation,
        [glass, clear]: [Option<[i64; 2]>; 2],
    ) -> Self {
        let unit = format!("{id}-unit");
        let tenths = |tenths: i64| ExactLength::from_steps(steps(tenths) / 10);
        let published = |[width, height]: [i64; 2]| PublishedClear { width: tenths(width), height: tenths(height) };
        self.plan.catalogue.windows.push(WindowUnit {
            id: unit.as_str().into(),
            operation,
            width: Length::inches(24),
            height: Length::inches(48),
            head: Some(Length::inches(82)),
            clear: clear.map(published),
            sill_above_frame: None,
            glass: glass.map(published),
            vent: None,
        });
        let (id, at) = (id.into(), Length::inches(at));
        self.plan.base.windows.push(Window { id, unit: unit.into(), wall: wall.into(), at, head: None });
        self
    }

    /// A flat ceiling over the rooms that are named, or over all that no other ceiling names.
    #[must_use]
    pub fn ceiling(mut self, rooms: &[&str], height: i64) -> Self {
        let id = format!("ceiling-{}", self.plan.base.ceilings.len()).into();
        let rooms = rooms.iter().map(|room| (*room).into()).collect();
        self.plan.base.ceilings.push(Ceiling { id, rooms, height: Length::inches(height), slope: None });
        self
    }

    /// An alarm.
    #[must_use]
    pub fn detector(mut self, id: &str, kind: DetectorKind, at: Point) -> Self {
        let at = self.place(at);
        self.plan.base.detectors.push(Detector { id: id.into(), kind, at });
        self
    }

    /// A fixture 30 in wide and 26 in deep, by the middle of its back edge, on a sheet that is not turned.
    #[must_use]
    pub fn fixture(mut self, id: &str, kind: FixtureKind, at: (i64, i64), faces: Facing, fuel: Option<Fuel>) -> Self {
        self.plan.base.fixtures.push(Fixture {
            id: id.into(),
            kind,
            at: Point::inches(at.0, at.1),
            faces,
            width: Length::inches(30),
            depth: Length::inches(26),
            entry: None,
            bowls: Vec::new(),
            drain: None,
            fuel,
            outdoor_air: false,
        });
        self
    }

    /// Any other change of what was drawn so far.
    #[must_use]
    pub fn with(mut self, change: impl FnOnce(&mut Plan)) -> Self {
        change(&mut self.plan);
        self
    }

    /// What was drawn.
    #[must_use]
    pub fn plan(self) -> Plan {
        self.plan
    }
}

impl Default for Sketch {
    fn default() -> Self {
        Self::new()
    }
}

fn steps(inches: i64) -> plan_model::Exact {
    plan_model::Exact::from(i128::from(Length::inches(inches).steps()))
}
