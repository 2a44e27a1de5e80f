//! Small paths that every part of the drawing is made of.

use kurbo::{Arc, BezPath, Circle, Ellipse, Point, Rect, RoundedRect, Shape, Vec2};
use plan_geometry::Region;

/// How far a drawn curve may be from the true one, in plan inches: a fifth of the finest pen's width.
const TOLERANCE: f64 = 0.06;

pub(crate) fn place(point: plan_model::Point) -> Point {
    Point::new(point.x.to_inches(), point.y.to_inches())
}

/// The rectangle between two opposite corners of the model.
pub(crate) fn between(from: plan_model::Point, to: plan_model::Point) -> Rect {
    Rect::from_points(place(from), place(to))
}

pub(crate) fn line(from: impl Into<Point>, to: impl Into<Point>) -> BezPath {
    lines([(from, to)])
}

/// Several lines as one path.
pub(crate) fn lines<P: Into<Point>, Q: Into<Point>>(all: impl IntoIterator<Item = (P, Q)>) -> BezPath {
    let mut path = BezPath::new();
    for (from, to) in all {
        path.move_to(from.into());
        path.line_to(to.into());
    }
    path
}

pub(crate) fn polygon(corners: impl IntoIterator<Item = Point>) -> BezPath {
    let mut path = BezPath::new();
    add_polygon(&mut path, corners);
    path
}

fn add_polygon(path: &mut BezPath, corners: impl IntoIterator<Item = Point>) {
    let mut corners = corners.into_iter();
    if let Some(first) = corners.next() {
        path.move_to(first);
        corners.for_each(|corner| path.line_to(corner));
        path.close_path();
    }
}

/// Outer boundary and holes as one path, for even-odd filling.
pub(crate) fn region(region: &Region) -> BezPath {
    let mut path = BezPath::new();
    for boundary in region.boundaries() {
        add_polygon(&mut path, boundary.iter().copied().map(place));
    }
    path
}

pub(crate) fn rect(x0: f64, y0: f64, x1: f64, y1: f64) -> BezPath {
    rectangle(Rect::new(x0, y0, x1, y1))
}

pub(crate) fn rectangle(rect: Rect) -> BezPath {
    rect.abs().to_path(TOLERANCE)
}

/// A rectangle with corners of one radius, or less where it is too small for that.
pub(crate) fn rounded(x0: f64, y0: f64, x1: f64, y1: f64, radius: f64) -> BezPath {
    let rect = Rect::new(x0, y0, x1, y1).abs();
    let radius = radius.min(rect.width().min(rect.height()) / 2.0);
    RoundedRect::from_rect(rect, radius).to_path(TOLERANCE)
}

pub(crate) fn circle(centre: impl Into<Point>, radius: f64) -> BezPath {
    Circle::new(centre, radius).to_path(TOLERANCE)
}

pub(crate) fn ellipse(centre: impl Into<Point>, across: f64, along: f64) -> BezPath {
    Ellipse::new(centre, (across, along), 0.0).to_path(TOLERANCE)
}

/// An arc around `centre` from one point the shorter way to the direction of another.
pub(crate) fn arc_between(centre: Point, from: Point, to: Point) -> BezPath {
    let (start, end) = (from - centre, to - centre);
    let sweep = start.cross(end).atan2(start.dot(end));
    let arc = Arc::new(centre, Vec2::splat(start.hypot()), start.atan2(), sweep, 0.0);
    arc.to_path(TOLERANCE)
}

/// Several paths as one.
pub(crate) fn together(paths: impl IntoIterator<Item = BezPath>) -> BezPath {
    let mut all = BezPath::new();
    paths.into_iter().for_each(|path| all.extend(path));
    all
}

/// The parts of a line that lie inside a region.
pub(crate) fn parts_inside(region: &Region, from: Point, to: Point) -> impl Iterator<Item = (Point, Point)> {
    let along = to - from;
    let side = |point: Point| along.cross(point - from);
    let crossed = region.sides().map(|(a, b)| (place(a), place(b)));
    let crossed = crossed.filter(|(a, b)| (side(*a) > 0.0) != (side(*b) > 0.0));
    let crossings = crossed.map(|(a, b)| {
        let at = a + (b - a) * (side(a) / (side(a) - side(b)));
        (at - from).dot(along) / along.hypot2()
    });
    let mut stops: Vec<f64> = crossings.collect();
    stops.sort_by(f64::total_cmp);
    // Along the whole line the region is entered and left in turn.
    let inside: Vec<(f64, f64)> =
        stops.chunks_exact(2).map(|pair| (pair[0].max(0.0), pair[1].min(1.0))).filter(|(a, b)| a < b).collect();
    inside.into_iter().map(move |(a, b)| (from + along * a, from + along * b))
}

/// The smallest rectangle around some rectangles.
pub(crate) fn joined(rects: impl IntoIterator<Item = Rect>) -> Option<Rect> {
    rects.into_iter().reduce(|all, rect| all.union(rect))
}

/// The smallest rectangle around some points.
pub(crate) fn around(points: impl IntoIterator<Item = Point>) -> Option<Rect> {
    joined(points.into_iter().map(|point| Rect::from_points(point, point)))
}

#[cfg(test)]
mod tests {
    use plan_model::Point as Place;

    use super::*;

    #[test]
    fn a_line_is_cut_at_the_edges_of_a_region() {
        let corners = [(0, 0), (60, 0), (60, 30), (30, 30), (30, 60), (0, 60)];
        let region = Region { outer: corners.map(|(x, y)| Place::inches(x, y)).to_vec(), holes: vec![] };
        let inside = |from: (f64, f64), to: (f64, f64)| -> Vec<_> {
            parts_inside(&region, from.into(), to.into()).map(|(a, b)| ((a.x, a.y), (b.x, b.y))).collect()
        };
        assert_eq!(inside((-10.0, 45.0), (50.0, 45.0)), [((0.0, 45.0), (30.0, 45.0))]);
        assert_eq!(inside((10.0, 10.0), (20.0, 10.0)), [((10.0, 10.0), (20.0, 10.0))]);
        assert_eq!(inside((40.0, 40.0), (50.0, 50.0)), []);
        assert_eq!(inside((55.0, 15.0), (15.0, 55.0)), [((55.0, 15.0), (40.0, 30.0)), ((30.0, 40.0), (15.0, 55.0))]);
    }
}
