//! Rooms from walls: the spaces that walls enclose, cut by open boundaries, named by the points that stand in them.

mod boundaries;

use std::sync::Arc;

use plan_model::elements::{Column, Elements, RoomUse, Wall};
use plan_model::{Id, Length, Point};

use self::boundaries::Dividing;
use crate::asked::{Asked, Question};
use crate::free_floor::FreeFloor;
use crate::kernel::{Bounds, Whereabouts, project, rectangle, union};
use crate::passage::{PassagesOf, Pinch};
use crate::region::on_segment;
use crate::walls::{self, WallSolid};
use crate::{
    Amount, Area, CeilingFigures, ClearSizes, CountedHeights, Derived, Doorway, Mark, Measure, MeasureName, Measured,
    OFF_AXIS_SLACK, Passage, Problem, ProblemKind, Region,
};

/// A named room and its own figures.
#[derive(Clone, Debug)]
pub struct RoomFigures {
    /// The room.
    pub id: Id,
    /// What it is used for.
    pub usage: RoomUse,
    /// Index of its open space in [`Derived::spaces`](crate::Derived::spaces).
    pub space: usize,
    /// The floor, to finished faces and open boundaries.
    pub region: Arc<Region>,
    /// Area of the region.
    pub floor_area: Area,
    /// Clear sizes of the region.
    pub sizes: ClearSizes,
    /// Its ceiling.
    pub ceiling: Arc<CeilingFigures>,
    pub(crate) passages: Asked<PassagesOf>,
}

impl RoomFigures {
    /// The clear width between every two of the room's doorways; worked out when it is first asked for.
    #[must_use]
    pub fn passages(&self) -> &[Passage] {
        self.passages.get()
    }

    /// The room's doorways: its doors, and the open boundaries on its edge.
    #[must_use]
    pub fn doorways(&self) -> &[Doorway] {
        &self.passages.question().doorways
    }
}

/// Rooms that are joined by open boundaries: one space, judged once for area, dimension and light.
#[derive(Clone, Debug)]
pub struct Space {
    /// Its named parts, in the order of the file.
    pub rooms: Vec<Id>,
    /// The floor, to finished faces.
    pub region: Arc<Region>,
    /// Area of the region.
    pub floor_area: Area,
    /// Clear sizes of the region.
    pub sizes: ClearSizes,
    pub(crate) free_floor: Asked<FreeFloor>,
    /// The ceilings over its parts.
    pub(crate) ceilings: Vec<Arc<CeilingFigures>>,
}

/// The walls and columns of a home, from which its rooms follow.
#[derive(Debug, PartialEq)]
pub(crate) struct Enclosing {
    pub(crate) walls: Vec<Wall>,
    pub(crate) columns: Vec<Column>,
}

impl Question for Enclosing {
    type Answer = Enclosure;

    fn answer(&self) -> Enclosure {
        Enclosure::of(&self.walls, &self.columns)
    }
}

/// Floor area, clear rectangle, largest square and passages of every room; qualifying area of every space.
pub(crate) fn measures(derived: &Derived) -> Vec<Measure> {
    let mut measures = Vec::new();
    for room in &derived.rooms {
        let of = vec![room.id.clone()];
        let clear = room.sizes.rectangle();
        let [a, b, c, _] = clear.corners;
        let across = |length: Length| {
            let span =
                [[a, b], [b, c]].into_iter().find(|[p, q]| (project(*p, *q, *q).0 - length).abs() <= OFF_AXIS_SLACK);
            span.map(Mark::Span).into_iter().collect::<Vec<_>>()
        };
        let length = |value: Length| Amount::Length(Measured { value, slack: room.sizes.slack() });
        let mut tell = |name, amount, marks| measures.push(Measure { name, part: None, of: of.clone(), amount, marks });
        let ground = vec![Mark::Ground(room.region.outer.clone())];
        let square = vec![Mark::Ground(room.sizes.largest_square_corners().to_vec())];
        tell(MeasureName::FloorArea, Amount::Area(room.floor_area), ground);
        tell(MeasureName::ClearRectangleWidth, length(clear.width), across(clear.width));
        tell(MeasureName::ClearRectangleLength, length(clear.length), across(clear.length));
        tell(MeasureName::LargestSquare, length(room.sizes.largest_square()), square);
        for passage in room.passages() {
            let [one, other] = passage.between.clone();
            measures.push(Measure {
                name: MeasureName::PassageWidth,
                part: None,
                of: vec![room.id.clone(), one, other],
                amount: Amount::Length(passage.clear_width),
                marks: Pinch { ends: passage.pinch, centre: passage.centre }.marks(passage.clear_width.value),
            });
        }
    }
    measures.extend(derived.spaces.iter().flat_map(|space| [qualifying_area(space), least_dimension(space)]));
    measures
}

/// The width at which floor counts in the list of measures.
///
/// Source: IRC R304.2, the least dimension of habitable rooms.
const COUNTED_WIDTH: Length = Length::inches(84);

fn qualifying_area(space: &Space) -> Measure {
    let of = space.rooms.clone();
    let (amount, ground) = match space.counted_floor(CountedHeights::MODEL_CODE) {
        Ok(floor) => {
            let (area, ground) = floor.qualifying_ground(COUNTED_WIDTH - floor.slack());
            (Amount::Area(area), ground)
        }
        Err(why) => (Amount::Unknown(why), Vec::new()),
    };
    Measure {
        name: MeasureName::QualifyingArea,
        part: None,
        of,
        amount,
        marks: ground.into_iter().map(Mark::Ground).collect(),
    }
}

/// The area over which the least dimension is taken in the list of measures: 70 sq ft.
///
/// Source: IRC R304.1, the least area of habitable rooms.
const REQUIRED_AREA: Area = Area::from_square_steps(70 * Area::SQUARE_FOOT.square_steps());

/// Shown across the narrowest rectangle that counts, where one is as narrow, and by the ground that squares of the side cover.
fn least_dimension(space: &Space) -> Measure {
    let told = |amount, marks| Measure {
        name: MeasureName::LeastDimension,
        of: space.rooms.clone(),
        part: None,
        amount,
        marks,
    };
    let floor = match space.counted_floor(CountedHeights::MODEL_CODE) {
        Ok(floor) => floor,
        Err(why) => return told(Amount::Unknown(why), Vec::new()),
    };
    // A floor whose area is on the limit has the required area.
    let required = REQUIRED_AREA - floor.area_slack();
    let Some((least, line)) = floor.least_dimension_and_line(required) else {
        let why = "the floor that counts is smaller than the 70 sq ft over which it is taken";
        let ground = floor.regions().map(|region| Mark::Ground(region.outer.clone()));
        return told(Amount::Unknown(why.to_owned()), ground.collect());
    };
    let is_as_long = |[a, b]: &[Point; 2]| (project(*a, *b, *b).0 - least).abs() <= floor.slack().max(OFF_AXIS_SLACK);
    let line = line.filter(is_as_long).map(Mark::Span);
    let (_, ground) = floor.qualifying_ground(least);
    let marks = line.into_iter().chain(ground.into_iter().map(Mark::Ground)).collect();
    told(Amount::Length(Measured { value: least, slack: floor.slack() }), marks)
}

/// What the walls and columns of a home enclose, before anything has a name.
#[derive(Clone, Debug)]
pub struct Enclosure {
    /// Each wall as it stands.
    pub walls: Vec<WallSolid>,
    /// The union of all walls and columns.
    pub wall_regions: Vec<Region>,
    /// The outer boundary of each building.
    pub footprint: Vec<Region>,
    /// The floors between the walls, columns taken out.
    pub floors: Vec<Region>,
}

impl Enclosure {
    /// Resolves the joints of all walls, unites them and takes the holes of the union as floors.
    ///
    /// Off the axes, doubled walls that touch leave slivers between them; those belong to the walls.
    #[must_use]
    pub fn of(walls: &[Wall], columns: &[Column]) -> Self {
        let walls = walls::solids(walls);
        let columns: Vec<[Point; 4]> = columns.iter().map(|column| rectangle(column.from, column.to)).collect();
        let columns = columns.iter().map(<[Point; 4]>::as_slice);
        let fills = walls.iter().flat_map(|wall| &wall.fills).map(<[Point; 4]>::as_slice);
        let outlines = walls.iter().map(|wall| wall.outline.as_slice()).chain(fills).chain(columns);
        let mut wall_regions = union(outlines);
        let mut floors: Vec<Region> = Vec::new();
        for region in &mut wall_regions {
            region.holes.retain(|hole| !is_sliver(hole));
            for hole in &region.holes {
                floors.push(Region { outer: hole.iter().rev().copied().collect(), holes: Vec::new() });
            }
        }
        let mut footprint = Vec::new();
        for region in &wall_regions {
            let Some(first) = region.outer.first() else { continue };
            // An island in a room within a room belongs to the inner one.
            let around = floors.iter_mut().filter(|floor| floor.contains_inside(*first));
            match around.min_by_key(|floor| crate::region::twice_area(&floor.outer)) {
                Some(floor) => floor.holes.push(region.outer.iter().rev().copied().collect()),
                None => footprint.push(Region { outer: region.outer.clone(), holes: Vec::new() }),
            }
        }
        Self { walls, wall_regions, footprint, floors }
    }
}

fn is_sliver(hole: &[Point]) -> bool {
    let slanted = |(a, b): &(Point, Point)| a.x != b.x && a.y != b.y;
    if !crate::region::sides_of(hole).any(|side| slanted(&side)) {
        return false;
    }
    let around: i128 = crate::region::sides_of(hole).map(|(a, b)| i128::from(project(a, b, b).0.steps())).sum();
    crate::region::twice_area(hole).abs() <= around * i128::from(OFF_AXIS_SLACK.steps())
}

/// A room's floor before its figures are taken.
pub(crate) struct NamedFloor {
    /// Index in the home's list of rooms.
    pub(crate) room: usize,
    /// Index of the open space.
    pub(crate) space: usize,
    pub(crate) region: Arc<Region>,
}

/// An open space before its figures are taken: its floor and its rooms, as indices in the home's list.
pub(crate) struct NamedSpace {
    pub(crate) region: Arc<Region>,
    pub(crate) rooms: Vec<usize>,
}

/// The outcome of naming floors.
pub(crate) struct Named {
    pub(crate) floors: Vec<NamedFloor>,
    pub(crate) spaces: Vec<NamedSpace>,
    /// Where open boundaries can be walked across.
    pub(crate) doorways: Vec<Doorway>,
    /// Whether every floor has a room, and every room a floor.
    pub(crate) complete: bool,
}

/// Cuts floors by open boundaries and names the parts by the rooms' points.
pub(crate) fn name(
    floors: Vec<Region>,
    elements: &Elements,
    walls: &[WallSolid],
    solid: &[Region],
    problems: &mut Vec<Problem>,
) -> Named {
    let mut named = Named { floors: Vec::new(), spaces: Vec::new(), doorways: Vec::new(), complete: true };
    let mut found = vec![false; elements.rooms.len()];
    let anchors = Whereabouts::of(elements.rooms.iter().map(|room| Bounds::around(&[room.at])));
    let mut dividing = Dividing::by(&elements.open_boundaries);
    for floor in floors {
        let parts = dividing.cut(&floor);
        let mut rooms = Vec::new();
        let whole = Arc::new(floor);
        let single = parts.is_empty();
        for part in parts.into_iter().map(Arc::new).chain(single.then(|| whole.clone())) {
            let near = anchors.touching(Bounds::around(&part.outer)).into_iter();
            let mut inside =
                near.map(|index| (index, &elements.rooms[index])).filter(|(_, room)| part.contains_inside(room.at));
            let Some((first, room)) = inside.next() else {
                problems.push(Problem::at(ProblemKind::SpaceWithoutRoom, some_point(&part)));
                named.complete = false;
                continue;
            };
            found[first] = true;
            for (second, other) in inside {
                found[second] = true;
                let kind = ProblemKind::TwoAnchors { first: room.id.clone(), second: other.id.clone() };
                problems.push(Problem::at(kind, other.at));
                named.complete = false;
            }
            rooms.push(first);
            named.floors.push(NamedFloor { room: first, space: named.spaces.len(), region: part });
        }
        if !rooms.is_empty() {
            rooms.sort_unstable();
            named.spaces.push(NamedSpace { region: whole, rooms });
        }
    }
    problems.extend(dividing.loose());
    named.doorways = dividing.doorways();
    named.floors.sort_by_key(|floor| floor.room);
    for (room, _) in elements.rooms.iter().zip(found).filter(|(_, found)| !found) {
        let in_wall = walls.iter().any(|wall| inside_or_on(&wall.outline, room.at))
            || solid.iter().any(|region| region.contains(room.at))
            || on_boundary(elements, room.at);
        let kind = if in_wall {
            ProblemKind::AnchorInWall { room: room.id.clone() }
        } else {
            ProblemKind::RoomNotClosed { room: room.id.clone() }
        };
        problems.push(Problem::at(kind, room.at));
        named.complete = false;
    }
    named
}

fn on_boundary(elements: &Elements, at: Point) -> bool {
    elements.open_boundaries.iter().any(|boundary| on_segment(at, boundary.from, boundary.to))
}

fn inside_or_on(outline: &[Point], point: Point) -> bool {
    crate::region::sides_of(outline).all(|(a, b)| crate::region::cross(a, b, point) >= 0)
}

/// The point half way between two, rounded down to the grid.
#[must_use]
pub fn middle(a: Point, b: Point) -> Point {
    let half = |a: Length, b: Length| Length::from_steps((a.steps() + b.steps()).div_euclid(2));
    Point::new(half(a.x, b.x), half(a.y, b.y))
}

/// A point inside a region: the middle of its longest horizontal or vertical chord through the middle of a side.
pub(crate) fn some_point(region: &Region) -> Point {
    let [low, _, high, _] = {
        let bounds = |f: fn(&Point) -> Length| {
            let values = region.outer.iter().map(f);
            (values.clone().min().unwrap_or_default(), values.max().unwrap_or_default())
        };
        let ((x0, x1), (y0, y1)) = (bounds(|p| p.x), bounds(|p| p.y));
        rectangle(Point::new(x0, y0), Point::new(x1, y1))
    };
    let centre = middle(low, high);
    if region.contains_inside(centre) {
        return centre;
    }
    crate::region::sides_of(&region.outer)
        .map(|(a, b)| crate::kernel::offset(middle(a, b), a, b, Length::INCH))
        .find(|point| region.contains_inside(*point))
        .unwrap_or(centre)
}
