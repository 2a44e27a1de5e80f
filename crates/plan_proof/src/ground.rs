//! Which choices can change what a verdict rests on.
//!
//! A choice matters to some ground if any of its alternates has something there, chosen or not: then another alternate could
//! bring it, or take it out. What a space is follows from the walls that touch it, what is free of it from what stands in
//! it, and what leads to it from the openings on its edge; so what touches a space nowhere changes nothing of it.

use std::collections::HashSet;

use fixedbitset::FixedBitSet;
use plan_geometry::{Derived, Region, Side};
use plan_model::{Home, Id, Length, Point};
use plan_rules::{RestsOn, Verdict};

use crate::places::{Bounds, ChoicePlaces, Elsewhere, Place};

/// How far beside a way something can stand and still be in it: no gap on a way is narrower than 18 in.
const BESIDE_WAY: Length = Length::inches(24);

/// What is the same in every home of a plan.
pub(crate) struct Choices<'plan> {
    pub(crate) elsewhere: Elsewhere<'plan>,
    /// Of each choice.
    pub(crate) places: Vec<ChoicePlaces>,
}

impl Choices<'_> {
    fn none(&self) -> FixedBitSet {
        FixedBitSet::with_capacity(self.places.len())
    }

    pub(crate) fn that(&self, matters: impl Fn(&ChoicePlaces) -> bool) -> FixedBitSet {
        let mut set = self.none();
        set.extend((0..self.places.len()).filter(|choice| matters(&self.places[*choice])));
        set
    }

    /// Those that change anything in the home.
    pub(crate) fn all(&self) -> FixedBitSet {
        self.that(|places| !places.is_empty())
    }
}

/// One home, with the choices that matter to each part of it.
pub(crate) struct Grounds<'a> {
    choices: &'a Choices<'a>,
    derived: &'a Derived,
    present: HashSet<&'a Id>,
    rooms: HashSet<&'a Id>,
    openings: HashSet<&'a Id>,
    /// For each space.
    spaces: Vec<FixedBitSet>,
}

impl<'a> Grounds<'a> {
    pub(crate) fn of(choices: &'a Choices<'a>, home: &'a Home<'_>, derived: &'a Derived) -> Self {
        let elements = &home.elements;
        let spaces = derived.spaces.iter().map(|space| {
            let here = |places: &ChoicePlaces| {
                !places.is_empty()
                    && (places.every_room
                        || places.rooms.iter().any(|room| space.rooms.contains(room))
                        || places.grounds.iter().any(|ground| touches(&space.region, *ground)))
            };
            choices.that(here)
        });
        let doors = elements.doors.iter().map(|door| &door.id);
        Self {
            choices,
            derived,
            present: elements.ids().map(|(id, ..)| id).collect(),
            rooms: elements.rooms.iter().map(|room| &room.id).collect(),
            openings: doors.chain(elements.windows.iter().map(|window| &window.id)).collect(),
            spaces: spaces.collect(),
        }
    }

    /// What an element is: whether it is there, and what lies around it.
    pub(crate) fn of_element(&self, id: &Id) -> FixedBitSet {
        let mut set = self.choices.none();
        set.extend(self.choices.elsewhere.changed_by(id).iter().copied());
        if !self.present.contains(id) {
            return set;
        }
        match self.spaces_of(id) {
            None => return self.choices.all(),
            Some(spaces) => spaces.into_iter().for_each(|space| set.union_with(&self.spaces[space])),
        }
        if let Some(Place::Ground(ground)) = self.choices.elsewhere.place(id) {
            set.union_with(&self.choices.that(|places| places.touches(*ground)));
        }
        set
    }

    /// The spaces in which an element lies or stands, or to which it leads; none if that is not known.
    fn spaces_of(&self, id: &Id) -> Option<Vec<usize>> {
        if self.rooms.contains(id) {
            return Some(vec![self.derived.room(id)?.space]);
        }
        if self.openings.contains(id) {
            let door = self.derived.door(id).map(|door| &door.sides);
            let sides = door.or_else(|| self.derived.window(id).map(|window| &window.sides))?;
            return Some(self.beside(sides).collect());
        }
        match self.choices.elsewhere.place(id)? {
            Place::Ground(ground) => Some(self.spaces_touching(*ground).collect()),
            Place::Rooms(rooms) => Some(rooms.iter().filter_map(|room| Some(self.derived.room(room)?.space)).collect()),
            Place::EveryRoom => None,
        }
    }

    fn beside<'s>(&'s self, sides: &'s [Side; 2]) -> impl Iterator<Item = usize> + 's {
        sides.iter().filter_map(|side| Some(self.derived.room(side.room.as_ref()?)?.space))
    }

    fn spaces_touching(&self, ground: Bounds) -> impl Iterator<Item = usize> + '_ {
        (0..self.derived.spaces.len()).filter(move |space| touches(&self.derived.spaces[*space].region, ground))
    }

    /// What a verdict rests on.
    pub(crate) fn of_verdict(&self, verdict: &Verdict) -> FixedBitSet {
        let mut set = self.choices.none();
        match &verdict.rests_on {
            RestsOn::Surroundings => return self.of_subject(verdict),
            RestsOn::Neighbours => {
                let Some(spaces) = verdict.subject.as_ref().and_then(|id| self.spaces_of(id)) else {
                    return self.choices.all();
                };
                set.union_with(&self.of_subject(verdict));
                for door in &self.derived.doors {
                    if self.beside(&door.sides).any(|space| spaces.contains(&space)) {
                        self.beside(&door.sides).for_each(|space| set.union_with(&self.spaces[space]));
                    }
                }
            }
            RestsOn::Elements(ids) | RestsOn::OneOfMany(Some(ids)) => {
                ids.iter().for_each(|id| set.union_with(&self.of_element(id)));
            }
            RestsOn::Way(path) => {
                let legs: Vec<Bounds> = match path.as_slice() {
                    [only] => vec![Bounds::around(&[*only], BESIDE_WAY)],
                    path => path.windows(2).map(|leg| Bounds::around(leg, BESIDE_WAY)).collect(),
                };
                set.union_with(&self.choices.that(|places| legs.iter().any(|leg| places.touches(*leg))));
                set.union_with(&self.of_subject(verdict));
            }
            RestsOn::Floors => set.union_with(&self.choices.that(|places| places.changes_floors)),
            RestsOn::Overhangs => set.union_with(&self.choices.that(|places| places.changes_overhangs)),
            RestsOn::Others => {}
            RestsOn::Home | RestsOn::OneOfMany(None) => return self.choices.all(),
        }
        set
    }

    fn of_subject(&self, verdict: &Verdict) -> FixedBitSet {
        verdict.subject.as_ref().map_or_else(|| self.choices.all(), |id| self.of_element(id))
    }

    /// What lies around a place: a point in a space, or in none.
    pub(crate) fn around(&self, at: Point) -> FixedBitSet {
        let ground = Bounds::around(&[at], Length::inches(1));
        let mut set = self.choices.that(|places| places.touches(ground));
        self.spaces_touching(ground).for_each(|space| set.union_with(&self.spaces[space]));
        set
    }

    /// What lies around all that a choice may bring or take out.
    pub(crate) fn of_choice(&self, choice: usize) -> FixedBitSet {
        let own = &self.choices.places[choice];
        let mut set = self.choices.that(|places| own.grounds.iter().any(|ground| places.touches(*ground)));
        set.insert(choice);
        for ground in &own.grounds {
            self.spaces_touching(*ground).for_each(|space| set.union_with(&self.spaces[space]));
        }
        set
    }
}

/// Whether a box reaches into a region, or touches it; for slanted sides, whether it comes near.
fn touches(region: &Region, ground: Bounds) -> bool {
    let near = |(a, b): (Point, Point)| Bounds::around(&[a, b], Length::ZERO).touches(ground);
    region.sides().any(near) || region.contains(ground.middle())
}
