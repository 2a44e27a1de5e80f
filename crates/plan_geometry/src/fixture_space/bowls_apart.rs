use plan_model::elements::{Fixture, FixtureKind};
use plan_model::{Id, Length, Point};

use super::ahead::{Base, Place};
use super::clearance::{Clearance, Met};
use super::lavatory::{self, LavatorySpace};
use super::standing::Standing;
use super::toilet::{self, ToiletSpace};
use crate::{Amount, Mark, Measure, MeasureName, Measured, OFF_AXIS_SLACK, Part};

/// Two bowls, of toilets or lavatories, that stand beside each other.
///
/// They face the same way, stand beside each other by some of their depth, and have nothing between them that would end
/// the free space beside one of them.
/// Source of what is measured: IPC 405.3.1 (30 in from centre to centre of adjacent fixtures).
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct BowlsApart {
    /// The toilets or vanities; the same vanity twice for two of its bowls.
    pub between: [Id; 2],
    /// Which bowl of a vanity that has several each is, counted from one at the left end as seen from the front.
    pub bowls: [Option<usize>; 2],
    /// From one centre line to the other, square to them.
    pub centre_to_centre: Measured,
    /// From the centre line of the first to that of the second.
    pub span: [Point; 2],
}

impl BowlsApart {
    pub(super) fn measure(&self) -> Measure {
        Measure {
            name: MeasureName::BowlsApart,
            part: match self.bowls {
                [Some(one), Some(other)] => Some(Part::Bowls([one, other])),
                [one, other] => one.or(other).map(Part::Bowl),
            },
            of: self.between.to_vec(),
            amount: Amount::Length(self.centre_to_centre),
            marks: vec![Mark::Span(self.span)],
        }
    }
}

/// A bowl with the free space on its left and on its right.
struct Bowl<'a> {
    fixture: &'a Fixture,
    /// See [`BowlsApart::bowls`].
    number: Option<usize>,
    /// From back to front.
    centre_line: [Point; 2],
    sides: [&'a Clearance; 2],
}

/// Every two bowls of which one is the next beside the other.
pub(super) fn bowls_apart(
    standing: &Standing<'_>,
    toilets: &[ToiletSpace],
    lavatories: &[LavatorySpace],
) -> Vec<BowlsApart> {
    let bowls = bowls(standing, toilets, lavatories);
    let mut found: Vec<[usize; 2]> = Vec::new();
    let mut pairs = Vec::new();
    for (index, bowl) in bowls.iter().enumerate() {
        let [back, front] = bowl.centre_line;
        // To the left of a fixture as seen from its front is to the left of its centre line from front to back.
        for (base, side) in [Base::new(front, back), Base::new(back, front)].into_iter().zip(bowl.sides) {
            let Some((base, next)) = base.and_then(|base| Some((base, next_beside(base, bowl, side, &bowls)?))) else {
                continue;
            };
            let (other, distance) = next;
            let pair = [index.min(other), index.max(other)];
            if !found.contains(&pair) {
                found.push(pair);
                pairs.push(bowl.apart_from(&bowls[other], base, distance));
            }
        }
    }
    pairs
}

/// The next bowl ahead of a side of a bowl, by its place in the list, and how far its centre line is.
fn next_beside(base: Base, bowl: &Bowl<'_>, side: &Clearance, bowls: &[Bowl<'_>]) -> Option<(usize, i64)> {
    let (depth, touch) = (base.width(), base.touch());
    let alike = bowls.iter().enumerate().filter(|(_, other)| faces_alike(bowl.fixture, other.fixture));
    let beside = alike.filter_map(|(index, other)| {
        let [back, front] = other.centre_line.map(|end| base.place(end));
        let is_beside =
            back.along.min(front.along) < depth - touch && back.along.max(front.along) > touch && back.ahead > touch;
        is_beside.then_some((index, back.ahead))
    });
    let (next, distance) = beside.min_by_key(|(_, distance)| *distance)?;
    let is_met = matches!(&side.met, Met::Fixture(id) if *id == bowls[next].fixture.id);
    (is_met || distance <= side.clear.value.steps()).then_some((next, distance))
}

impl Bowl<'_> {
    fn apart_from(&self, other: &Self, base: Base, distance: i64) -> BowlsApart {
        let slack = if base.is_square() { Length::ZERO } else { OFF_AXIS_SLACK };
        let along = base.width() / 2;
        BowlsApart {
            between: [self.fixture.id.clone(), other.fixture.id.clone()],
            bowls: [self.number, other.number],
            centre_to_centre: Measured { value: Length::from_steps(distance), slack },
            span: [0, distance].map(|ahead| base.point(Place { along, ahead })),
        }
    }
}

fn bowls<'a>(standing: &Standing<'a>, toilets: &'a [ToiletSpace], lavatories: &'a [LavatorySpace]) -> Vec<Bowl<'a>> {
    let mut bowls = Vec::new();
    for (index, fixture) in standing.of_kinds(|kind| kind == FixtureKind::Toilet) {
        let Some(space) = toilets.iter().find(|space| space.id == fixture.id) else { continue };
        if let Some(centre_line) = standing.centre_line(index, toilet::centre(fixture)) {
            bowls.push(Bowl { fixture, number: None, centre_line, sides: [&space.left, &space.right] });
        }
    }
    for (index, fixture) in standing.of_kinds(|kind| kind == FixtureKind::Vanity) {
        for (bowl, centre) in lavatory::centres(fixture).into_iter().enumerate() {
            let is_it = |space: &&LavatorySpace| space.id == fixture.id && space.bowl == bowl;
            let Some(space) = lavatories.iter().find(is_it) else { continue };
            if let Some(centre_line) = standing.centre_line(index, centre) {
                bowls.push(Bowl { fixture, number: space.number(), centre_line, sides: [&space.left, &space.right] });
            }
        }
    }
    bowls
}

/// Whether two fixtures look the same way.
fn faces_alike(one: &Fixture, other: &Fixture) -> bool {
    let [(ax, ay), (bx, by)] =
        [one, other].map(|fixture| fixture.faces.direction()).map(|(x, y)| (i64::from(x), i64::from(y)));
    ax * by == ay * bx && ax * bx + ay * by > 0
}
