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

use super::square_overlay::{self, Sides, Wanted};
use crate::Region;
use crate::region::drop_straight_corners;

thread_local! {
    /// What an overlay works in; making it anew each time costs a fifth of a small union.
    static OVERLAY: RefCell<Overlay> = RefCell::new(Overlay::new(256));
}

/// Lays closed boundaries with sides in any direction over each other.
fn overlaid<'a, 'b>(
    subjects: impl IntoIterator<Item = &'a [Point]>,
    clips: impl IntoIterator<Item = &'b [Point]>,
    rule: OverlayRule,
) -> IntShapes {
    OVERLAY.with_borrow_mut(|overlay| {
        overlay.clear();
        for boundary in subjects {
            overlay.add_path_iter(boundary.iter().map(|point| to_int(*point)), ShapeType::Subject);
        }
        for boundary in clips {
            overlay.add_path_iter(boundary.iter().map(|point| to_int(*point)), ShapeType::Clip);
        }
        overlay.overlay(rule, FillRule::NonZero)
    })
}

/// Lays closed boundaries over each other.
fn overlay<'a, 'b>(
    subjects: impl IntoIterator<Item = &'a [Point]> + Clone,
    clips: impl IntoIterator<Item = &'b [Point]> + Clone,
    wanted: Wanted,
) -> Vec<Region> {
    if let Some(sides) = Sides::with_clips(subjects.clone(), clips.clone()) {
        return square_overlay::overlay(sides, wanted);
    }
    let rule = match wanted {
        Wanted::Subjects => OverlayRule::Subject,
        Wanted::SubjectsLessClips => OverlayRule::Difference,
        Wanted::SubjectsInClips => OverlayRule::Intersect,
    };
    regions(overlaid(subjects, clips, rule))
}

/// Everything that any of the closed boundaries encloses.
pub(crate) fn union<'a>(boundaries: impl IntoIterator<Item = &'a [Point]> + Clone) -> Vec<Region> {
    overlay(boundaries, [], Wanted::Subjects)
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
pub(crate) fn triangulated<'a>(boundaries: impl IntoIterator<Item = &'a [Point]> + Clone) -> Triangles {
    let shapes: IntShapes = match Sides::of(boundaries.clone()) {
        Some(sides) => square_overlay::overlay(sides, Wanted::Subjects).iter().map(to_shape).collect(),
        None => overlaid(boundaries, [], OverlayRule::Subject),
    };
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
pub(crate) fn difference<'a>(
    region: &Region,
    boundaries: impl IntoIterator<Item = &'a [Point]> + Clone,
) -> Vec<Region> {
    overlay(region.boundaries().map(Vec::as_slice), boundaries, Wanted::SubjectsLessClips)
}

/// The parts of `region` that a closed boundary covers.
pub(crate) fn overlap(region: &Region, boundary: &[Point]) -> Vec<Region> {
    overlay(region.boundaries().map(Vec::as_slice), [boundary], Wanted::SubjectsInClips)
}

/// The parts of regions inside a closed boundary, and those outside it.
pub(crate) fn divide(divided: &[Region], boundary: &[Point]) -> [Vec<Region>; 2] {
    let boundaries = divided.iter().flat_map(Region::boundaries).map(Vec::as_slice);
    [Wanted::SubjectsInClips, Wanted::SubjectsLessClips].map(|wanted| overlay(boundaries.clone(), [boundary], wanted))
}

/// The ground that two convex shapes share; empty where they share none.
pub(crate) fn intersection(one: &[Point], other: &[Point]) -> Vec<Point> {
    let shared = overlay([one], [other], Wanted::SubjectsInClips);
    shared.into_iter().next().map(|region| region.outer).unwrap_or_default()
}

/// The pieces into which lines cut a region; a line that does not reach across cuts nothing.
pub(crate) fn slice(region: &Region, lines: &[[Point; 2]]) -> Vec<Region> {
    let shape = to_shape(region);
    let lines: Vec<_> = lines.iter().map(|[a, b]| [to_int(*a), to_int(*b)]).collect();
    // Where a line ends on a side from outside, the side keeps a corner that is none.
    let mut parts = regions(shape.slice_by_lines(&lines, FillRule::NonZero));
    for boundary in parts.iter_mut().flat_map(|part| std::iter::once(&mut part.outer).chain(&mut part.holes)) {
        drop_straight_corners(boundary);
    }
    parts
}

fn to_shape(region: &Region) -> IntShape {
    region.boundaries().map(|boundary| boundary.iter().map(|point| to_int(*point)).collect()).collect()
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

#[cfg(test)]
mod tests {
    use plan_testkit::Random;

    use super::super::rectangle;
    use super::*;

    /// The regions as the overlay of square shapes gives them: each outer boundary begins with the lowest of its leftmost sides.
    fn in_normal_form(mut regions: Vec<Region>) -> Vec<Region> {
        for region in &mut regions {
            let corners = region.outer.iter().enumerate();
            let lowest = corners.min_by_key(|(_, corner)| (corner.x, corner.y)).map_or(0, |(index, _)| index);
            region.outer.rotate_left(lowest);
            region.outer.rotate_right(1);
        }
        regions
    }

    fn boundaries(shapes: &[Vec<Point>]) -> Vec<&[Point]> {
        shapes.iter().map(Vec::as_slice).collect()
    }

    /// The overlay of square shapes is that of shapes at any angle, boundary by boundary.
    fn compare(subjects: &[Vec<Point>], clips: &[Vec<Point>]) {
        let [subjects, clips] = [subjects, clips].map(boundaries);
        for (wanted, rule) in [
            (Wanted::Subjects, OverlayRule::Subject),
            (Wanted::SubjectsLessClips, OverlayRule::Difference),
            (Wanted::SubjectsInClips, OverlayRule::Intersect),
        ] {
            let sides = Sides::with_clips(subjects.iter().copied(), clips.iter().copied());
            let sides = sides.expect("all sides are square to the axes");
            let expected = overlaid(subjects.iter().copied(), clips.iter().copied(), rule);
            assert_eq!(
                square_overlay::overlay(sides, wanted),
                in_normal_form(regions(expected)),
                "{wanted:?} of {subjects:?} and {clips:?}"
            );
        }
    }

    fn rectangles(random: &mut Random) -> Vec<Vec<Point>> {
        let count = random.whole(1, 30);
        let places = random.one_of(&[3, 6, 12, 40]);
        let longest = random.one_of(&[1, 2, 5, 30]);
        let point = |random: &mut Random, to: i64| Point::inches(random.whole(0, to), random.whole(0, to));
        let one = |random: &mut Random| {
            let from = point(random, places);
            let mut corners = rectangle(from, from + point(random, longest)).to_vec();
            corners.rotate_left(usize::try_from(random.whole(0, 3)).unwrap_or(0));
            corners
        };
        (0..count).map(|_| one(random)).collect()
    }

    /// So few places that most rectangles touch along sides or at corners, lie in each other, are equal or have no width.
    #[test]
    fn rectangles_lie_over_each_other_as_shapes_at_any_angle_do() {
        for index in 0..20_000 {
            let mut random = Random::for_plan(11, index);
            compare(&rectangles(&mut random), &rectangles(&mut random));
        }
    }

    #[test]
    fn square_shapes_with_holes_lie_over_each_other_as_shapes_at_any_angle_do() {
        for index in 0..20_000 {
            let mut random = Random::for_plan(12, index);
            let [one, two, other] = [(); 3].map(|()| rectangles(&mut random));
            let shapes = union(boundaries(&one)).into_iter().flat_map(Region::into_boundaries);
            let subjects: Vec<_> = shapes.chain(two).collect();
            compare(&subjects, &other);
        }
    }
}
