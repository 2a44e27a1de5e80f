//! Joints: how far the faces of a wall are drawn on at its ends.

use plan_model::{Length, Point};

use super::{WallFaces, touches};
use crate::kernel::{along, meet, offset, project};
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
/// would come out of the first on its far side. Where the two are drawn on by different walls, or only one of them is, the
/// ground up to the end of the drawn line alone is filled: a straight end between the two corners could leave the joint.
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
        [Some(left), Some(right)] if !crosses(out_of(&left.arm.faces), out_of(&right.arm.faces)) => {
            end.corners = [left.place, right.place];
        }
        [left, right] if arms.iter().all(|arm| is_alone(own, arm, &arms)) => {
            end.corners = [left.map_or(drawn[0], |left| left.place), right.map_or(drawn[1], |right| right.place)];
            if let Some((cut, standing_out)) =
                left.xor(right).and_then(|reached| cut_along(own, reached.line, left.is_some()))
            {
                end.corners[usize::from(left.is_some())] = cut;
                end.fills.push(standing_out);
            }
        }
        [left, right] => {
            let into = drawn_into(own, drawn_to, &arms, [left.is_some(), right.is_some()]);
            let tip = |reached: Reached<'_>| if reached.arm.passes { into } else { drawn_to };
            end.fills.extend(beside(own, [left, right], drawn_to, tip));
        }
    }
    for other in met.iter().filter(|other| parallel(own, other)) {
        if let Some(arm) = arms_of(own, other).next() {
            into_collinear(own, &arm.faces, &mut end);
        }
    }
    end
}

/// Of a wall whose one face is drawn on to a line, while the corner of the other stands out beyond it: where that other face
/// crosses the line, and the ground that stands out. An end drawn from the line to that corner would take in ground beside the
/// wall that is met.
fn cut_along(own: &WallFaces, [c, d]: [Point; 2], is_left_drawn_on: bool) -> Option<(Point, [Point; 4])> {
    let [left, right] = [own.left[1], own.right[1]];
    let leaving = meet(left, right, c, d)?;
    let across = project(left, right, leaving).0;
    let [a, b] = if is_left_drawn_on { own.right } else { own.left };
    let cut = meet(a, b, c, d)?;
    let ahead = project(a, b, cut).0;
    let stands_out = Length::ZERO < across && across < project(left, right, right).0;
    if !stands_out || ahead <= Length::ZERO || ahead >= project(a, b, b).0 {
        return None;
    }
    let back = along(leaving, leaving - out_of(own), OVERLAP);
    Some((cut, if is_left_drawn_on { [back, cut, right, leaving] } else { [back, leaving, left, cut] }))
}

/// The ground between the faces that are drawn on and the wall's line ahead of where it was drawn to.
fn beside(
    own: &WallFaces,
    [left, right]: [Option<Reached<'_>>; 2],
    drawn_to: Point,
    tip: impl Fn(Reached<'_>) -> Point,
) -> impl Iterator<Item = [Point; 4]> {
    let back = along(drawn_to, drawn_to - out_of(own), OVERLAP);
    let left = left.map(|left| [back, tip(left), left.place, own.left[1]]);
    let right = right.map(|right| [back, own.right[1], right.place, tip(right)]);
    left.into_iter().chain(right)
}

/// Where the line of a wall that stops before walls that pass is led into the first of them, if both of its faces end in
/// walls: ground between its end and the corner of two such walls would else stay open.
fn drawn_into(own: &WallFaces, drawn_to: Point, arms: &[Arm], reached: [bool; 2]) -> Point {
    let across = || arms.iter().filter(|arm| !parallel(own, &arm.faces));
    let [from, to] = own.centre_line();
    let ahead = |place: &Point| project(from, to, *place).0 - project(from, to, to).0;
    let places = across().filter(|arm| arm.passes).filter_map(|arm| {
        let [c, d] = arm.faces.centre_line();
        meet(drawn_to, drawn_to + out_of(own), c, d)
    });
    let furthest = Length::from_steps(FURTHEST * own.thickness().steps());
    let first = places.filter(|place| (Length::ZERO..=furthest).contains(&ahead(place))).min_by_key(ahead);
    let in_wall = |end: Point| across().any(|arm| touches([end, end], &arm.faces.outline()));
    let mut ends = [own.left[1], own.right[1]].into_iter().zip(reached);
    first.filter(|_| ends.all(|(end, reached)| reached || in_wall(end))).unwrap_or(drawn_to)
}

/// By how many times the thicker wall's thickness an end is drawn on at the most: beyond, at a very acute angle, it stays as
/// it was drawn.
const FURTHEST: i64 = 3;

/// What a fill shares with its own wall.
const OVERLAP: Length = Length::INCH;

/// Where a face meets the next arm around the joint beyond its end.
#[derive(Clone, Copy)]
struct Reached<'a> {
    place: Point,
    /// The line of the arm up to which the face is drawn.
    line: [Point; 2],
    arm: &'a Arm,
}

/// Where a face is drawn on to.
///
/// A wall that runs straight on is met nowhere: off the axes the two lines cross, but wherever rounding has it.
fn drawn_on<'a>(own: &WallFaces, [a, b]: [Point; 2], arms: &'a [Arm], turn: Turn) -> Option<Reached<'a>> {
    let is_square = own.is_square();
    let reached = next_arms(own, arms, turn).filter_map(|arm| {
        // Walls square to the axes that run in one line do not cross anyway.
        if !(is_square && arm.faces.is_square()) && parallel(own, &arm.faces) {
            return None;
        }
        let furthest = FURTHEST * own.thickness().max(arm.faces.thickness()).steps();
        let up_to = |line: [Point; 2]| {
            let place = meet(a, b, line[0], line[1])?;
            let beyond = project(a, b, place).0 - project(a, b, b).0;
            (beyond > Length::ZERO && beyond.steps() <= furthest).then_some((beyond, Reached { place, line, arm }))
        };
        // Where walls run nearly straight on, the middle of the other may be too far away though its face is not.
        let reach = reach(own, arm, arms, turn);
        let met = up_to(reach.line).filter(|(_, reached)| !reach.from_end || stands_at(arm, reached.place));
        met.or_else(|| up_to(facing(arm, turn)))
    });
    reached.max_by_key(|(beyond, _)| *beyond).map(|(_, reached)| reached)
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

/// Whether an arm stands at a place on its line.
fn stands_at(arm: &Arm, place: Point) -> bool {
    project(arm.faces.left[0], arm.faces.left[1], place).0 >= -crate::OFF_AXIS_SLACK
}

/// How far a face is drawn that meets an arm.
struct Reach {
    /// The line up to which.
    line: [Point; 2],
    /// Whether only where the arm stands, and not on the line drawn back from its end: there another wall is next, and a
    /// face that is drawn through it comes out on its far side.
    from_end: bool,
}

impl Reach {
    const fn up_to(line: [Point; 2]) -> Self {
        Self { line, from_end: false }
    }
}

/// The line of an arm up to which a face that meets it is drawn.
fn reach(own: &WallFaces, arm: &Arm, arms: &[Arm], turn: Turn) -> Reach {
    let far = match turn {
        Turn::Clockwise => arm.faces.right,
        Turn::CounterClockwise => arm.faces.left,
    };
    let out = out_of(&own.reversed());
    if arm.passes {
        Reach::up_to(arm.faces.centre_line())
    } else if half_turns(out, out_of(&arm.faces), turn) > 1 {
        Reach::up_to(facing(arm, turn))
    } else if is_alone(own, arm, arms) {
        Reach::up_to(far)
    } else {
        Reach { line: arm.faces.centre_line(), from_end: true }
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
    let ahead = dot(Point::default(), one, other);
    ahead > 0 && is_straight(one, other, ahead)
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

/// Whether two walls lie in one direction, or in opposite ones.
pub(super) fn parallel(own: &WallFaces, other: &WallFaces) -> bool {
    let (one, other) = (out_of(own), out_of(other));
    let ahead = dot(Point::default(), one, other);
    ahead != 0 && is_straight(one, other, ahead)
}

/// Whether two directions lie in one line, the one going so far ahead in the other.
fn is_straight(one: Point, other: Point, ahead: i128) -> bool {
    let aside = cross(Point::default(), one, other);
    aside == 0 || strays([one, other], ahead, aside)
}

/// Whether two directions differ by no more than rounding.
///
/// Off the axes, the ends of a face lie within a step of true: walls that were drawn in one direction differ by
/// [`OFF_AXIS_SLACK`](crate::OFF_AXIS_SLACK) over the length of each. One that is only some steps long has a direction all the
/// same.
#[cold]
fn strays(ways: [Point; 2], ahead: i128, aside: i128) -> bool {
    // At least its length, and less than half more.
    let long = |way: Point| way.x.abs().steps() + way.y.abs().steps();
    let slack = i128::from(crate::OFF_AXIS_SLACK.steps()) * i128::from(ways.map(long).iter().sum::<i64>());
    aside.abs() <= slack && aside.abs() * LEAST_TURN <= ahead.abs()
}

/// Walls that turn from each other by more than one in so many are never taken for parallel, however short they are: the
/// shortest wall that is drawn, an inch, strays by one in four thousand.
const LEAST_TURN: i128 = 1000;

/// Joins a wall to one in line with it, so that the two share ground where they would only touch. Between the other's faces
/// it is drawn on, though only as far as it is not the thicker; beside them the strip that lies in both is filled.
fn into_collinear(own: &WallFaces, other: &WallFaces, end: &mut End) {
    let [from, to] = own.centre_line();
    let across = |point: Point| project(from, to, point).1;
    let (low, high) = (across(own.right[1]), across(own.left[1]));
    let sides = [across(other.left[0]), across(other.right[0])];
    let (other_low, other_high) = (sides[0].min(sides[1]), sides[0].max(sides[1]));
    let reach = project(from, to, to).0;
    let ends = [0, 1].map(|end| project(from, to, other.left[end]).0);
    let beyond = ends[0].max(ends[1]) - reach;
    if beyond <= Length::ZERO {
        return;
    }
    let slack = crate::OFF_AXIS_SLACK;
    if other_low >= low - slack && other_high <= high + slack && other_high - other_low < high - low - slack {
        // The other is drawn into this one from its own end.
        return;
    }
    if low < other_low - slack || high > other_high + slack {
        let (low, high) = (low.max(other_low), high.min(other_high));
        if low < high {
            let place = |ahead: Length, left: Length| offset(along(from, to, ahead), from, to, left);
            let (back, on) = (reach - OVERLAP.min(reach), reach + OVERLAP.min(beyond));
            end.fills.push([place(back, low), place(on, low), place(on, high), place(back, high)]);
        }
        return;
    }
    let depth = own.thickness().min(beyond);
    let ahead = |a: Point, b: Point, corner: Point| project(a, b, corner).0;
    end.corners = [(own.left, end.corners[0]), (own.right, end.corners[1])].map(|([a, b], corner)| {
        let drawn = along(a, b, ahead(a, b, b) + depth);
        if ahead(a, b, corner) >= ahead(a, b, drawn) { corner } else { drawn }
    });
}
