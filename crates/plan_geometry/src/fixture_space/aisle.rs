use std::collections::BTreeMap;

use plan_model::elements::{Fixture, FixtureKind};
use plan_model::{Id, Length, Point};

use super::Kitchen;
use super::ahead::{Ahead, Base, Place, Seen};
use super::clearance::Met;
use super::standing::Standing;
use crate::region::sides_of;
use crate::rooms::middle;
use crate::{Amount, FixtureSide, Mark, Measure, MeasureName, Measured, OFF_AXIS_SLACK, Part};

/// Over how much of their lengths two fronts must face each other to make an aisle between them.
///
/// Common practice, no source: people pass each other's corner over less.
const FACING: Length = Length::inches(12);

/// The floor between two fronts of a kitchen that face each other.
///
/// Fronts are those of base and tall cabinets, sinks, ranges, refrigerators, dishwashers and laundry appliances, and all
/// four sides of an island: whoever works at a range works before an island's end as well. Fronts that lie on one line
/// and touch are one. Two fronts face each other when they are parallel and, over 12 in or more at a stretch, nothing
/// stands between them. A kitchen along one wall has no aisle.
///
/// Source of what is measured: common practice as in published planning guidelines for kitchens.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct WorkAisle {
    /// The kitchen.
    pub room: Id,
    /// What makes up the one front and the other.
    pub fronts: [Vec<Id>; 2],
    /// From front to front.
    pub clear: Measured,
    /// Across the aisle, from the one front to the other.
    pub span: [Point; 2],
}

/// The floor between a front of a kitchen and a wall of the kitchen that faces it, over 12 in or more at a stretch with
/// nothing between: a way past the counter.
///
/// Source of what is measured: common practice as in published planning guidelines for kitchens.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Walkway {
    /// The kitchen.
    pub room: Id,
    /// What makes up the front.
    pub front: Vec<Id>,
    /// Which side of an island the front is.
    pub side: Option<FixtureSide>,
    /// From the front to the nearest such wall, square to the front.
    pub clear: Measured,
    /// Across the walkway, from the front to the wall.
    pub span: [Point; 2],
}

impl WorkAisle {
    pub(super) fn measure(&self) -> Measure {
        measure(MeasureName::WorkAisle, &self.room, self.fronts.concat(), self.clear, self.span)
    }
}

impl Walkway {
    pub(super) fn measure(&self) -> Measure {
        let measure = measure(MeasureName::Walkway, &self.room, self.front.clone(), self.clear, self.span);
        Measure { part: self.side.map(Part::Side), ..measure }
    }
}

fn measure(name: MeasureName, room: &Id, things: Vec<Id>, clear: Measured, span: [Point; 2]) -> Measure {
    let of = std::iter::once(room.clone()).chain(things).collect();
    Measure { name, part: None, of, amount: Amount::Length(clear), marks: vec![Mark::Span(span)] }
}

/// Fronts on one line that touch each other.
struct Run<'a> {
    base: Base,
    members: Vec<&'a Id>,
    /// Which side of an island it is, or of the first of several in a row.
    side: Option<FixtureSide>,
}

impl Run<'_> {
    fn ids(&self) -> Vec<Id> {
        self.members.iter().map(|id| (*id).clone()).collect()
    }

    /// Whether a front goes on where this one ends, on the same line and looking the same way.
    fn touches(&self, other: &Self) -> bool {
        let touch = self.base.touch();
        let [from, to] = other.base.ends().map(|end| self.base.place(end));
        from.along < to.along
            && from.ahead.abs() <= touch
            && to.ahead.abs() <= touch
            && from.along <= self.base.width() + touch
            && to.along >= -touch
    }

    fn joined(self, other: Self) -> Self {
        let place = |point: &Point| self.base.place(*point).along;
        let ends = [self.base.ends(), other.base.ends()];
        let from = ends.map(|[from, _]| from).into_iter().min_by_key(place);
        let to = ends.map(|[_, to]| to).into_iter().max_by_key(place);
        let base = from.zip(to).and_then(|(from, to)| Base::new(from, to)).unwrap_or(self.base);
        let mut members = self.members;
        members.extend(other.members);
        members.dedup();
        Self { base, members, side: self.side.or(other.side) }
    }

    /// Whether another front looks back at this one.
    fn is_faced_by(&self, other: &Self) -> bool {
        let [from, to] = other.base.ends().map(|end| self.base.place(end));
        from.along > to.along && (from.ahead - to.ahead).abs() <= self.base.touch()
    }

    /// The nearest place of everything that the front looks at over a stretch that is long enough. What touches the front
    /// leaves nothing to walk in: a counter that is joined to it or to a wall.
    fn nearest(&self, stretches: &[Stretch]) -> BTreeMap<Seeing, Place> {
        let touch = self.base.touch();
        let mut nearest: BTreeMap<Seeing, Place> = BTreeMap::new();
        for stretch in stretches {
            let length = stretch.along[1] - stretch.along[0];
            if length >= FACING.steps() - touch && stretch.nearest.ahead > touch {
                let place = nearest.entry(stretch.of).or_insert(stretch.nearest);
                if stretch.nearest.ahead < place.ahead {
                    *place = stretch.nearest;
                }
            }
        }
        nearest
    }
}

/// The aisles and walkways of a kitchen.
pub(super) fn aisles(standing: &Standing<'_>, kitchen: &Kitchen) -> (Vec<WorkAisle>, Vec<Walkway>) {
    let runs = runs(standing, kitchen);
    let (mut aisles, mut walkways) = (Vec::new(), Vec::new());
    for (index, run) in runs.iter().enumerate() {
        let ahead = Ahead::of(run.base, standing.region, &standing.obstructions);
        for (seeing, place) in run.nearest(&stretches(&ahead.seen(), run, &runs, kitchen)) {
            let room = kitchen.room.clone();
            let clear = Measured { value: Length::from_steps(place.ahead), slack: ahead.slack(place.ahead) };
            let span = [run.base.point(Place { ahead: 0, ..place }), run.base.point(place)];
            match seeing {
                // The other one sees this one as well.
                Seeing::Run(other) if other < index => {}
                Seeing::Run(other) => {
                    aisles.push(WorkAisle { room, fronts: [run.ids(), runs[other].ids()], clear, span });
                }
                Seeing::Wall => walkways.push(Walkway { room, front: run.ids(), side: run.side, clear, span }),
            }
        }
    }
    (aisles, walkways)
}

/// What a stretch of a front looks at.
#[derive(Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
enum Seeing {
    /// A front that looks back, by its place in the list.
    Run(usize),
    /// A wall of the kitchen.
    Wall,
}

/// A stretch of a front, as long as it looks at the same.
struct Stretch {
    of: Seeing,
    along: [i64; 2],
    nearest: Place,
}

fn stretches(seen: &[Seen<'_>], run: &Run<'_>, runs: &[Run<'_>], kitchen: &Kitchen) -> Vec<Stretch> {
    let mut stretches: Vec<Stretch> = Vec::new();
    for part in seen {
        let nearest = part.nearest();
        let of = match &part.shade.met {
            Met::Fixture(id) => {
                let looks_back = |other: &Run<'_>| other.members.contains(&id) && run.is_faced_by(other);
                runs.iter().position(looks_back).map(Seeing::Run)
            }
            Met::Wall => is_of_kitchen(kitchen, run, nearest).then_some(Seeing::Wall),
        };
        let Some(of) = of else { continue };
        match stretches.last_mut() {
            Some(last) if last.of == of && last.along[1] == part.along[0] => {
                last.along[1] = part.along[1];
                if nearest.ahead < last.nearest.ahead {
                    last.nearest = nearest;
                } else if nearest.ahead == last.nearest.ahead {
                    last.nearest.along = last.along[0] + (last.along[1] - last.along[0]) / 2;
                }
            }
            _ => stretches.push(Stretch { of, along: part.along, nearest }),
        }
    }
    stretches
}

/// Whether the floor right before a place on a wall belongs to the kitchen and not to a room that it is open to.
fn is_of_kitchen(kitchen: &Kitchen, run: &Run<'_>, wall: Place) -> bool {
    let before = Place { ahead: wall.ahead - 2 * OFF_AXIS_SLACK.steps(), ..wall };
    wall.ahead > 0 && kitchen.region.contains(run.base.point(before))
}

/// The fronts of what stands in a kitchen, joined to runs.
fn runs<'a>(standing: &Standing<'a>, kitchen: &Kitchen) -> Vec<Run<'a>> {
    let mut runs: Vec<Run<'a>> = Vec::new();
    for (index, fixture) in standing.of_kinds(has_front) {
        let Some(outline) = standing.outline(index) else { continue };
        if !kitchen.region.contains(middle(outline[0], outline[2])) {
            continue;
        }
        for (base, side) in fronts(fixture, outline) {
            let side = (fixture.kind == FixtureKind::Island).then_some(side);
            let mut run = Run { base, members: vec![&fixture.id], side };
            while let Some(beside) = runs.iter().position(|other| other.touches(&run)) {
                run = runs.remove(beside).joined(run);
            }
            runs.push(run);
        }
    }
    runs
}

/// All sides of an island; of anything else its front.
fn fronts(fixture: &Fixture, outline: [Point; 4]) -> impl Iterator<Item = (Base, FixtureSide)> {
    let sides: Vec<[Point; 2]> = sides_of(&outline).map(|(p, q)| [p, q]).collect();
    let bases = sides.into_iter().zip(FixtureSide::ALL).filter_map(|(side, which)| Some((Base::outside(side)?, which)));
    let is_island = fixture.kind == FixtureKind::Island;
    bases.filter(move |(_, side)| is_island || *side == FixtureSide::Front)
}

const fn has_front(kind: FixtureKind) -> bool {
    use FixtureKind::{
        BaseCabinet, Dishwasher, Dryer, Island, Range, Refrigerator, Sink, StackedLaundry, TallCabinet, Washer,
    };
    matches!(
        kind,
        BaseCabinet | TallCabinet | Sink | Island | Range | Refrigerator | Dishwasher | Washer | Dryer | StackedLaundry
    )
}
