use kurbo::{Point, Rect};
use plan_geometry::Derived;
use plan_model::elements::{Fixture, FixtureKind, Furniture, FurnitureKind};
use plan_model::{Facing, Home, Length};

use crate::frame::Frame;
use crate::placement::Obstacle;
use crate::shapes::between;
use crate::{furniture, openings, overhead};

/// What keeps lettering away.
pub(crate) struct Obstacles {
    /// What lettering never covers: fixtures on the floor, columns, doors with all that their leaves pass over, alarms
    /// and fans.
    pub(crate) fixed: Vec<Obstacle>,
    /// Furniture, as it stands.
    pub(crate) furniture: Vec<Obstacle>,
    /// Furniture where lettering may lie on a bed's cover or on a rug, but not across their edges.
    pub(super) furniture_edges: Vec<Obstacle>,
    /// Shelves, rods and wall cabinets: a name may lie over them where there is no other floor.
    pub(crate) storage: Vec<Obstacle>,
}

impl Obstacles {
    pub(crate) fn of(home: &Home<'_>, derived: &Derived) -> Self {
        let elements = &home.elements;
        let is_storage = |fixture: &&Fixture| {
            matches!(fixture.kind, FixtureKind::Shelves | FixtureKind::RodAndShelf | FixtureKind::WallCabinet)
        };
        let (storing, standing): (Vec<_>, Vec<_>) = elements.fixtures.iter().partition(is_storage);
        let body = |fixture: &&Fixture| footprint(fixture.at, fixture.faces, fixture.width, fixture.depth);
        let columns = elements.columns.iter().map(|column| rect_corners(between(column.from, column.to)));
        let symbols = overhead::symbol_places(home).into_iter().map(rect_corners);
        let swept = openings::swept_floor(home, derived);
        let shapes = |all: &mut dyn Iterator<Item = Vec<Point>>| all.filter_map(Obstacle::new).collect();
        Self {
            fixed: shapes(&mut standing.iter().map(body).chain(columns).chain(symbols).chain(swept)),
            furniture: shapes(&mut elements.furniture.iter().flat_map(solid_furniture)),
            furniture_edges: shapes(&mut elements.furniture.iter().flat_map(furniture_edges)),
            storage: shapes(&mut storing.iter().map(body)),
        }
    }
}

fn rect_corners(rect: Rect) -> Vec<Point> {
    [(rect.x0, rect.y0), (rect.x1, rect.y0), (rect.x1, rect.y1), (rect.x0, rect.y1)].map(Point::from).to_vec()
}

fn footprint(at: plan_model::Point, faces: Facing, width: Length, depth: Length) -> Vec<Point> {
    let (right, depth) = (width.to_inches() / 2.0, depth.to_inches());
    let frame = Frame::standing(at, faces);
    [(-right, 0.0), (right, 0.0), (right, depth), (-right, depth)].map(|corner| frame.place(corner)).to_vec()
}

/// Furniture as solid shapes; of a rug only its edges.
fn solid_furniture(piece: &Furniture) -> Vec<Vec<Point>> {
    let body = footprint(piece.at, piece.faces, piece.width, piece.depth);
    match piece.kind {
        FurnitureKind::Rug => edges(&body),
        _ => vec![body],
    }
}

/// Furniture as solid shapes; of a bed its head and edges, of a rug its edges.
fn furniture_edges(piece: &Furniture) -> Vec<Vec<Point>> {
    match piece.kind {
        FurnitureKind::Bed => {
            let head = Length::nearest_to_inches(furniture::bed_head(piece.depth.to_inches()) + 3.0);
            let mut shapes = edges(&footprint(piece.at, piece.faces, piece.width, piece.depth));
            shapes.push(footprint(piece.at, piece.faces, piece.width, head));
            shapes
        }
        _ => solid_furniture(piece),
    }
}

fn edges(body: &[Point]) -> Vec<Vec<Point>> {
    body.iter().zip(body.iter().cycle().skip(1)).map(|(a, b)| vec![*a, *b]).collect()
}
