//! Heated area: heated rooms and the walls around them.

use plan_model::elements::Column;
use plan_model::{Length, Point};

use crate::kernel::{along, offset, project, rectangle, union};
use crate::rooms::NamedFloor;
use crate::walls::WallSolid;
use crate::{Area, OFF_AXIS_SLACK, Region};

/// Area of the heated floors with every part of a wall whose nearest floor, across the wall, is heated on either side;
/// to the exterior finished face. Porches and what else is not enclosed are out.
///
/// Where every floor is heated this is the area inside the outer boundary.
pub(crate) fn area(
    footprint: &[Region],
    floors: &[NamedFloor],
    heated: &[bool],
    walls: &[WallSolid],
    columns: &[Column],
) -> Area {
    if heated.iter().all(|heated| *heated) {
        return footprint.iter().map(Region::area).sum();
    }
    let warm: Vec<&Region> =
        floors.iter().zip(heated).filter(|(_, heated)| **heated).map(|(floor, _)| &*floor.region).collect();
    let strips: Vec<_> = walls.iter().flat_map(|wall| warm_strips(wall, floors, heated)).collect();
    let posts = columns.iter().map(|column| rectangle(column.from, column.to));
    let stands_in_warm = |post: &[Point; 4]| post.iter().any(|corner| warm.iter().any(|floor| floor.contains(*corner)));
    let posts: Vec<[Point; 4]> = posts.filter(stands_in_warm).collect();
    // Rooms with their holes: what stands in a hole is a wall, a room of its own, or a column.
    let rooms = warm.iter().flat_map(|floor| floor.boundaries()).map(Vec::as_slice);
    let solids = strips.iter().chain(&posts).map(<[_; 4]>::as_slice);
    union(rooms.chain(solids)).iter().map(Region::area).sum()
}

/// The parts of a wall that have a heated floor on either side, as rectangles between its ends.
fn warm_strips(wall: &WallSolid, floors: &[NamedFloor], heated: &[bool]) -> Vec<[Point; 4]> {
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
        let along_floor = |(floor, heated): (&NamedFloor, &bool)| {
            let sides = floor.region.sides().filter_map(on_face);
            sides.map(|(low, high)| (low, high, *heated)).collect::<Vec<_>>()
        };
        floors.iter().zip(heated).flat_map(along_floor).collect()
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

/// Heated area, and the arithmetic that sums up to it.
pub(crate) fn measures(_derived: &crate::Derived) -> Vec<crate::Measure> {
    Vec::new()
}
