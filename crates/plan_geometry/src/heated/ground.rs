//! Which ground is heated.

use plan_model::elements::Column;
use plan_model::{Length, Point};

use crate::kernel::{Bounds, along, offset, project, rectangle, union};
use crate::rooms::NamedFloor;
use crate::walls::WallSolid;
use crate::{OFF_AXIS_SLACK, Region};

/// The heated floors with every part of a wall whose nearest floor, across the wall, is heated on either side; to the
/// exterior finished face. Porches and what else is not enclosed are out.
///
/// Where every floor is heated this is what lies inside the outer boundary.
pub(crate) fn ground(
    footprint: &[Region],
    floors: &[NamedFloor],
    heated: &[bool],
    walls: &[WallSolid],
    columns: &[Column],
) -> Vec<Region> {
    if heated.iter().all(|heated| *heated) {
        return footprint.to_vec();
    }
    let warm: Vec<&Region> =
        floors.iter().zip(heated).filter(|(_, heated)| **heated).map(|(floor, _)| &*floor.region).collect();
    let lying = floors.iter().zip(heated).map(|(floor, is_heated)| Lying::of(&floor.region, *is_heated));
    let lying: Vec<Lying<'_>> = lying.collect();
    let strips: Vec<_> = walls.iter().flat_map(|wall| warm_strips(wall, &lying)).collect();
    let posts = columns.iter().map(|column| rectangle(column.from, column.to));
    let stands_in_warm = |post: &[Point; 4]| post.iter().any(|corner| warm.iter().any(|floor| floor.contains(*corner)));
    let posts: Vec<[Point; 4]> = posts.filter(stands_in_warm).collect();
    // Rooms with their holes: what stands in a hole is a wall, a room of its own, or a column.
    let rooms = warm.iter().flat_map(|floor| floor.boundaries()).map(Vec::as_slice);
    let solids = strips.iter().chain(&posts).map(<[_; 4]>::as_slice);
    union(rooms.chain(solids))
}

/// A floor that may lie against a wall.
struct Lying<'a> {
    floor: &'a Region,
    is_heated: bool,
    bounds: Bounds,
}

impl<'a> Lying<'a> {
    fn of(floor: &'a Region, is_heated: bool) -> Self {
        Self { floor, is_heated, bounds: Bounds::around(&floor.outer) }
    }
}

/// The parts of a wall that have a heated floor on either side, as rectangles between its ends.
fn warm_strips(wall: &WallSolid, floors: &[Lying<'_>]) -> Vec<[Point; 4]> {
    let bounds = Bounds::around(&wall.outline);
    let near: Vec<&Lying<'_>> = floors.iter().filter(|floor| floor.bounds.touches(bounds)).collect();
    let [from, to] = wall.faces.right;
    let thickness = project(from, to, wall.faces.left[0]).1;
    let reach = wall.outline.iter().map(|corner| project(from, to, *corner).0);
    let (start, end) = (reach.clone().min().unwrap_or_default(), reach.max().unwrap_or_default());
    // For each face: the stretches along which a floor lies against it, and whether that is heated.
    let stretches = [Length::ZERO, thickness].map(|face| -> Vec<(Length, Length, bool)> {
        let on_face = |(a, b): (Point, Point)| {
            let ((a, a_aside), (b, b_aside)) = (project(from, to, a), project(from, to, b));
            let on = |aside: Length| (aside - face).abs() <= OFF_AXIS_SLACK;
            let (low, high) = (a.min(b).max(start), a.max(b).min(end));
            (on(a_aside) && on(b_aside) && low < high).then_some((low, high))
        };
        let along_floor = |lying: &&Lying<'_>| {
            let sides = lying.floor.sides().filter_map(on_face);
            sides.map(|(low, high)| (low, high, lying.is_heated)).collect::<Vec<_>>()
        };
        near.iter().flat_map(along_floor).collect()
    });
    let ends = stretches.iter().flatten().flat_map(|(low, high, _)| [*low, *high]);
    let mut cuts: Vec<Length> = ends.chain([start, end]).collect();
    cuts.sort_unstable();
    cuts.dedup();
    let piece_is_warm = |low: Length, high: Length| {
        stretches.iter().any(|face| {
            // At a joint no floor lies against the face: the nearest along it decides, a heated one before another.
            let away = |stretch: &(Length, Length, bool)| (stretch.0 - high).max(low - stretch.1);
            let nearest = face.iter().map(away).min();
            face.iter().any(|stretch| stretch.2 && Some(away(stretch)) == nearest)
        })
    };
    cuts.windows(2)
        .filter(|ends| piece_is_warm(ends[0], ends[1]))
        .map(|ends| {
            let at = |along_wall: Length, left: Length| offset(along(from, to, along_wall), from, to, left);
            [at(ends[0], Length::ZERO), at(ends[1], Length::ZERO), at(ends[1], thickness), at(ends[0], thickness)]
        })
        .collect()
}
