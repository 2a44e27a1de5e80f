//! Doors and windows as they stand, and what of them is clear.

use plan_model::elements::{Door, Elements, Hinge, Swing, Wall, Window};
use plan_model::{
    Catalogue, Deduction, DoorOperation, Exact, ExactLength, Home, Id, Length, Point, PublishedClear, WindowOperation,
    WindowUnit,
};

use crate::conflict::Solid;
use crate::kernel::{Bounds, along, offset, project, rectangle};
use crate::region::{cross, sides_of};
use crate::rooms::NamedFloor;
use crate::walls::WallSolid;
use crate::{Basis, Figure, OFF_AXIS_SLACK, Problem, ProblemKind, Region};

/// One side of an opening.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Side {
    /// The room on this side, if there is one that closed.
    pub room: Option<Id>,
    /// Whether this side lies outside the house.
    pub is_outdoors: bool,
    /// The opening's line on the face of this side, jamb to jamb.
    pub line: [Point; 2],
}

/// A door or cased opening as it stands.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct DoorFigures {
    /// The door.
    pub id: Id,
    /// Index in the home's list of doors.
    pub index: usize,
    /// The part of the wall (both walls of a doubled one) that it takes, counter-clockwise.
    pub outline: [Point; 4],
    /// The part of the one wall in which the leaf hangs.
    pub leaf_wall_outline: [Point; 4],
    /// To the left of the host wall, walking from its `from` to its `to`, then to the right.
    pub sides: [Side; 2],
    /// Whether one side is outdoors and the other a room.
    pub is_exterior: bool,
    /// The leaf of a hinged door.
    pub leaf: Option<Leaf>,
    /// Clear width.
    pub clear_width: Figure,
    /// Clear height.
    pub clear_height: Figure,
}

/// The leaf of a hinged door.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Leaf {
    /// The hinge, on the face towards which the leaf swings.
    pub hinge: Point,
    /// The free edge when closed.
    pub closed: Point,
    /// The free edge at 90 degrees.
    pub open: Point,
    /// What stands in the way of the leaf between closed and 90 degrees.
    pub stopped_by: Option<Id>,
}

/// A window as it stands.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct WindowFigures {
    /// The window.
    pub id: Id,
    /// Index in the home's list of windows.
    pub index: usize,
    /// The part of the wall that it takes, counter-clockwise.
    pub outline: [Point; 4],
    /// To the left of the host wall, then to the right.
    pub sides: [Side; 2],
    /// Width of the net clear opening.
    pub clear_width: Figure,
    /// Height of the net clear opening.
    pub clear_height: Figure,
    /// Area of the net clear opening.
    pub clear_area: Figure,
    /// Bottom of the net clear opening above the floor.
    pub sill: Figure,
    /// Area of the glass.
    pub glazed_area: Figure,
}

/// All openings of a home.
pub(crate) struct Openings {
    pub(crate) doors: Vec<DoorFigures>,
    pub(crate) windows: Vec<WindowFigures>,
}

/// Places every opening in its wall and works out what of it is clear.
pub(crate) fn openings(
    home: &Home<'_>,
    walls: &[WallSolid],
    house: &House<'_>,
    solids: &[Solid<'_>],
    problems: &mut Vec<Problem>,
) -> Openings {
    let elements = &home.elements;
    let catalogue = &home.plan.catalogue;
    let mut taken: Vec<Taken<'_>> = Vec::new();
    let mut doors = Vec::new();
    for (index, door) in elements.doors.iter().enumerate() {
        let Some(unit) = catalogue.door(&door.unit) else { continue };
        let Some(host) = Host::find(elements, walls, &door.id, &door.wall, problems) else { continue };
        let Some(mut cut) = host.cut(&door.id, door.at, unit.width, &mut taken, problems) else { continue };
        let leaf_wall_outline = cut.outline();
        if let Some(through) = &door.through {
            cut = through_other(elements, walls, door, through, cut, &mut taken, problems);
        }
        let sides = cut.sides(&door.id, elements, walls, house, problems);
        let leaf = leaf(door, &host, leaf_wall_outline, solids);
        doors.push(DoorFigures {
            id: door.id.clone(),
            index,
            outline: cut.outline(),
            leaf_wall_outline,
            is_exterior: leads_outdoors(&sides),
            sides,
            clear_width: door_clear_width(catalogue, unit, leaf.as_ref()),
            clear_height: door_clear_height(catalogue, unit),
            leaf,
        });
    }
    let mut windows = Vec::new();
    for (index, window) in elements.windows.iter().enumerate() {
        let Some(unit) = catalogue.window(&window.unit) else { continue };
        let Some(host) = Host::find(elements, walls, &window.id, &window.wall, problems) else {
            continue;
        };
        let Some(cut) = host.cut(&window.id, window.at, unit.width, &mut taken, problems) else { continue };
        let sides = cut.sides(&window.id, elements, walls, house, problems);
        windows.push(window_figures(window, index, unit, catalogue, cut.outline(), sides));
    }
    walls_in_openings(walls, &taken, problems);
    columns_at_openings(elements, &taken, problems);
    Openings { doors, windows }
}

/// What lies on the two sides of a wall: the outer boundary and the named floors within.
pub(crate) struct House<'a> {
    pub(crate) footprint: &'a [Region],
    pub(crate) floors: &'a [NamedFloor],
}

fn leads_outdoors([left, right]: &[Side; 2]) -> bool {
    left.room.is_some() && right.is_outdoors || left.is_outdoors && right.room.is_some()
}

/// A stretch of a wall that an opening takes, and who takes it.
struct Taken<'a> {
    opening: &'a Id,
    wall: usize,
    from: Length,
    to: Length,
    outline: [Point; 4],
    hosts: [Option<&'a str>; 2],
}

/// The wall of an opening.
struct Host<'a> {
    wall: &'a Wall,
    solid: &'a WallSolid,
}

impl<'a> Host<'a> {
    fn find(
        elements: &'a Elements,
        walls: &'a [WallSolid],
        opening: &Id,
        wall: &Id,
        problems: &mut Vec<Problem>,
    ) -> Option<Self> {
        let Some(index) = elements.walls.iter().position(|candidate| candidate.id == *wall) else {
            let kind = ProblemKind::NoHost { opening: opening.clone(), wall: wall.clone() };
            problems.push(Problem::at(kind, Point::default()));
            return None;
        };
        Some(Self { wall: &elements.walls[index], solid: &walls[index] })
    }

    /// The stretch from `at` over `width`, unless it leaves the wall or meets another opening.
    fn cut(
        &self,
        opening: &'a Id,
        at: Length,
        width: Length,
        taken: &mut Vec<Taken<'a>>,
        problems: &mut Vec<Problem>,
    ) -> Option<Cut> {
        let length = project(self.wall.from, self.wall.to, self.wall.to).0;
        let place = |along_wall: Length| along(self.wall.from, self.wall.to, along_wall);
        if at < Length::ZERO || at + width > length + OFF_AXIS_SLACK {
            let kind = ProblemKind::OpeningLeavesWall { opening: opening.clone(), wall: self.wall.id.clone() };
            problems.push(Problem::at(kind, place(at)));
            return None;
        }
        let faces = self.solid.faces;
        let on = |face: [Point; 2]| [along(face[0], face[1], at), along(face[0], face[1], at + width)];
        let cut = Cut { left: on(faces.left), right: on(faces.right) };
        take(taken, problems, opening, self.solid.index, [at, at + width], &cut, [Some(self.wall.id.as_str()), None]);
        Some(cut)
    }
}

fn take<'a>(
    taken: &mut Vec<Taken<'a>>,
    problems: &mut Vec<Problem>,
    opening: &'a Id,
    wall: usize,
    [from, to]: [Length; 2],
    cut: &Cut,
    hosts: [Option<&'a str>; 2],
) {
    if let Some(other) = taken.iter().find(|other| other.wall == wall && other.from < to && from < other.to) {
        let kind = ProblemKind::OpeningsOverlap { first: other.opening.clone(), second: opening.clone() };
        problems.push(Problem::shared(kind, &other.outline, &cut.outline()));
    }
    taken.push(Taken { opening, wall, from, to, outline: cut.outline(), hosts });
}

/// The part of a wall that an opening takes: its lines on both faces, walking with the host wall.
#[derive(Clone, Copy)]
struct Cut {
    left: [Point; 2],
    right: [Point; 2],
}

impl Cut {
    fn outline(&self) -> [Point; 4] {
        [self.right[0], self.right[1], self.left[1], self.left[0]]
    }

    /// What the opening leads to on both sides; a wall right before it is a conflict.
    fn sides(
        &self,
        opening: &Id,
        elements: &Elements,
        walls: &[WallSolid],
        house: &House<'_>,
        problems: &mut Vec<Problem>,
    ) -> [Side; 2] {
        [(self.left, BESIDE), (self.right, -BESIDE)].map(|(line, left)| {
            let beside = offset(crate::rooms::middle(line[0], line[1]), line[0], line[1], left);
            let floor = house.floors.iter().find(|floor| floor.region.contains_inside(beside));
            if let Some(floor) = floor {
                return Side { room: Some(elements.rooms[floor.room].id.clone()), is_outdoors: false, line };
            }
            let is_outdoors = !house.footprint.iter().any(|outside| outside.contains(beside));
            let wall = walls.iter().find(|wall| sides_of(&wall.outline).all(|(a, b)| cross(a, b, beside) >= 0));
            if let Some(wall) = wall.filter(|_| !is_outdoors) {
                let kind = ProblemKind::OpensIntoWall { opening: opening.clone(), wall: wall.id.clone() };
                problems.push(Problem::at(kind, beside));
            }
            Side { room: None, is_outdoors, line }
        })
    }
}

/// How far beside a face the room on that side is looked for: more than rounding, less than any room.
const BESIDE: Length = Length::from_steps(Length::INCH.steps() / 8);

/// Carries an opening on through the other wall of a doubled mate wall.
fn through_other<'a>(
    elements: &'a Elements,
    walls: &'a [WallSolid],
    door: &'a Door,
    through: &'a Id,
    cut: Cut,
    taken: &mut Vec<Taken<'a>>,
    problems: &mut Vec<Problem>,
) -> Cut {
    let hosts = [Some(door.wall.as_str()), Some(through.as_str())];
    if let Some(own) = taken.iter_mut().find(|own| own.opening == &door.id) {
        own.hosts = hosts;
    }
    let Some(other) = Host::find(elements, walls, &door.id, through, problems) else { return cut };
    let faces = other.solid.faces;
    let aside = |point: Point| project(cut.left[0], cut.left[1], point).1;
    // Facing the same way as the host, its left face is the one further left.
    let (near, far) = if aside(faces.left[0]) > aside(faces.right[0]) {
        (faces.right, faces.left)
    } else {
        (faces.left, faces.right)
    };
    let thickness = project(cut.right[0], cut.right[1], cut.left[0]).1;
    let against_left = near.iter().all(|end| aside(*end).abs() <= OFF_AXIS_SLACK);
    let against_right = far.iter().all(|end| (aside(*end) + thickness).abs() <= OFF_AXIS_SLACK);
    let [start, end] = cut.left.map(|point| project(other.wall.from, other.wall.to, point).0);
    let [start, end] = [start.min(end), start.max(end)];
    let length = project(other.wall.from, other.wall.to, other.wall.to).0;
    let stands = start >= -OFF_AXIS_SLACK && end <= length + OFF_AXIS_SLACK;
    if !stands || !(against_left || against_right) {
        let kind = ProblemKind::NotThrough { opening: door.id.clone(), wall: through.clone() };
        problems.push(Problem::at(kind, cut.left[0]));
        return cut;
    }
    let beyond = |line: [Point; 2], by: Length| line.map(|point| offset(point, cut.left[0], cut.left[1], by));
    let both = if against_left {
        Cut { left: beyond(cut.left, aside(far[0])), right: cut.right }
    } else {
        Cut { left: cut.left, right: beyond(cut.left, aside(near[0])) }
    };
    let beyond_own = if against_left {
        Cut { left: both.left, right: cut.left }
    } else {
        Cut { left: cut.right, right: both.right }
    };
    take(taken, problems, &door.id, other.solid.index, [start, end], &beyond_own, hosts);
    both
}

/// A column must not stand in an opening, nor right before it.
fn columns_at_openings(elements: &Elements, taken: &[Taken<'_>], problems: &mut Vec<Problem>) {
    for column in &elements.columns {
        let solid = rectangle(column.from, column.to);
        for opening in taken {
            let [a, b, c, d] = opening.outline;
            // A little beyond both faces.
            let [a, b] = [a, b].map(|point| offset(point, a, b, -BESIDE));
            let [c, d] = [c, d].map(|point| offset(point, a, b, BESIDE));
            if crate::conflict::convex_overlap(&[a, b, c, d], &solid) {
                let kind = ProblemKind::ColumnAtOpening { column: column.id.clone(), opening: opening.opening.clone() };
                problems.push(Problem::shared(kind, &[a, b, c, d], &solid));
            }
        }
    }
}

/// A wall that is no host of an opening must not stand in it, nor end on the host where the opening is: it is taken up to
/// where it was drawn into the walls that it meets.
fn walls_in_openings(walls: &[WallSolid], taken: &[Taken<'_>], problems: &mut Vec<Problem>) {
    for opening in taken {
        let bounds = Bounds::around(&opening.outline);
        for wall in walls.iter().filter(|wall| !opening.hosts.contains(&Some(wall.id.as_str()))) {
            if bounds.touches(Bounds::around(&wall.outline))
                && crate::conflict::convex_overlap(&opening.outline, &wall.outline)
            {
                let kind = ProblemKind::WallInOpening { wall: wall.id.clone(), opening: opening.opening.clone() };
                problems.push(Problem::shared(kind, &opening.outline, &wall.outline));
            }
        }
    }
}

/// Into how many straight pieces the arc of a sweep is divided: they stray from it by less than 1/50 in for a 36 in leaf.
const ARC_PIECES: i32 = 32;

/// The sector that a leaf passes from closed to 90 degrees, counter-clockwise; its arc lies within the true one.
#[expect(clippy::cast_possible_truncation, clippy::cast_precision_loss, reason = "exact in f64 below 2^53")]
fn sweep(hinge: Point, closed: Point, open: Point) -> Vec<Point> {
    let (u, v) = (closed - hinge, open - hinge);
    let nearest = |value: f64| Length::from_steps(value.round() as i64);
    let at = |piece: i32| {
        let (sin, cos) = (std::f64::consts::FRAC_PI_2 * f64::from(piece) / f64::from(ARC_PIECES)).sin_cos();
        let along = |a: Length, b: Length| nearest(cos * a.steps() as f64 + sin * b.steps() as f64);
        hinge + Point::new(along(u.x, v.x), along(u.y, v.y))
    };
    let mut sector: Vec<Point> = std::iter::once(hinge).chain((0..=ARC_PIECES).map(at)).collect();
    if crate::region::twice_area(&sector) < 0 {
        sector.reverse();
    }
    sector
}

fn leaf(door: &Door, host: &Host<'_>, outline: [Point; 4], solids: &[Solid<'_>]) -> Option<Leaf> {
    let (hinge, swing) = (door.hinge?, door.swing?);
    let [right_near, right_far, left_far, left_near] = outline;
    let face = match swing {
        Swing::Left => [left_near, left_far],
        Swing::Right => [right_near, right_far],
    };
    let (at, closed) = match hinge {
        Hinge::Near => (face[0], face[1]),
        Hinge::Far => (face[1], face[0]),
    };
    let width = project(face[0], face[1], face[1]).0;
    let out = match swing {
        Swing::Left => width,
        Swing::Right => -width,
    };
    let open = offset(at, face[0], face[1], out);
    let sweep = sweep(at, closed, open);
    let within = Bounds::around(&sweep);
    let stopped_by = solids
        .iter()
        .filter(|solid| *solid.id != host.wall.id && Some(solid.id) != door.through.as_ref())
        .find(|solid| solid.overlaps(&sweep, within))
        .map(|solid| solid.id.clone());
    Some(Leaf { hinge: at, closed, open, stopped_by })
}

fn door_clear_width(catalogue: &Catalogue, unit: &plan_model::DoorUnit, leaf: Option<&Leaf>) -> Figure {
    if let Some(stop) = leaf.and_then(|leaf| leaf.stopped_by.as_ref()) {
        return Figure::Unknown(format!("\"{stop}\" stops the leaf short of 90 degrees"));
    }
    if unit.operation == DoorOperation::CasedOpening {
        return drawn(unit.width);
    }
    let published = unit.clear.map(|clear| clear.width);
    clear(published, unit.operation.deduction().and_then(|of| catalogue.deduction(of)), unit.width, WIDTH, || {
        format!("unit \"{}\" has no published clear width, and the catalogue no deduction for it", unit.id)
    })
}

fn door_clear_height(catalogue: &Catalogue, unit: &plan_model::DoorUnit) -> Figure {
    if unit.operation == DoorOperation::CasedOpening {
        return drawn(unit.height);
    }
    let published = unit.clear.map(|clear| clear.height);
    clear(published, unit.operation.deduction().and_then(|of| catalogue.deduction(of)), unit.height, HEIGHT, || {
        format!("unit \"{}\" has no published clear height, and the catalogue no deduction for it", unit.id)
    })
}

fn drawn(length: Length) -> Figure {
    Figure::Known { value: Exact::from(i128::from(length.steps())), basis: Basis::Stated }
}

/// Into how many parts a dimension is divided, and what is taken off one.
type Part = fn(&Deduction) -> (u8, ExactLength);
const WIDTH: Part = |deduction| (deduction.width_parts, deduction.width_less);
const HEIGHT: Part = |deduction| (deduction.height_parts, deduction.height_less);

fn clear(
    published: Option<ExactLength>,
    deduction: Option<&Deduction>,
    size: Length,
    part: Part,
    missing: impl FnOnce() -> String,
) -> Figure {
    if let Some(published) = published {
        return Figure::Known { value: published.steps(), basis: Basis::Stated };
    }
    let Some((parts, less)) = deduction.map(part) else { return Figure::Unknown(missing()) };
    let value = Exact::new(size.steps().into(), i128::from(parts.max(1))) - less.steps();
    Figure::Known { value: value.max(Exact::from(0)), basis: Basis::Estimated }
}

fn window_figures(
    window: &Window,
    index: usize,
    unit: &WindowUnit,
    catalogue: &Catalogue,
    outline: [Point; 4],
    sides: [Side; 2],
) -> WindowFigures {
    let deduction = catalogue.deduction(unit.operation.deduction());
    let missing =
        || format!("unit \"{}\" has no published clear opening, and the catalogue no deduction for it", unit.id);
    let never_opens = (unit.operation == WindowOperation::Fixed && unit.clear.is_none())
        .then(|| Figure::Known { value: Exact::from(0), basis: Basis::Stated });
    let published = |of: fn(PublishedClear) -> ExactLength| unit.clear.map(of);
    let clear_width =
        never_opens.clone().unwrap_or_else(|| clear(published(|c| c.width), deduction, unit.width, WIDTH, missing));
    let clear_height =
        never_opens.unwrap_or_else(|| clear(published(|c| c.height), deduction, unit.height, HEIGHT, missing));
    WindowFigures {
        id: window.id.clone(),
        index,
        outline,
        sides,
        clear_area: clear_width.times(&clear_height),
        sill: sill(window, unit, deduction),
        glazed_area: glazed_area(unit, deduction),
        clear_width,
        clear_height,
    }
}

/// Bottom of the clear opening: top of the frame, less the frame's height, plus what stands below the opening.
fn sill(window: &Window, unit: &WindowUnit, deduction: Option<&Deduction>) -> Figure {
    let Some(head) = window.head.or(unit.head) else {
        return Figure::Unknown(format!("neither the window nor its unit \"{}\" says how high its head is", unit.id));
    };
    let stated = unit.sill_above_frame.map(|above| (above, Basis::Stated));
    let estimated = || deduction.and_then(|d| d.sill_above_frame).map(|above| (above, Basis::Estimated));
    match stated.or_else(estimated) {
        Some((above, basis)) => {
            let frame = Exact::from(i128::from((head - unit.height).steps()));
            Figure::Known { value: frame + above.steps(), basis }
        }
        None => {
            Figure::Unknown(format!("unit \"{}\" does not say how far its clear opening is above its frame", unit.id))
        }
    }
}

fn glazed_area(unit: &WindowUnit, deduction: Option<&Deduction>) -> Figure {
    if let Some(glass) = unit.glass {
        return Figure::Known { value: glass.width.steps() * glass.height.steps(), basis: Basis::Stated };
    }
    let less = deduction.and_then(|d| Some((d.glass_width_less?.steps(), d.glass_height_less?.steps())));
    let Some((width_less, height_less)) = less else {
        return Figure::Unknown(format!(
            "unit \"{}\" has no published glass, and the catalogue no deduction for it",
            unit.id
        ));
    };
    let left = |size: Length, less: Exact| (Exact::from(i128::from(size.steps())) - less).max(Exact::from(0));
    Figure::Known { value: left(unit.width, width_less) * left(unit.height, height_less), basis: Basis::Estimated }
}

/// Clear openings, leaves and sweeps.
pub(crate) fn measures(_derived: &crate::Derived) -> Vec<crate::Measure> {
    Vec::new()
}
