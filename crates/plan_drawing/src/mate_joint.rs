//! The joint between the modules, as a light line through the walls that stand along the mate line.

use kurbo::{Point, Vec2};
use plan_geometry::Derived;
use plan_model::Home;
use plan_model::elements::WallKind;

use crate::shapes::{between, lines, place};
use crate::{Drawing, Ink, Pen};

/// Visible at every scale: a pen, not a gap.
const JOINT: Pen = Pen::solid(0.3);
/// Walls whose nearer face stands farther from the mate line do not make the joint, in inches.
const NEAR: f64 = 2.0;

/// Stretches along the mate line, in inches from its start.
type Stretches = Vec<[f64; 2]>;

/// Draws the joint where both modules have a wall or a post, up to the jambs of openings.
pub(crate) fn draw(drawing: &mut Drawing, home: &Home<'_>, derived: &Derived) {
    let Some(mate) = home.plan.mate_line.filter(|mate| mate.from != mate.to) else { return };
    let (origin, along) = (place(mate.from), (place(mate.to) - place(mate.from)).normalize());
    let solids = solids(home, derived);
    let both = common(&beside(&solids, origin, along, 1.0), &beside(&solids, origin, along, -1.0));
    let openings = derived.doors.iter().map(|door| reach(&door.outline.map(place), origin, along));
    let cut = openings.filter(|(_, across)| across[0] < 0.0 && across[1] > 0.0).map(|(along, _)| along);
    let joint = without(both, cut);
    let at = |distance: f64| origin + along * distance;
    drawing.stroke(lines(joint.into_iter().map(|[from, to]| (at(from), at(to)))), JOINT, Ink::Paper);
}

/// Mate walls and columns as their corners.
fn solids(home: &Home<'_>, derived: &Derived) -> Vec<Vec<Point>> {
    let is_mate = |index: usize| home.elements.walls.get(index).is_some_and(|wall| wall.kind == WallKind::Mate);
    let walls =
        derived.walls.iter().filter(|solid| is_mate(solid.index)).map(|solid| solid.outline.map(place).to_vec());
    let columns = home.elements.columns.iter().map(|column| {
        let body = between(column.from, column.to);
        [(body.x0, body.y0), (body.x1, body.y0), (body.x1, body.y1), (body.x0, body.y1)].map(Point::from).to_vec()
    });
    walls.chain(columns).collect()
}

/// From where to where a shape reaches along the mate line, and across it to its left.
fn reach(corners: &[Point], origin: Point, along: Vec2) -> ([f64; 2], [f64; 2]) {
    let range = |direction: Vec2| {
        let at = corners.iter().map(|corner| (*corner - origin).dot(direction));
        at.fold([f64::INFINITY, f64::NEG_INFINITY], |[low, high], at| [low.min(at), high.max(at)])
    };
    (range(along), range(Vec2::new(-along.y, along.x)))
}

/// Where solids stand against the mate line on one side (1 to its left), touching ones joined.
fn beside(solids: &[Vec<Point>], origin: Point, along: Vec2, side: f64) -> Stretches {
    let mut found = Stretches::new();
    for (stretch, across) in solids.iter().map(|solid| reach(solid, origin, along)) {
        let [low, high] = if side > 0.0 { across } else { [-across[1], -across[0]] };
        if low.abs() < NEAR && high > NEAR {
            found.push(stretch);
        }
    }
    found.sort_by(|a, b| a[0].total_cmp(&b[0]));
    let mut joined = Stretches::new();
    for [from, to] in found {
        match joined.last_mut() {
            Some(last) if from <= last[1] => last[1] = last[1].max(to),
            _ => joined.push([from, to]),
        }
    }
    joined
}

fn common(one: &Stretches, other: &Stretches) -> Stretches {
    let pairs = one.iter().flat_map(|a| other.iter().map(move |b| [a[0].max(b[0]), a[1].min(b[1])]));
    pairs.filter(|[from, to]| from < to).collect()
}

fn without(stretches: Stretches, cut: impl Iterator<Item = [f64; 2]>) -> Stretches {
    cut.fold(stretches, |left, [from, to]| {
        let parts = left.into_iter().flat_map(|[a, b]| [[a, b.min(from)], [a.max(to), b]]);
        parts.filter(|[a, b]| a < b).collect()
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn openings_part_the_joint() {
        let joint = without(vec![[0.0, 100.0], [200.0, 300.0]], [[40.0, 60.0], [290.0, 320.0]].into_iter());
        assert_eq!(joint, [[0.0, 40.0], [60.0, 100.0], [200.0, 290.0]]);
    }

    #[test]
    fn the_joint_needs_a_wall_on_both_sides() {
        let wall =
            |x0: f64, x1: f64, y0: f64, y1: f64| [(x0, y0), (x1, y0), (x1, y1), (x0, y1)].map(Point::from).to_vec();
        let solids = [wall(0.0, 100.0, 0.0, 4.0), wall(20.0, 60.0, -4.0, 0.0), wall(60.0, 80.0, -4.0, 0.0)];
        let side = |side: f64| beside(&solids, Point::ORIGIN, Vec2::new(1.0, 0.0), side);
        assert_eq!(common(&side(1.0), &side(-1.0)), [[20.0, 80.0]]);
    }
}
