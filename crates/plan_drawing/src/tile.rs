use plan_geometry::{Derived, Region};
use plan_model::elements::RoomUse;

use crate::shapes::{around, lines, place};
use crate::{Drawing, Ink, Pen};

/// From joint to joint, in inches.
const TILE: f64 = 12.0;

/// Draws the joints of floor tile in rooms with plumbing for people: just visible, so that baths read at a glance.
pub(crate) fn draw(drawing: &mut Drawing, derived: &Derived) {
    let tiled = derived.rooms.iter().filter(|room| matches!(room.usage, RoomUse::Bath | RoomUse::Toilet));
    for room in tiled {
        let across = joints(&room.region, |point| (point.y, point.x)).map(|(y, from, to)| ((from, y), (to, y)));
        let up = joints(&room.region, |point| (point.x, point.y)).map(|(x, from, to)| ((x, from), (x, to)));
        drawing.stroke(lines(across.chain(up)), Pen::LIGHT, Ink::Tile);
    }
}

/// Joints of one direction as a level and the two ends of each stretch on it inside the region; `axes` turns a point
/// into its level and its place along the joint.
fn joints(region: &Region, axes: impl Fn(kurbo::Point) -> (f64, f64)) -> impl Iterator<Item = (f64, f64, f64)> {
    let sides: Vec<_> = region.sides().map(|(a, b)| (axes(place(a)), axes(place(b)))).collect();
    let bounds = around(sides.iter().map(|(a, _)| kurbo::Point::from(*a))).unwrap_or_default();
    let mut found = Vec::new();
    let mut level = bounds.x0 + TILE;
    while level < bounds.x1 {
        let crossed = sides.iter().filter(|(a, b)| (a.0 > level) != (b.0 > level));
        let mut stops: Vec<f64> = crossed.map(|(a, b)| a.1 + (b.1 - a.1) * (level - a.0) / (b.0 - a.0)).collect();
        stops.sort_by(f64::total_cmp);
        found.extend(stops.chunks_exact(2).map(|pair| (level, pair[0], pair[1])));
        level += TILE;
    }
    found.into_iter()
}

#[cfg(test)]
mod tests {
    use plan_model::Point;

    use super::*;

    #[test]
    fn joints_stay_inside_an_l_shaped_room() {
        let corners = [(0, 0), (60, 0), (60, 30), (30, 30), (30, 60), (0, 60)];
        let region = Region { outer: corners.map(|(x, y)| Point::inches(x, y)).to_vec(), holes: vec![] };
        let across: Vec<_> = joints(&region, |point| (point.y, point.x)).collect();
        assert_eq!(across, [(12.0, 0.0, 60.0), (24.0, 0.0, 60.0), (36.0, 0.0, 30.0), (48.0, 0.0, 30.0)]);
    }
}
