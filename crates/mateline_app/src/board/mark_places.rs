//! Where the marks of the choices stand: near what they change, and clear of what is drawn there.

use kurbo::{Point, Rect, Vec2};
use plan_geometry::Region;
use plan_model::elements::FurnitureKind;
use plan_model::{Id, Length};

use super::highlight::{around, inches};
use crate::session::Shown;

/// The marks' places on one drawing, in plan inches: they follow from the drawing alone and do not move while one zooms.
#[derive(Debug, Default)]
pub(super) struct MarkPlaces {
    /// The middle of each choice's mark.
    pub(super) marks: Vec<(Id, Point)>,
    /// What else is drawn, for what needs more room than a mark.
    obstacles: Obstacles,
}

/// A mark with some paper around it.
const WITH_MARGIN: f64 = 1.2;

/// What marks keep clear of, what matters most first.
#[derive(Debug, Default)]
struct Obstacles {
    /// Lettering, measures of redlines, ground in conflict.
    read: Vec<Rect>,
    /// Fixtures and cabinets.
    fixtures: Vec<Rect>,
    /// Furniture and swings of doors.
    light: Vec<Rect>,
}

impl MarkPlaces {
    /// Places for marks of this side, in plan inches, beside lettering that takes these places.
    pub(super) fn new(shown: &Shown, lettering: &[Rect], side: f64) -> Self {
        let mut obstacles = Obstacles::new(shown, lettering);
        let mut marks = Vec::new();
        let mirror = shown.document.mirror();
        for choice in &shown.document.plan.choices {
            let Some(at) = choice.at.map(|at| mirror.map_or(at, |mirror| mirror.point(at))) else { continue };
            let floor = Floor::at(shown, at);
            let place = obstacles.free_place(inches(at), side, &floor);
            obstacles.read.push(square(place, side));
            marks.push((choice.id.clone(), place));
        }
        Self { marks, obstacles }
    }

    /// Whether nothing is drawn in a place.
    pub(super) fn is_free(&self, place: Rect) -> bool {
        self.obstacles.lists().iter().all(|list| is_clear(list, place))
    }
}

impl Obstacles {
    fn new(shown: &Shown, lettering: &[Rect]) -> Self {
        let home = shown.document.home();
        let elements = &home.elements;
        let measured = shown.corrections().filter_map(|verdict| verdict.place.dimension);
        let measured = measured.map(|[from, to]| Rect::from_points(inches(from), inches(to)));
        let in_conflict = shown.conflicts.iter().flat_map(|conflict| &conflict.outlines);
        let in_conflict = in_conflict.filter_map(|outline| around(outline.iter().map(|corner| inches(*corner))));
        let body =
            |at, faces, width, depth| around(plan_geometry::outline(at, faces, width, depth).map(inches).into_iter());
        let fixtures = elements.fixtures.iter();
        let furniture = elements.furniture.iter().filter(|piece| piece.kind != FurnitureKind::Rug);
        let swings = shown.derived.doors.iter().filter_map(|door| door.leaf.as_ref());
        let swings = swings.filter_map(|leaf| around([leaf.hinge, leaf.closed, leaf.open].map(inches).into_iter()));
        Self {
            read: lettering.iter().copied().chain(measured).chain(in_conflict).collect(),
            fixtures: fixtures.filter_map(|it| body(it.at, it.faces, it.width, it.depth)).collect(),
            light: furniture.filter_map(|it| body(it.at, it.faces, it.width, it.depth)).chain(swings).collect(),
        }
    }

    fn lists(&self) -> [&[Rect]; 3] {
        [&self.read, &self.fixtures, &self.light]
    }

    /// The nearest place that is clear of everything; where the floor has none, of less and less.
    fn free_place(&self, wanted: Point, side: f64, floor: &Floor<'_>) -> Point {
        let ways = (1..=3).rev().flat_map(|kinds| [(kinds, side * WITH_MARGIN), (kinds, side)]);
        ways.into_iter().find_map(|(kinds, side)| self.clear_of(kinds, wanted, side, floor)).unwrap_or(wanted)
    }

    fn clear_of(&self, kinds: usize, wanted: Point, side: f64, floor: &Floor<'_>) -> Option<Point> {
        /// Farther away a mark no longer stands at what it changes.
        const FARTHEST: u8 = 30;
        const STEP: f64 = 3.0;
        const WAYS: u8 = 24;
        let ring = |distance: u8| {
            let ways = (0..WAYS).map(|way| f64::from(way) * std::f64::consts::TAU / f64::from(WAYS));
            ways.map(move |way| wanted + Vec2::from_angle(way) * f64::from(distance) * STEP)
        };
        let is_free = |place: &Point| {
            let place = square(*place, side);
            self.lists()[..kinds].iter().all(|list| is_clear(list, place)) && floor.holds(place)
        };
        std::iter::once(wanted).chain((1..=FARTHEST).flat_map(ring)).find(is_free)
    }
}

/// Where a mark may stand: in the room in which its choice is placed, or outside the house.
enum Floor<'a> {
    Room(&'a Region),
    Outside(&'a [Region]),
}

impl<'a> Floor<'a> {
    fn at(shown: &'a Shown, at: plan_model::Point) -> Self {
        let room = shown.derived.rooms.iter().find(|room| room.region.contains_inside(at));
        room.map_or(Self::Outside(&shown.derived.footprint), |room| Self::Room(&room.region))
    }

    fn holds(&self, place: Rect) -> bool {
        let corners = [(place.x0, place.y0), (place.x1, place.y0), (place.x1, place.y1), (place.x0, place.y1)];
        let mut corners = corners.map(|(x, y)| on_grid(x, y)).into_iter();
        match self {
            Self::Room(region) => corners.all(|corner| region.contains(corner)),
            Self::Outside(house) => !corners.any(|corner| house.iter().any(|part| part.contains(corner))),
        }
    }
}

fn is_clear(obstacles: &[Rect], place: Rect) -> bool {
    let shares =
        |other: &Rect| other.x0 < place.x1 && place.x0 < other.x1 && other.y0 < place.y1 && place.y0 < other.y1;
    !obstacles.iter().any(shares)
}

fn square(middle: Point, side: f64) -> Rect {
    Rect::from_center_size(middle, (side, side))
}

fn on_grid(x: f64, y: f64) -> plan_model::Point {
    plan_model::Point::new(Length::nearest_to_inches(x), Length::nearest_to_inches(y))
}
