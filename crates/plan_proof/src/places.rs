//! Where the choices of a plan have something: what they bring and take out, whichever alternate is chosen.

use std::collections::{HashMap, HashSet};

use plan_geometry::outline;
use plan_model::elements::{Elements, FurnitureKind, RoomUse};
use plan_model::{Choice, Id, Length, Plan, Point};

/// How far beyond its own faces an element is reckoned to reach. What only touches matters too, and walls are cut and
/// lengthened where they join: no joint reaches farther than the thickness of a wall.
const REACH: Length = Length::inches(1);
const WALL_REACH: Length = Length::inches(12);

/// A box square to the axes.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) struct Bounds {
    low: Point,
    high: Point,
}

impl Bounds {
    /// Around some points, with so much added on every side.
    pub(crate) fn around(points: &[Point], reach: Length) -> Self {
        let first = points.first().copied().unwrap_or_default();
        let (low, high) = points.iter().fold((first, first), |(low, high), p| {
            (Point::new(low.x.min(p.x), low.y.min(p.y)), Point::new(high.x.max(p.x), high.y.max(p.y)))
        });
        Self { low: low - Point::new(reach, reach), high: high + Point::new(reach, reach) }
    }

    pub(crate) fn touches(self, other: Self) -> bool {
        self.low.x <= other.high.x
            && other.low.x <= self.high.x
            && self.low.y <= other.high.y
            && other.low.y <= self.high.y
    }

    /// Whether all of another box lies in it.
    fn holds(self, other: Self) -> bool {
        self.low.x <= other.low.x
            && self.low.y <= other.low.y
            && self.high.x >= other.high.x
            && self.high.y >= other.high.y
    }

    pub(crate) fn middle(self) -> Point {
        plan_geometry::middle(self.low, self.high)
    }
}

/// What kind of thing an element is, as far as it matters to what rests on it.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Kind {
    /// What makes rooms and leads to them: walls, columns, rooms, the lines between them, doors and windows.
    Shell,
    /// Alarms.
    Alarm,
    /// What stands on the floor, or on the ground outside.
    Standing,
    /// What is over the floor.
    Overhead,
}

impl Kind {
    pub(crate) const ALL: [Self; 4] = [Self::Shell, Self::Alarm, Self::Standing, Self::Overhead];
}

/// What an element is about.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(crate) enum Place {
    /// What lies here.
    Ground(Kind, Bounds),
    /// These rooms, wherever they are.
    Rooms(Vec<Id>),
    /// All rooms.
    EveryRoom,
}

/// Every element of a plan, its base and all its alternates, with its place.
pub(crate) struct Elsewhere<'plan> {
    places: HashMap<&'plan Id, Place>,
    /// What is told of by the rooms that it divides.
    dividing: HashSet<&'plan Id>,
    /// Choices that bring or take out an element.
    changed_by: HashMap<&'plan Id, Vec<usize>>,
}

/// Where one choice has something.
#[derive(Clone, Debug, Default)]
pub(crate) struct ChoicePlaces {
    pub(crate) grounds: Vec<(Kind, Bounds)>,
    pub(crate) rooms: Vec<Id>,
    pub(crate) every_room: bool,
    /// Whether it brings or takes out walls, columns, rooms, or the lines and openings between them.
    pub(crate) changes_floors: bool,
    /// Whether it brings or takes out a porch.
    pub(crate) changes_overhangs: bool,
    /// Whether it brings or takes out what burns fuel, or a garage: what asks for alarms elsewhere.
    pub(crate) changes_fuel: bool,
}

impl ChoicePlaces {
    /// Whether no alternate brings or takes out anything: a finish.
    pub(crate) fn is_empty(&self) -> bool {
        self.grounds.is_empty() && self.rooms.is_empty() && !self.every_room
    }

    /// Whether something that may make rooms stands out of all of some boxes.
    pub(crate) fn stands_out_of(&self, boxes: &[Bounds]) -> bool {
        let is_out = |ground: &Bounds| !boxes.iter().any(|whole| whole.holds(*ground));
        self.grounds.iter().any(|(kind, ground)| *kind == Kind::Shell && is_out(ground))
    }

    /// Whether something of these kinds touches a box.
    pub(crate) fn touches(&self, kinds: &[Kind], ground: Bounds) -> bool {
        self.grounds.iter().any(|(kind, own)| kinds.contains(kind) && own.touches(ground))
    }
}

impl<'plan> Elsewhere<'plan> {
    pub(crate) fn of(plan: &'plan Plan) -> Self {
        let mut all = Elements::default();
        let alternates = || plan.choices.iter().flat_map(|choice| &choice.alternates);
        let lists = || std::iter::once(&plan.base).chain(alternates().map(|alternate| &alternate.brings));
        lists().for_each(|list| all.append_clones(list));
        let walls: HashMap<&Id, &plan_model::elements::Wall> = all.walls.iter().map(|wall| (&wall.id, wall)).collect();
        let mut by_name: HashMap<Id, Place> = HashMap::new();
        let ground = |kind, points: &[Point], reach| Place::Ground(kind, Bounds::around(points, reach));
        for wall in &all.walls {
            by_name.insert(wall.id.clone(), ground(Kind::Shell, &[wall.from, wall.to], wall.thickness + WALL_REACH));
        }
        for door in &all.doors {
            let width = plan.catalogue.door(&door.unit).map_or(Length::ZERO, |unit| unit.width);
            // As far as its leaf swings.
            by_name.insert(door.id.clone(), in_wall(walls.get(&door.wall).copied(), door.at, width, width));
        }
        for window in &all.windows {
            let width = plan.catalogue.window(&window.unit).map_or(Length::ZERO, |unit| unit.width);
            by_name.insert(window.id.clone(), in_wall(walls.get(&window.wall).copied(), window.at, width, REACH));
        }
        for room in &all.rooms {
            by_name.insert(room.id.clone(), ground(Kind::Shell, &[room.at], REACH));
        }
        for line in &all.open_boundaries {
            by_name.insert(line.id.clone(), ground(Kind::Shell, &[line.from, line.to], WALL_REACH));
        }
        for column in &all.columns {
            by_name.insert(column.id.clone(), ground(Kind::Shell, &[column.from, column.to], REACH));
        }
        for fixture in &all.fixtures {
            let corners = outline(fixture.at, fixture.faces, fixture.width, fixture.depth);
            by_name.insert(fixture.id.clone(), ground(Kind::Standing, &corners, REACH));
        }
        // Loose furniture stands in nobody's way; the floor beside a bed is judged.
        for piece in all.furniture.iter().filter(|piece| piece.kind == FurnitureKind::Bed) {
            let corners = outline(piece.at, piece.faces, piece.width, piece.depth);
            by_name.insert(piece.id.clone(), ground(Kind::Standing, &corners, REACH));
        }
        for ceiling in &all.ceilings {
            let rooms = ceiling.rooms.clone();
            let place = if rooms.is_empty() { Place::EveryRoom } else { Place::Rooms(rooms) };
            by_name.insert(ceiling.id.clone(), place);
        }
        for soffit in &all.soffits {
            by_name.insert(soffit.id.clone(), ground(Kind::Overhead, &[soffit.from, soffit.to], REACH));
        }
        for detector in &all.detectors {
            by_name.insert(detector.id.clone(), ground(Kind::Alarm, &[detector.at], REACH));
        }
        for fan in &all.fans {
            by_name.insert(fan.id.clone(), Place::Rooms(vec![fan.room.clone()]));
        }
        for landing in &all.landings {
            by_name.insert(landing.id.clone(), ground(Kind::Standing, &[landing.from, landing.to], WALL_REACH));
        }
        for porch in &all.porches {
            by_name.insert(porch.id.clone(), ground(Kind::Standing, &[porch.from, porch.to], WALL_REACH));
        }
        let ids = lists().flat_map(|list| list.ids().map(|(id, ..)| id));
        let places = ids.filter_map(|id| Some((id, by_name.get(id)?.clone()))).collect();
        let walls = lists().flat_map(|list| list.walls.iter().map(|wall| &wall.id));
        let dividing = walls.chain(lists().flat_map(|list| list.open_boundaries.iter().map(|line| &line.id))).collect();
        let mut changed_by: HashMap<&Id, Vec<usize>> = HashMap::new();
        for (index, choice) in plan.choices.iter().enumerate() {
            for id in named_by(choice) {
                let choices = changed_by.entry(id).or_default();
                if choices.last() != Some(&index) {
                    choices.push(index);
                }
            }
        }
        Self { places, dividing, changed_by }
    }

    /// What a rule may judge for what lies around it. Ceilings and fans are judged as part of their rooms, walls by what
    /// stands on them.
    pub(crate) fn subjects(&self) -> impl Iterator<Item = &'plan Id> {
        let standing =
            self.places.iter().filter(|(id, place)| matches!(place, Place::Ground(..)) && !self.dividing.contains(*id));
        standing.map(|(id, _)| *id)
    }

    /// Every element, in no order.
    pub(crate) fn ids(&self) -> impl Iterator<Item = &'plan Id> {
        self.places.keys().copied()
    }

    pub(crate) fn place(&self, id: &Id) -> Option<&Place> {
        self.places.get(id)
    }

    /// The choices that bring an element or take it out.
    pub(crate) fn changed_by(&self, id: &Id) -> &[usize] {
        self.changed_by.get(id).map_or(&[], Vec::as_slice)
    }

    /// Where a choice has something.
    pub(crate) fn of_choice(&self, plan: &Plan, choice: &Choice) -> ChoicePlaces {
        let mut places = ChoicePlaces::default();
        for id in named_by(choice) {
            match self.place(id) {
                Some(Place::Ground(kind, ground)) => places.grounds.push((*kind, *ground)),
                Some(Place::Rooms(rooms)) => places.rooms.extend(rooms.iter().cloned()),
                Some(Place::EveryRoom) => places.every_room = true,
                None => {}
            }
        }
        let alternates = || plan.choices.iter().flat_map(|choice| &choice.alternates);
        let lists = std::iter::once(&plan.base).chain(alternates().map(|alternate| &alternate.brings));
        let named: Vec<&Id> = named_by(choice).collect();
        for list in lists {
            let has = |id: &Id| named.contains(&id);
            places.changes_floors |= list.walls.iter().any(|one| has(&one.id))
                || list.columns.iter().any(|one| has(&one.id))
                || list.rooms.iter().any(|one| has(&one.id))
                || list.open_boundaries.iter().any(|one| has(&one.id))
                || list.doors.iter().any(|one| has(&one.id));
            places.changes_overhangs |= list.porches.iter().any(|one| has(&one.id));
            places.changes_fuel |= list.fixtures.iter().any(|one| one.fuel.is_some() && has(&one.id))
                || list.rooms.iter().any(|one| one.usage == RoomUse::Garage && has(&one.id));
        }
        places
    }
}

/// What a choice brings or takes out.
fn named_by(choice: &Choice) -> impl Iterator<Item = &Id> {
    choice.alternates.iter().flat_map(|alternate| alternate.brings.ids().map(|(id, ..)| id).chain(&alternate.removes))
}

/// An opening; anywhere in its wall, if the wall is not there.
fn in_wall(wall: Option<&plan_model::elements::Wall>, at: Length, width: Length, reach: Length) -> Place {
    let Some(wall) = wall else { return Place::EveryRoom };
    let reach = reach.max(REACH) + wall.thickness;
    let (along, squared) = (wall.to - wall.from, |p: Point| {
        let (x, y) = (p.x.steps() as f64, p.y.steps() as f64);
        x.hypot(y)
    });
    let length = squared(along);
    let place = |distance: Length| {
        let part = if length > 0.0 { distance.steps() as f64 / length } else { 0.0 };
        let step = |steps: i64| Length::from_steps((steps as f64 * part).round() as i64);
        wall.from + Point::new(step(along.x.steps()), step(along.y.steps()))
    };
    Place::Ground(Kind::Shell, Bounds::around(&[place(at), place(at + width)], reach))
}
