//! Triangles of filled shapes, for drawing.

use geo::{Area as _, Contains, LineString, Polygon, TriangulateEarcut};

/// The triangles of a shape given by its rings, inside by the even-odd rule; rings that cross are drawn as well as may
/// be. For drawing only: no figure is taken from it.
#[must_use]
pub fn triangulate(rings: &[Vec<[f64; 2]>]) -> Vec<[[f64; 2]; 3]> {
    let rings: Vec<Polygon<f64>> = rings
        .iter()
        .filter(|ring| ring.len() > 2)
        .map(|ring| Polygon::new(LineString::from(ring.clone()), Vec::new()))
        .collect();
    let holds = |outer: &Polygon<f64>, inner: &Polygon<f64>| {
        inner.exterior().points().next().is_some_and(|point| outer.contains(&point))
            && outer.unsigned_area() > inner.unsigned_area()
    };
    let depth = |ring: &Polygon<f64>| rings.iter().filter(|outer| holds(outer, ring)).count();
    let depths: Vec<usize> = rings.iter().map(depth).collect();
    let mut triangles = Vec::new();
    for (outer, outer_depth) in rings.iter().zip(&depths).filter(|(_, depth)| **depth % 2 == 0) {
        let holes = rings
            .iter()
            .zip(&depths)
            .filter(|(ring, depth)| **depth == outer_depth + 1 && holds(outer, ring))
            .map(|(ring, _)| ring.exterior().clone());
        let shape = Polygon::new(outer.exterior().clone(), holes.collect());
        let corners = shape.earcut_triangles().into_iter();
        triangles.extend(corners.map(|triangle| triangle.to_array().map(|corner| [corner.x, corner.y])));
    }
    triangles
}
