use plan_geometry::Derived;
use plan_model::elements::WallKind;
use plan_model::{Home, Length, Point, Side};

/// Where the strings of one side are cut: coordinates along that side.
pub(super) struct Cuts {
    ends: Vec<Length>,
    openings: Vec<[Length; 2]>,
    partitions: Vec<[Length; 2]>,
    modules: Vec<Length>,
}

/// Coordinates along a side and out from it.
#[derive(Clone, Copy)]
struct Axes(Side);

impl Axes {
    fn along(self, point: Point) -> Length {
        match self.0 {
            Side::Front | Side::Back => point.x,
            Side::Left | Side::Right => point.y,
        }
    }

    fn out(self, point: Point) -> Length {
        match self.0 {
            Side::Front => -point.y,
            Side::Back => point.y,
            Side::Left => -point.x,
            Side::Right => point.x,
        }
    }

    /// Whether a boundary that has its inside to the left faces this side on the way from `a` to `b`.
    fn faces(self, a: Point, b: Point) -> bool {
        if self.out(a) != self.out(b) {
            return false;
        }
        let ahead = self.along(b) > self.along(a);
        match self.0 {
            Side::Front | Side::Right => ahead,
            Side::Back | Side::Left => !ahead,
        }
    }

    fn interval(self, points: &[Point]) -> Option<[Length; 2]> {
        let along = || points.iter().map(|point| self.along(*point));
        Some([along().min()?, along().max()?])
    }
}

/// A straight part of the house's outline that faces the side.
struct Face {
    along: [Length; 2],
    out: Length,
}

impl Cuts {
    pub(super) fn new(home: &Home<'_>, derived: &Derived, side: Side) -> Self {
        let axes = Axes(side);
        let faces = faces(derived, axes);
        let mut ends: Vec<Length> = faces.iter().flat_map(|face| face.along).collect();
        let corners = derived.footprint.iter().flat_map(|part| &part.outer).map(|corner| axes.along(*corner));
        ends.extend(corners.clone().min().into_iter().chain(corners.max()));
        let modules = home.plan.modules.iter().flat_map(|module| [module.from, module.to]);
        Self {
            ends: sorted(ends),
            openings: openings(derived, axes, &faces),
            partitions: partitions(home, derived, axes, &faces),
            modules: sorted(modules.map(|corner| axes.along(corner)).collect()),
        }
    }

    /// Ends of walls and both jambs of every opening.
    pub(super) fn jambs(&self) -> Vec<Length> {
        sorted(self.ends.iter().copied().chain(self.openings.iter().flatten().copied()).collect())
    }

    /// Ends of walls and the middle of every opening.
    pub(super) fn centres(&self) -> Vec<Length> {
        let middle = |[from, to]: &[Length; 2]| Length::from_steps((from.steps() + to.steps()) / 2);
        sorted(self.ends.iter().copied().chain(self.openings.iter().map(middle)).collect())
    }

    /// Ends of walls and both faces of every partition.
    pub(super) fn partitions(&self) -> Vec<Length> {
        sorted(self.ends.iter().copied().chain(self.partitions.iter().flatten().copied()).collect())
    }

    /// Edges of modules, where there is more than one beside the other.
    pub(super) fn modules(&self) -> Vec<Length> {
        self.modules.clone()
    }

    /// The two ends of the house.
    pub(super) fn whole(&self) -> Vec<Length> {
        self.ends.first().into_iter().chain(self.ends.last()).copied().collect()
    }
}

fn sorted(mut cuts: Vec<Length>) -> Vec<Length> {
    cuts.sort_unstable();
    cuts.dedup();
    cuts
}

fn faces(derived: &Derived, axes: Axes) -> Vec<Face> {
    let sides = derived.footprint.iter().flat_map(|part| part.sides());
    let facing = sides.filter(|(a, b)| axes.faces(*a, *b));
    facing.filter_map(|(a, b)| Some(Face { along: axes.interval(&[a, b])?, out: axes.out(a) })).collect()
}

/// Openings to outdoors whose outer line lies on one of the faces.
fn openings(derived: &Derived, axes: Axes, faces: &[Face]) -> Vec<[Length; 2]> {
    let sides = derived.windows.iter().map(|window| &window.sides);
    let sides = sides.chain(derived.doors.iter().filter(|door| door.is_exterior).map(|door| &door.sides));
    let outer = sides.flatten().filter(|side| side.room.is_none());
    let on_face = outer.filter(|side| {
        let [a, b] = side.line;
        axes.out(a) == axes.out(b) && faces.iter().any(|face| face.out == axes.out(a))
    });
    on_face.filter_map(|side| axes.interval(&side.line)).collect()
}

/// Walls that run into a face from inside, square to it, as their two faces; touching ones count as one.
fn partitions(home: &Home<'_>, derived: &Derived, axes: Axes, faces: &[Face]) -> Vec<[Length; 2]> {
    let exterior = |kind: WallKind| kind == WallKind::Exterior;
    let thickest = home.elements.walls.iter().filter(|wall| exterior(wall.kind)).map(|wall| wall.thickness).max();
    let reach = thickest.unwrap_or_default();
    let mut found = Vec::new();
    for solid in &derived.walls {
        let Some(wall) = home.elements.walls.get(solid.index).filter(|wall| !exterior(wall.kind)) else { continue };
        let run = wall.to - wall.from;
        let is_square = axes.along(run) == Length::ZERO;
        let (Some(interval), Some(end)) =
            (axes.interval(&solid.outline), solid.outline.iter().map(|corner| axes.out(*corner)).max())
        else {
            continue;
        };
        let meets = |face: &Face| {
            face.along[0] < interval[0] && interval[1] < face.along[1] && end >= face.out - reach && end <= face.out
        };
        if is_square && faces.iter().any(meets) {
            found.push(interval);
        }
    }
    found.sort_unstable();
    let mut merged: Vec<[Length; 2]> = Vec::new();
    for interval in found {
        match merged.last_mut() {
            Some(last) if interval[0] <= last[1] => last[1] = last[1].max(interval[1]),
            _ => merged.push(interval),
        }
    }
    merged
}
