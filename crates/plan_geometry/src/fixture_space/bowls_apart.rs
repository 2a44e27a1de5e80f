use plan_model::elements::{Fixture, FixtureKind};
use plan_model::{Id, Length, Point};

use super::ahead::Base;
use super::clearance::Met;
use super::lavatory::{self, LavatorySpace};
use super::standing::Standing;
use super::toilet::{self, ToiletSpace};
use crate::{Amount, Mark, Measure, MeasureName, Measured, OFF_AXIS_SLACK};

/// Two bowls, of toilets or lavatories, that stand beside each other.
///
/// They face the same way, stand beside each other by some of their depth, and have nothing between them.
/// Source of what is measured: IPC 405.3.1 (30 in from centre to centre of adjacent fixtures).
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct BowlsApart {
    /// The toilets or vanities, as seen from the front: the left one first. The same vanity twice for two of its bowls.
    pub between: [Id; 2],
    /// From one centre line to the other, square to them.
    pub centre_to_centre: Measured,
    /// From the centre line of the first to that of the second.
    pub span: [Point; 2],
}

impl BowlsApart {
    pub(super) fn measure(&self) -> Measure {
        Measure {
            name: MeasureName::BowlsApart,
            of: self.between.to_vec(),
            amount: Amount::Length(self.centre_to_centre),
            marks: vec![Mark::Span(self.span)],
        }
    }
}

/// A bowl with what it has on its right.
struct Bowl<'a> {
    id: &'a Id,
    fixture: &'a Fixture,
    /// From back to front.
    centre_line: [Point; 2],
    met_right: &'a Met,
    clear_right: Length,
}

/// Every two bowls beside each other: each bowl with the next one on its right.
pub(super) fn bowls_apart(
    standing: &Standing<'_>,
    toilets: &[ToiletSpace],
    lavatories: &[LavatorySpace],
) -> Vec<BowlsApart> {
    let bowls = bowls(standing, toilets, lavatories);
    let mut pairs: Vec<BowlsApart> = Vec::new();
    for bowl in &bowls {
        let Some(base) = Base::new(bowl.centre_line[0], bowl.centre_line[1]) else { continue };
        // To the right of a fixture as seen from its front is to the left of its centre line from back to front.
        let depth = base.width();
        let beside = bowls.iter().filter(|other| faces_alike(bowl.fixture, other.fixture)).filter_map(|other| {
            let [back, front] = other.centre_line.map(|end| base.place(end));
            (back.ahead > 0 && back.along < depth - base.touch() && front.along > base.touch())
                .then_some((other, back.ahead))
        });
        let Some((next, distance)) = beside.min_by_key(|(_, distance)| *distance) else { continue };
        let is_met = matches!(bowl.met_right, Met::Fixture(id) if id == next.id);
        if !is_met && Length::from_steps(distance) > bowl.clear_right {
            continue;
        }
        let slack = if base.is_square() { Length::ZERO } else { OFF_AXIS_SLACK };
        let middle = base.place(bowl.centre_line[1]).along / 2;
        let span = [0, distance].map(|ahead| base.point(super::ahead::Place { along: middle, ahead }));
        pairs.push(BowlsApart {
            between: [bowl.id.clone(), next.id.clone()],
            centre_to_centre: Measured { value: Length::from_steps(distance), slack },
            span,
        });
    }
    pairs
}

fn bowls<'a>(standing: &Standing<'a>, toilets: &'a [ToiletSpace], lavatories: &'a [LavatorySpace]) -> Vec<Bowl<'a>> {
    let mut bowls = Vec::new();
    for (index, fixture) in standing.of_kinds(|kind| kind == FixtureKind::Toilet) {
        let right = toilets.iter().find(|toilet| toilet.id == fixture.id).map(|toilet| &toilet.right);
        if let (Some(right), Some(centre_line)) = (right, standing.centre_line(index, toilet::centre(fixture))) {
            let (met_right, clear_right) = (&right.met, right.clear.value);
            bowls.push(Bowl { id: &fixture.id, fixture, centre_line, met_right, clear_right });
        }
    }
    for (index, fixture) in standing.of_kinds(|kind| kind == FixtureKind::Vanity) {
        for (bowl, centre) in lavatory::centres(fixture).into_iter().enumerate() {
            let space = lavatories.iter().find(|space| space.id == fixture.id && space.bowl == bowl);
            if let (Some(space), Some(centre_line)) = (space, standing.centre_line(index, centre)) {
                let (met_right, clear_right) = (&space.right.met, space.right.clear.value);
                bowls.push(Bowl { id: &fixture.id, fixture, centre_line, met_right, clear_right });
            }
        }
    }
    bowls
}

fn faces_alike(one: &Fixture, other: &Fixture) -> bool {
    let ((ax, ay), (bx, by)) = (one.faces.direction(), other.faces.direction());
    i64::from(ax) * i64::from(by) == i64::from(ay) * i64::from(bx)
        && i64::from(ax) * i64::from(bx) + i64::from(ay) * i64::from(by) > 0
}
