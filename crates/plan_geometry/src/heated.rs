//! Heated area: heated rooms and the walls around them.

use plan_model::Length;

use crate::kernel::{along, offset, project, union};
use crate::rooms::NamedFloor;
use crate::walls::WallSolid;
use crate::{Area, OFF_AXIS_SLACK, Region};

/// Area of the heated floors with every part of a wall whose nearest floor, across the wall, is heated on either side;
/// to the exterior finished face. Porches and what else is not enclosed are out.
///
/// Where every floor is heated this is the area inside the outer boundary.
pub(crate) fn area(footprint: &[Region], floors: &[NamedFloor], heated: &[bool], walls: &[WallSolid]) -> Area {
    if heated.iter().all(|heated| *heated) {
        return footprint.iter().map(Region::area).sum();
    }
    let warm: Vec<&Region> =
        floors.iter().zip(heated).filter(|(_, heated)| **heated).map(|(floor, _)| &*floor.region).collect();
    let strips: Vec<_> = walls.iter().flat_map(|wall| warm_strips(wall, floors, heated)).collect();
    let boundaries = warm.iter().map(|floor| floor.outer.as_slice()).chain(strips.iter().map(<[_; 4]>::as_slice));
    let whole: Area = union(boundaries).iter().map(Region::area).sum();
    // What stands free in a heated room (columns, island walls) is heated with it; so holes are not taken out.
    whole
}

/// The parts of a wall that have a heated floor on either side, as rectangles between its ends.
fn warm_strips(wall: &WallSolid, floors: &[NamedFloor], heated: &[bool]) -> Vec<[plan_model::Point; 4]> {
    let [from, to] = wall.faces.right;
    let thickness = project(from, to, wall.faces.left[0]).1;
    let reach = wall.outline.iter().map(|corner| project(from, to, *corner).0);
    let (start, end) = (reach.clone().min().unwrap_or_default(), reach.max().unwrap_or_default());
    // For both faces: the stretches along which a floor lies against it.
    let mut stretches: Vec<(Length, Length, bool)> = Vec::new();
    for (floor, heated) in floors.iter().zip(heated) {
        for (a, b) in floor.region.sides() {
            let ((a, aside), (b, b_aside)) = (project(from, to, a), project(from, to, b));
            let on = |face: Length| (aside - face).abs() <= OFF_AXIS_SLACK && (b_aside - face).abs() <= OFF_AXIS_SLACK;
            if on(Length::ZERO) || on(thickness) {
                let (low, high) = (a.min(b).max(start), a.max(b).min(end));
                if low < high {
                    stretches.push((low, high, *heated));
                }
            }
        }
    }
    let mut cuts: Vec<Length> = stretches.iter().flat_map(|(low, high, _)| [*low, *high]).chain([start, end]).collect();
    cuts.sort_unstable();
    cuts.dedup();
    let piece_is_warm = |low: Length, high: Length| {
        let beside = |stretch: &&(Length, Length, bool)| stretch.0 <= low && stretch.1 >= high;
        if stretches.iter().any(|stretch| beside(&stretch)) {
            return stretches.iter().filter(beside).any(|(.., heated)| *heated);
        }
        // At a joint no floor lies across the wall: the nearest along it decides, a heated one before another.
        let away = |stretch: &(Length, Length, bool)| (stretch.0 - high).max(low - stretch.1);
        let nearest = stretches.iter().map(away).min();
        stretches.iter().any(|stretch| stretch.2 && Some(away(stretch)) == nearest)
    };
    cuts.windows(2)
        .filter(|ends| piece_is_warm(ends[0], ends[1]))
        .map(|ends| {
            let at = |along_wall: Length, left: Length| offset(along(from, to, along_wall), from, to, left);
            [at(ends[0], Length::ZERO), at(ends[1], Length::ZERO), at(ends[1], thickness), at(ends[0], thickness)]
        })
        .collect()
}
