//! Open boundaries: what of them lies in a floor, and how they cut it.

use plan_model::elements::OpenBoundary;
use plan_model::{Length, Point};

use super::{is_sliver, middle};
use crate::kernel::{Bounds, Whereabouts, along, meet, offset, project, slice};
use crate::region::{cross, on_segment};
use crate::{Doorway, OFF_AXIS_SLACK, Problem, ProblemKind, Region};

/// The open boundaries of a home while floors are cut by them.
///
/// A boundary may run through walls, along the line of a wall that ends free for instance: what counts of it are its
/// stretches in floors, wherever they lie.
pub(super) struct Dividing<'a> {
    boundaries: &'a [OpenBoundary],
    whereabouts: Whereabouts,
    /// The stretches of each that lie in floors.
    open: Vec<Vec<[Point; 2]>>,
    /// Whether each has different rooms on its sides.
    divides: Vec<bool>,
}

impl<'a> Dividing<'a> {
    pub(super) fn by(boundaries: &'a [OpenBoundary]) -> Self {
        let bounds = boundaries.iter().map(|boundary| Bounds::around(&[boundary.from, boundary.to]));
        Self {
            boundaries,
            whereabouts: Whereabouts::of(bounds),
            open: vec![Vec::new(); boundaries.len()],
            divides: vec![false; boundaries.len()],
        }
    }

    /// The parts into which boundaries cut a floor; none if they do not.
    ///
    /// Off the axes, a boundary along a face leaves a sliver beside it; that belongs to the wall.
    pub(super) fn cut(&mut self, floor: &Region) -> Vec<Region> {
        let near = self.whereabouts.touching(Bounds::around(&floor.outer)).into_iter();
        let lines = near.map(|index| (index, [self.boundaries[index].from, self.boundaries[index].to]));
        let lines = lines.map(|(index, line)| (index, line, stretches(floor, line)));
        let inside: Vec<_> = lines.filter(|(_, _, stretches)| !stretches.is_empty()).collect();
        if inside.is_empty() {
            return Vec::new();
        }
        let others = |own: usize| -> Vec<[Point; 2]> {
            inside.iter().filter(move |(index, ..)| *index != own).map(|(_, line, _)| *line).collect()
        };
        let reaching = inside.iter().map(|(index, line, _)| reaching(*line, floor, &others(*index)));
        let mut parts = slice(floor, &reaching.collect::<Vec<_>>());
        parts.retain(|part| !is_sliver(&part.outer));
        for (index, _, stretches) in inside {
            self.divides[index] |= stretches.iter().any(|stretch| divides(&parts, *stretch));
            self.open[index].extend(stretches);
        }
        if parts.len() > 1 { parts } else { Vec::new() }
    }

    /// Boundaries that divide nothing, wherever they lie.
    pub(super) fn loose(&self) -> impl Iterator<Item = Problem> {
        let loose = self.boundaries.iter().zip(&self.divides).filter(|(_, divides)| !**divides);
        loose.map(|(boundary, _)| {
            let kind = ProblemKind::LooseBoundary { boundary: boundary.id.clone() };
            Problem::at(kind, middle(boundary.from, boundary.to))
        })
    }

    /// Where people walk across boundaries.
    pub(super) fn doorways(&self) -> Vec<Doorway> {
        self.boundaries.iter().zip(&self.open).flat_map(|(boundary, open)| doorways(boundary, open)).collect()
    }
}

/// Where people walk across a boundary: at all of it, or where walls cover its middle at each of its stretches, the longest
/// first.
fn doorways(boundary: &OpenBoundary, open: &[[Point; 2]]) -> Vec<Doorway> {
    let [from, to] = [boundary.from, boundary.to];
    let ahead = |place: Point| project(from, to, place).0;
    let half = ahead(middle(from, to));
    let is_open = open.is_empty() || open.iter().any(|[a, b]| ahead(*a) < half && half < ahead(*b));
    let mut lines = if is_open { vec![[from, to]] } else { open.to_vec() };
    lines.sort_by_key(|[a, b]| ahead(*a) - ahead(*b));
    lines.into_iter().map(|line| Doorway { id: boundary.id.clone(), line }).collect()
}

/// The stretches of a line that lie inside a floor, longer than rounding can make them.
fn stretches(floor: &Region, [from, to]: [Point; 2]) -> Vec<[Point; 2]> {
    let ahead = |place: Point| project(from, to, place).0;
    let mut cuts = vec![Length::ZERO, ahead(to)];
    for (p, q) in floor.sides() {
        let sides = [cross(from, to, p).signum(), cross(from, to, q).signum()];
        if sides[0] * sides[1] > 0 {
            continue;
        }
        match meet(from, to, p, q) {
            Some(place) if sides != [0, 0] => cuts.push(ahead(place)),
            _ => cuts.extend([ahead(p), ahead(q)]),
        }
    }
    cuts.retain(|cut| (Length::ZERO..=ahead(to)).contains(cut));
    cuts.sort_unstable();
    let mut found: Vec<[Length; 2]> = Vec::new();
    for cut in cuts.windows(2).filter(|cut| cut[1] - cut[0] > OFF_AXIS_SLACK * 2) {
        let half = Length::from_steps((cut[0].steps() + cut[1].steps()) / 2);
        if !floor.contains_inside(along(from, to, half)) {
            continue;
        }
        match found.last_mut() {
            Some(last) if last[1] == cut[0] => last[1] = cut[1],
            _ => found.push([cut[0], cut[1]]),
        }
    }
    let place = |cut: Length| if cut == ahead(to) { to } else { along(from, to, cut) };
    found.into_iter().map(|stretch| stretch.map(place)).collect()
}

/// Whether different parts lie on the two sides of a stretch, a little away from it; looked for at more than one place,
/// since another boundary may start at any of them.
fn divides(parts: &[Region], [from, to]: [Point; 2]) -> bool {
    let length = project(from, to, to).0.steps();
    let aside = OFF_AXIS_SLACK * 2;
    [2, 3, 5].into_iter().any(|share| {
        let at = along(from, to, Length::from_steps(length / share));
        let part = |left: Length| {
            let point = offset(at, from, to, left);
            parts.iter().position(|part| part.contains_inside(point))
        };
        part(aside) != part(-aside)
    })
}

/// A boundary's line up to what it ends on: the floor's edge, or another boundary. Off the axes, its ends lie there only to
/// within some steps, and a line that falls short divides nothing: an end at a corner of the floor is laid on the corner,
/// since the line may run on along a face; any other is drawn on through what it ends on.
fn reaching([from, to]: [Point; 2], floor: &Region, others: &[[Point; 2]]) -> [Point; 2] {
    let is_square = from.x == to.x || from.y == to.y;
    let near = OFF_AXIS_SLACK * 2;
    let end = |end: Point, other: Point| {
        let corners = || floor.boundaries().flatten();
        let at = corners().find(|corner| (corner.x - end.x).abs() <= near && (corner.y - end.y).abs() <= near);
        if let Some(corner) = at.filter(|_| !is_square) {
            return *corner;
        }
        let sides = floor.sides().map(|(p, q)| [p, q]).chain(others.iter().copied());
        let ended_on = sides.filter(|side| (!is_square || !is_upright(*side)) && ends_on(end, *side));
        let on = ended_on.map(|side| through([other, end], side)).max();
        // One that ends on nothing is told as loose; the little that rounding takes may be all that it wants.
        let on = on.unwrap_or(if is_square { Length::ZERO } else { OFF_AXIS_SLACK });
        if on == Length::ZERO { end } else { along(end, other, -on) }
    };
    [end(from, to), end(to, from)]
}

fn is_upright([p, q]: [Point; 2]) -> bool {
    p.x == q.x || p.y == q.y
}

/// Whether a place lies on a segment, to within the slack of what lies off the axes.
fn ends_on(place: Point, [p, q]: [Point; 2]) -> bool {
    if !Bounds::around(&[p, q]).touches(Bounds::of(&[place])) {
        return false;
    }
    on_segment(place, p, q) || {
        let (ahead, left) = project(p, q, place);
        left.abs() <= OFF_AXIS_SLACK && ahead >= -OFF_AXIS_SLACK && ahead <= project(p, q, q).0 + OFF_AXIS_SLACK
    }
}

/// How far a line that ends within the slack of a side is to be drawn on so that it comes out on the far side of it, by the
/// slack as well: the further, the more nearly the two run along each other.
fn through([from, to]: [Point; 2], [p, q]: [Point; 2]) -> Length {
    let (own, side) = (to - from, q - p);
    let turn = cross(Point::default(), own, side).abs();
    let long = |[a, b]: [Point; 2]| i128::from(project(a, b, b).0.steps());
    let aside = i128::from((OFF_AXIS_SLACK * 2).steps());
    let on = (aside * long([from, to]) * long([p, q])).checked_div(turn).unwrap_or(i128::MAX);
    // At less than a degree it runs along the side, and does not end on it.
    let most = OFF_AXIS_SLACK * 2 * 57;
    if on < i128::from(most.steps()) {
        Length::from_steps(i64::try_from(on).unwrap_or_default() + 1)
    } else {
        OFF_AXIS_SLACK
    }
}
