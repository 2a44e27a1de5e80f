//! The measures of a home by the room that they are asked for in.

use std::collections::BTreeMap;
use std::sync::Arc;

use plan_geometry::{Derived, Measure, MeasureName, Part, middle, outline};
use plan_model::{Home, Id, Point};

/// Where a person looks for a measure.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Place {
    /// Among those of the home as a whole.
    Home,
    /// Among those of a room, of what stands in it and of the openings in its walls.
    Room(Id),
}

/// Every measure of a home.
#[derive(Debug, Default)]
pub struct Measured {
    measures: Arc<[Measure]>,
    /// Indices, by place.
    at: BTreeMap<Place, Vec<usize>>,
}

impl Measured {
    pub(crate) fn of(home: &Home<'_>, derived: &Derived) -> Self {
        let measures = derived.measures().clone();
        let rooms = rooms_of_things(home, derived);
        let mut at: BTreeMap<Place, Vec<usize>> = BTreeMap::new();
        for (index, measure) in measures.iter().enumerate() {
            // What is measured of a room is told there, and not in the rooms beyond its doors.
            let named = measure.of.iter().filter(|id| derived.room(id).is_some()).cloned();
            let mut places: Vec<Place> = named.map(Place::Room).collect();
            if places.is_empty() {
                places = measure.of.iter().filter_map(|id| rooms.get(id)).flatten().cloned().map(Place::Room).collect();
            }
            places.sort_unstable();
            places.dedup();
            if places.is_empty() {
                places.push(Place::Home);
            }
            places.into_iter().for_each(|place| at.entry(place).or_default().push(index));
        }
        Self { measures, at }
    }

    /// The measures of a place, in the order in which they are told, each with what it is known by.
    pub fn at(&self, place: &Place) -> impl Iterator<Item = (Known, &Measure)> {
        let indices = self.at.get(place).into_iter().flatten();
        indices.filter_map(|index| Some((self.known(*index)?, self.measures.get(*index)?)))
    }

    fn known(&self, index: usize) -> Option<Known> {
        let Measure { name, of, part, .. } = self.measures.get(index)?;
        Some(Known { name: *name, of: of.clone(), part: *part })
    }

    /// The measure that is known by this.
    #[must_use]
    pub fn find(&self, known: &Known) -> Option<&Measure> {
        let is_it =
            |measure: &&Measure| measure.name == known.name && measure.of == known.of && measure.part == known.part;
        self.measures.iter().find(is_it)
    }
}

/// What a measure is known by, also after the plan has changed.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Known {
    /// What is measured.
    pub name: MeasureName,
    /// Of which elements.
    pub of: Vec<Id>,
    /// Which part of them: a vanity may have two bowls.
    pub part: Option<Part>,
}

/// The rooms in which each element is looked for: itself, those on the sides of an opening, the one that a thing stands in.
fn rooms_of_things(home: &Home<'_>, derived: &Derived) -> BTreeMap<Id, Vec<Id>> {
    let room_at = |at: Point| derived.rooms.iter().find(|room| room.region.contains(at)).map(|room| room.id.clone());
    let rooms = derived.rooms.iter().map(|room| (room.id.clone(), vec![room.id.clone()]));
    let sides = |sides: &[plan_geometry::Side; 2]| sides.iter().filter_map(|side| side.room.clone()).collect();
    let doors = derived.doors.iter().map(|door| (door.id.clone(), sides(&door.sides)));
    let windows = derived.windows.iter().map(|window| (window.id.clone(), sides(&window.sides)));
    let elements = &home.elements;
    let fixtures = elements.fixtures.iter().map(|it| (&it.id, outline(it.at, it.faces, it.width, it.depth)));
    let furniture = elements.furniture.iter().map(|it| (&it.id, outline(it.at, it.faces, it.width, it.depth)));
    let standing = fixtures.chain(furniture).map(|(id, corners)| (id, middle(corners[0], corners[2])));
    let alarms = elements.detectors.iter().map(|alarm| (&alarm.id, alarm.at));
    let things = standing.chain(alarms).map(|(id, at)| (id.clone(), room_at(at).into_iter().collect()));
    rooms.chain(doors).chain(windows).chain(things).collect()
}
