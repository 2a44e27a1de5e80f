use kurbo::{Point, Rect};
use plan_geometry::Derived;

use super::Obstacles;
use super::tag::{Layout, Tag};
use super::words::Words;
use crate::placement::{Obstacle, boxes_around};
use crate::shapes::{circle, line, place};
use crate::{Drawing, Ink, Pen};

/// Names a room beside it, at the nearest free place, with a leader from a dot inside.
pub(super) fn draw(
    drawing: &mut Drawing,
    derived: &Derived,
    obstacles: &Obstacles,
    taken: &mut Vec<Rect>,
    words: &Words,
    anchor: Point,
    lettering: f64,
) {
    /// How far away a name is still looked for, in heights of lettering.
    const FARTHEST: f64 = 30.0;
    let walls = derived.walls.iter().filter_map(|wall| Obstacle::new(wall.outline.map(place).to_vec()));
    let walls: Vec<Obstacle> = walls.collect();
    let Obstacles { fixed, furniture, storage, .. } = obstacles;
    let standing = || fixed.iter().chain(furniture).chain(storage).chain(&walls);
    let tag = Tag::new(words, Layout::BESIDE, lettering);
    let is_free = |place: &Rect| {
        !taken.iter().any(|other| other.intersect(*place).area() > 0.0)
            && !standing().any(|obstacle| obstacle.meets(*place))
    };
    let mut places = boxes_around(anchor, tag.size, 0.6 * lettering, FARTHEST * lettering).map(|(_, place)| place);
    let Some(place) = places.find(is_free) else { return };
    let edge = Point::new(anchor.x.clamp(place.x0, place.x1), anchor.y.clamp(place.y0, place.y1));
    drawing.stroke(line(anchor, edge), Pen::FINE, Ink::Lettering);
    drawing.fill(circle(anchor, 0.22 * lettering), Ink::Lettering);
    taken.push(place);
    tag.draw(drawing, place.center());
}
