//! Boolean operations on whole-number coordinates. Sides that are square to the axes meet exactly; a crossing of slanted
//! sides is rounded to the grid.

use std::cell::RefCell;

use i_overlay::core::fill_rule::FillRule;
use i_overlay::core::overlay::{Overlay, ShapeType};
use i_overlay::core::overlay_rule::OverlayRule;
use i_overlay::i_float::int::point::IntPoint;
use i_overlay::i_shape::int::shape::{IntContour, IntShape, IntShapes};
use i_overlay::string::slice::IntSlice;
use i_triangle::int::triangulation::IntTriangulation;
use i_triangle::int::unchecked::IntUncheckedTriangulatable;
use plan_model::{Length, Point};

use crate::Region;
use crate::region::drop_straight_corners;

thread_local! {
    /// What an overlay works in; making it anew each time costs a fifth of a small union.
    static OVERLAY: RefCell<Overlay> = RefCell::new(Overlay::new(256));
}

/// Lays closed boundaries over each other.
fn overlaid<'a, 'b>(
    subjects: impl IntoIterator<Item = &'a [Point]>,
    clips: impl IntoIterator<Item = &'b [Point]>,
    rule: OverlayRule,
) -> Vec<Region> {
    OVERLAY.with_borrow_mut(|overlay| {
        overlay.clear();
        for boundary in subjects {
            overlay.add_path_iter(boundary.iter().map(|point| to_int(*point)), ShapeType::Subject);
        }
        for boundary in clips {
            overlay.add_path_iter(boundary.iter().map(|point| to_int(*point)), ShapeType::Clip);
        }
        regions(overlay.overlay(rule, FillRule::NonZero))
    })
}

/// Everything that any of the closed boundaries encloses.
pub(crate) fn union<'a>(boundaries: impl IntoIterator<Item = &'a [Point]>) -> Vec<Region> {
    overlaid(boundaries, [], OverlayRule::Subject)
}

/// Triangles that fill a shape.
pub(crate) struct Triangles {
    pub(crate) corners: Vec<Point>,
    /// Three corners of each.
    pub(crate) triangles: Vec<[u32; 3]>,
    /// Twice the area of the shape, as its boundaries have it.
    pub(crate) twice_area: i128,
}

/// Triangles that fill everything the closed boundaries enclose.
pub(crate) fn triangulated<'a>(boundaries: impl IntoIterator<Item = &'a [Point]>) -> Triangles {
    let mut overlay = Overlay::new(128);
    for boundary in boundaries {
        overlay.add_path_iter(boundary.iter().map(|point| to_int(*point)), ShapeType::Subject);
    }
    let shapes = overlay.overlay(OverlayRule::Subject, FillRule::NonZero);
    let filled: IntTriangulation<u32> = shapes.uncheck_triangulate().into_triangulation();
    let twice = |contour: &IntContour| {
        let ends = contour.iter().zip(contour.iter().cycle().skip(1));
        ends.map(|(a, b)| i128::from(i64::from(a.x) * i64::from(b.y) - i64::from(b.x) * i64::from(a.y))).sum::<i128>()
    };
    Triangles {
        corners: filled.points.into_iter().map(to_point).collect(),
        triangles: filled.indices.chunks_exact(3).filter_map(|corners| corners.try_into().ok()).collect(),
        twice_area: shapes.iter().flatten().map(twice).sum(),
    }
}

/// The parts of `region` that none of the closed boundaries covers.
pub(crate) fn difference<'a>(region: &Region, boundaries: impl IntoIterator<Item = &'a [Point]>) -> Vec<Region> {
    overlaid(region.boundaries().map(Vec::as_slice), boundaries, OverlayRule::Difference)
}

/// The parts of `region` that a closed boundary covers.
pub(crate) fn overlap(region: &Region, boundary: &[Point]) -> Vec<Region> {
    let mut overlay = Overlay::new(32);
    for boundary in region.boundaries() {
        overlay.add_path_iter(boundary.iter().map(|point| to_int(*point)), ShapeType::Subject);
    }
    overlay.add_path_iter(boundary.iter().map(|point| to_int(*point)), ShapeType::Clip);
    regions(overlay.overlay(OverlayRule::Intersect, FillRule::NonZero))
}

/// The parts of regions inside a closed boundary, and those outside it.
pub(crate) fn divide(divided: &[Region], boundary: &[Point]) -> [Vec<Region>; 2] {
    [OverlayRule::Intersect, OverlayRule::Difference].map(|rule| {
        let mut overlay = Overlay::new(64);
        for side in divided.iter().flat_map(Region::boundaries) {
            overlay.add_path_iter(side.iter().map(|point| to_int(*point)), ShapeType::Subject);
        }
        overlay.add_path_iter(boundary.iter().map(|point| to_int(*point)), ShapeType::Clip);
        regions(overlay.overlay(rule, FillRule::NonZero))
    })
}

/// The ground that two convex shapes share; empty where they share none.
pub(crate) fn intersection(one: &[Point], other: &[Point]) -> Vec<Point> {
    let shared = overlaid([one], [other], OverlayRule::Intersect);
    shared.into_iter().next().map(|region| region.outer).unwrap_or_default()
}

/// The pieces into which lines cut a region; a line that does not reach across cuts nothing.
pub(crate) fn slice(region: &Region, lines: &[[Point; 2]]) -> Vec<Region> {
    let shape: IntShape = region.boundaries().map(|b| to_contour(b)).collect();
    let lines: Vec<_> = lines.iter().map(|[a, b]| [to_int(*a), to_int(*b)]).collect();
    // Where a line ends on a side from outside, the side keeps a corner that is none.
    let mut parts = regions(shape.slice_by_lines(&lines, FillRule::NonZero));
    for boundary in parts.iter_mut().flat_map(|part| std::iter::once(&mut part.outer).chain(&mut part.holes)) {
        drop_straight_corners(boundary);
    }
    parts
}

fn to_contour(boundary: &[Point]) -> IntContour {
    boundary.iter().map(|point| to_int(*point)).collect()
}

#[expect(
    clippy::cast_possible_truncation,
    reason = "clamped; twice the model's largest length, as slanted shapes need it, is an eighth of what fits"
)]
fn to_int(point: Point) -> IntPoint {
    let fit = |length: Length| length.steps().clamp(i64::from(i32::MIN), i64::from(i32::MAX)) as i32;
    IntPoint::new(fit(point.x), fit(point.y))
}

fn to_point(point: IntPoint) -> Point {
    Point::new(Length::from_steps(point.x.into()), Length::from_steps(point.y.into()))
}

fn regions(shapes: IntShapes) -> Vec<Region> {
    shapes
        .into_iter()
        .filter_map(|shape| {
            let mut boundaries = shape.into_iter().map(|contour| contour.into_iter().map(to_point).collect());
            Some(Region { outer: boundaries.next()?, holes: boundaries.collect() })
        })
        .collect()
}
