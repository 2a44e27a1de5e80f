//! Joints: how far the faces of a wall are drawn on at its ends.

use plan_model::{Length, Point};

use super::{WallFaces, touches};
use crate::kernel::{along, meet, project};
use crate::region::{cross, dot};

/// A wall as it leaves a joint: walked away from it.
#[derive(Clone, Copy)]
struct Arm {
    faces: WallFaces,
    /// Whether it runs on through the joint; then there is an arm the other way as well.
    passes: bool,
}

/// The sides of a wall that is walked towards a joint, each with the sense in which the next arm around the joint follows.
#[derive(Clone, Copy, PartialEq, Eq)]
enum Turn {
    /// From the left face on, clockwise.
    Clockwise,
    /// From the right face on, counter-clockwise.
    CounterClockwise,
}

/// How the forward end of a wall is drawn on.
#[derive(Debug, Default)]
pub(super) struct End {
    /// Its left and right corner.
    pub(super) corners: [Point; 2],
    /// Ground beside its outline, each part counter-clockwise.
    pub(super) fills: Vec<[Point; 4]>,
}

/// How the forward end of a wall, whose line was drawn up to `drawn_to`, meets other walls.
///
/// Each face is drawn on until it meets the next arm around the joint, and no other: drawn into an arm beyond that one, it
/// would come out of the first on its far side. Where only one face is drawn on, or the two by different walls, the ground
/// up to the end of the drawn line alone is filled: a straight end between the two corners could leave the joint.
pub(super) fn end(own: &WallFaces, drawn_to: Point, met: &[WallFaces]) -> End {
    let drawn = [own.left[1], own.right[1]];
    if met.is_empty() {
        return End { corners: drawn, fills: Vec::new() };
    }
    let arms: Vec<Arm> = met.iter().flat_map(|other| arms_of(own, other)).collect();
    let reached = [(own.left, Turn::Clockwise), (own.right, Turn::CounterClockwise)]
        .map(|(face, turn)| drawn_on(own, face, &arms, turn));
    let mut end = End { corners: drawn, fills: Vec::new() };
    match reached {
        [Some((left, one)), Some((right, other))] if !crosses(one, other) => end.corners = [left, right],
        [left, right] if arms.iter().all(|arm| is_alone(own, arm, &arms)) => {
            end.corners = [left.map_or(drawn[0], |(place, _)| place), right.map_or(drawn[1], |(place, _)| place)];
        }
        reached => {
            let back = along(drawn_to, drawn_to - out_of(own), OVERLAP);
            let [left, right] = reached.map(|reached| reached.map(|(place, _)| place));
            end.fills.extend(left.map(|place| [back, drawn_to, place, drawn[0]]));
            end.fills.extend(right.map(|place| [back, drawn[1], place, drawn_to]));
        }
    }
    for other in met.iter().filter(|other| parallel(own, other)) {
        if let Some(arm) = arms_of(own, other).next() {
            end.corners = into_collinear(own, &arm.faces, end.corners);
        }
    }
    end
}

/// What a fill shares with its own wall.
const OVERLAP: Length = Length::INCH;

/// Where a face meets the next arm around the joint beyond its end, and the direction of that arm.
fn drawn_on(own: &WallFaces, [a, b]: [Point; 2], arms: &[Arm], turn: Turn) -> Option<(Point, Point)> {
    let reached = next_arms(own, arms, turn).filter_map(|arm| {
        let furthest = 3 * own.thickness().max(arm.faces.thickness()).steps();
        // Where walls run nearly straight on, the middle of the other may be too far away though its face is not.
        [reach(own, arm, arms, turn), facing(arm, turn)].into_iter().find_map(|[c, d]| {
            let place = meet(a, b, c, d)?;
            let beyond = project(a, b, place).0 - project(a, b, b).0;
            (beyond > Length::ZERO && beyond.steps() <= furthest).then_some((beyond, place, out_of(&arm.faces)))
        })
    });
    reached.max_by_key(|(beyond, ..)| *beyond).map(|(_, place, out)| (place, out))
}

/// Whether two directions are neither the same nor opposite.
fn crosses(one: Point, other: Point) -> bool {
    !same_way(one, other) && !same_way(one, Point::default() - other)
}

/// The arms of a wall that meets the forward end of `own`: one if it ends there too, else one to each side.
fn arms_of(own: &WallFaces, other: &WallFaces) -> impl Iterator<Item = Arm> + use<> {
    let own_outline = own.outline();
    let starts = touches([other.left[0], other.right[0]], &own_outline);
    let ends = touches([other.left[1], other.right[1]], &own_outline);
    let passes = !starts && !ends;
    let onwards = (starts || passes).then_some(*other);
    let back = (!starts).then(|| other.reversed());
    onwards.into_iter().chain(back).map(move |faces| Arm { faces, passes })
}

/// The arms that come next around the joint: one, or several that run beside each other. Those that lie along `own` itself
/// are none.
fn next_arms<'a>(own: &WallFaces, arms: &'a [Arm], turn: Turn) -> impl Iterator<Item = &'a Arm> + use<'a> {
    let out = out_of(&own.reversed());
    let around = arms.iter().filter(move |arm| !same_way(out, out_of(&arm.faces)));
    let next = around.clone().map(|arm| out_of(&arm.faces)).min_by(|one, other| by_turn(out, *one, *other, turn));
    around.filter(move |arm| next.is_some_and(|next| same_way(next, out_of(&arm.faces))))
}

/// The face of an arm that looks at the face from which the turn began.
const fn facing(arm: &Arm, turn: Turn) -> [Point; 2] {
    match turn {
        Turn::Clockwise => arm.faces.left,
        Turn::CounterClockwise => arm.faces.right,
    }
}

/// The line of an arm up to which a face that meets it is drawn.
fn reach(own: &WallFaces, arm: &Arm, arms: &[Arm], turn: Turn) -> [Point; 2] {
    let far = match turn {
        Turn::Clockwise => arm.faces.right,
        Turn::CounterClockwise => arm.faces.left,
    };
    let out = out_of(&own.reversed());
    if arm.passes {
        arm.faces.centre_line()
    } else if half_turns(out, out_of(&arm.faces), turn) > 1 {
        facing(arm, turn)
    } else if is_alone(own, arm, arms) {
        far
    } else {
        arm.faces.centre_line()
    }
}

/// Whether `own` meets nothing here but this arm, and what runs along one of the two.
fn is_alone(own: &WallFaces, arm: &Arm, arms: &[Arm]) -> bool {
    let ways = [out_of(&own.reversed()), out_of(&arm.faces)];
    !arm.passes && arms.iter().all(|other| ways.iter().any(|way| same_way(*way, out_of(&other.faces))))
}

fn out_of(faces: &WallFaces) -> Point {
    faces.left[1] - faces.left[0]
}

/// Whether two directions are the same.
fn same_way(one: Point, other: Point) -> bool {
    let origin = Point::default();
    let ahead = dot(origin, one, other);
    ahead > 0 && is_straight(ahead, cross(origin, one, other))
}

/// 0 for directions less than half a turn from the first, 1 for just the opposite one, 2 for those beyond.
fn half_turns(from: Point, to: Point, turn: Turn) -> u8 {
    let across = match turn {
        Turn::CounterClockwise => cross(Point::default(), from, to),
        Turn::Clockwise => cross(Point::default(), to, from),
    };
    match across.signum() {
        1 => 0,
        0 => 1,
        _ => 2,
    }
}

/// Which of two directions comes first in a turn from `from`.
fn by_turn(from: Point, one: Point, other: Point, turn: Turn) -> std::cmp::Ordering {
    let halves = |to: Point| half_turns(from, to, turn);
    halves(one).cmp(&halves(other)).then_with(|| half_turns(one, other, turn).cmp(&half_turns(other, one, turn)))
}

fn parallel(own: &WallFaces, other: &WallFaces) -> bool {
    let (origin, u, v) = (Point::default(), out_of(own), out_of(other));
    is_straight(dot(origin, u, v), cross(origin, u, v))
}

/// Whether two directions lie in one line, by how far the one goes ahead and aside of the other. Off the axes, those that were
/// drawn so differ by a step over their length.
const fn is_straight(ahead: i128, aside: i128) -> bool {
    aside == 0 || aside.abs() * 1_000_000 <= ahead.abs()
}

/// Draws a wall that runs on in another into it, so that the two share ground; only as far as it is not the thicker.
fn into_collinear(own: &WallFaces, other: &WallFaces, corners: [Point; 2]) -> [Point; 2] {
    let [from, to] = own.centre_line();
    let across = |point: Point| project(from, to, point).1;
    let (low, high) = (across(own.right[1]), across(own.left[1]));
    let sides = [across(other.left[0]), across(other.right[0])];
    let slack = crate::OFF_AXIS_SLACK;
    let within = low >= sides[0].min(sides[1]) - slack && high <= sides[0].max(sides[1]) + slack;
    let reach = project(from, to, to).0;
    let ends = [0, 1].map(|end| project(from, to, other.left[end]).0);
    let runs_on = ends[0].max(ends[1]) > reach;
    if !within || !runs_on {
        return corners;
    }
    let depth = own.thickness().min(ends[0].max(ends[1]) - reach);
    let ahead = |a: Point, b: Point, corner: Point| project(a, b, corner).0;
    [(own.left, corners[0]), (own.right, corners[1])].map(|([a, b], corner)| {
        let drawn = along(a, b, ahead(a, b, b) + depth);
        if ahead(a, b, corner) >= ahead(a, b, drawn) { corner } else { drawn }
    })
}
