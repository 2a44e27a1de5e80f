//! Which choices can change what a verdict rests on.
//!
//! A choice matters to some ground if any of its alternates has something there, chosen or not: then another alternate could
//! bring it, or take it out. What a space is follows from the walls that touch it, what is free of it from what stands in
//! it, and what leads to it from the openings on its edge; so what touches a space nowhere changes nothing of it.

use std::collections::HashSet;

use fixedbitset::FixedBitSet;
use plan_geometry::{Derived, DoorFigures, Region, Side};
use plan_model::elements::RoomUse;
use plan_model::{Home, Id, Length, Point};
use plan_rules::{RestsOn, Verdict, What};

use crate::places::{Bounds, ChoicePlaces, Elsewhere, Kind, Place};

/// How far beside a way something can stand and still be in it: no gap on a way is narrower than 18 in.
const BESIDE_WAY: Length = Length::inches(24);

/// What stands no farther out than this is a wall of the house, with its own reach.
const OUTSIDE_REACH: Length = Length::inches(24);

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

/// The kinds of things that matter.
const fn kinds(what: What) -> &'static [Kind] {
    match what {
        What::Everything => &Kind::ALL,
        What::BelowCeiling => &[Kind::Shell, Kind::Alarm, Kind::Standing],
        What::Shell => &[Kind::Shell],
        What::Presence => &[],
    }
}

/// What may matter of the spaces behind doors: whether they are there, what they are and where alarms hang.
const NEXT_DOOR: &[Kind] = &[Kind::Shell, Kind::Alarm];

/// The choices that matter to one space, by the kind of what they have there.
type ByKind = [FixedBitSet; Kind::ALL.len()];

/// One home, with the choices that matter to each part of it.
pub(crate) struct Grounds<'a> {
    choices: &'a Choices<'a>,
    derived: &'a Derived,
    present: HashSet<&'a Id>,
    rooms: HashSet<&'a Id>,
    openings: HashSet<&'a Id>,
    /// The boxes of the buildings.
    footprint: Vec<Bounds>,
    floors: Vec<Floor<'a>>,
    spaces: Vec<ByKind>,
}

/// The floor of a space, with what bounds it.
struct Floor<'a> {
    region: &'a Region,
    bounds: Bounds,
    sides: Vec<Bounds>,
}

impl<'a> Floor<'a> {
    fn of(region: &'a Region) -> Self {
        let sides = region.sides().map(|(a, b)| Bounds::around(&[a, b], Length::ZERO)).collect();
        Self { region, bounds: Bounds::around(&region.outer, Length::ZERO), sides }
    }

    /// Whether a box reaches into it, or touches it; for slanted sides, whether it comes near.
    fn touches(&self, ground: Bounds) -> bool {
        self.bounds.touches(ground)
            && (self.sides.iter().any(|side| side.touches(ground)) || self.region.contains(ground.middle()))
    }
}

impl<'a> Grounds<'a> {
    pub(crate) fn of(choices: &'a Choices<'a>, home: &'a Home<'_>, derived: &'a Derived) -> Self {
        let elements = &home.elements;
        let floors: Vec<Floor<'_>> = derived.spaces.iter().map(|space| Floor::of(&space.region)).collect();
        let spaces = derived.spaces.iter().zip(&floors).map(|(space, floor)| {
            Kind::ALL.map(|kind| {
                choices.that(|places| {
                    let is_over = places.every_room || places.rooms.iter().any(|room| space.rooms.contains(room));
                    let mut grounds = places.grounds.iter().filter(|(own, _)| *own == kind);
                    (kind == Kind::Overhead && is_over) || grounds.any(|(_, ground)| floor.touches(*ground))
                })
            })
        });
        let doors = elements.doors.iter().map(|door| &door.id);
        Self {
            choices,
            derived,
            present: elements.ids().map(|(id, ..)| id).collect(),
            rooms: elements.rooms.iter().map(|room| &room.id).collect(),
            openings: doors.chain(elements.windows.iter().map(|window| &window.id)).collect(),
            spaces: spaces.collect(),
            footprint: derived.footprint.iter().map(|part| Bounds::around(&part.outer, OUTSIDE_REACH)).collect(),
            floors,
        }
    }

    fn add_space(&self, set: &mut FixedBitSet, space: usize, kinds: &[Kind]) {
        kinds.iter().for_each(|kind| set.union_with(&self.spaces[space][*kind as usize]));
    }

    /// What an element is: whether it is there, and what lies around it.
    pub(crate) fn of_element(&self, id: &Id, what: What) -> FixedBitSet {
        let mut set = self.presence(id);
        if !self.present.contains(id) {
            return set;
        }
        if self.is_open(id) {
            set.union_with(&self.floors_anywhere());
            return set;
        }
        match self.spaces_of(id) {
            None => return self.choices.all(),
            Some(spaces) => spaces.into_iter().for_each(|space| self.add_space(&mut set, space, kinds(what))),
        }
        for side in self.sides(id).into_iter().flatten().filter(|side| side.room.is_none()) {
            // What lies there is outdoors, or would be with another wall somewhere; or outdoors would be walled in.
            let may_matter = |places: &ChoicePlaces| {
                places.changes_floors && (!side.is_outdoors || places.stands_out_of(&self.footprint))
            };
            set.union_with(&self.choices.that(may_matter));
        }
        if let Some(Place::Ground(_, ground)) = self.choices.elsewhere.place(id) {
            set.union_with(&self.choices.that(|places| places.touches(kinds(what), *ground)));
        }
        set
    }

    /// Both sides of an opening that stands in a wall.
    fn sides(&self, id: &Id) -> Option<&'a [Side; 2]> {
        if !self.openings.contains(id) {
            return None;
        }
        let door = self.derived.door(id).map(|door| &door.sides);
        door.or_else(|| self.derived.window(id).map(|window| &window.sides))
    }

    /// Whether it is a room that does not close.
    fn is_open(&self, id: &Id) -> bool {
        self.rooms.contains(id) && self.derived.room(id).is_none()
    }

    /// Any wall may be what closes a room.
    fn floors_anywhere(&self) -> FixedBitSet {
        self.choices.that(|places| places.changes_floors)
    }

    /// Whether an element is there.
    fn presence(&self, id: &Id) -> FixedBitSet {
        let mut set = self.choices.none();
        set.extend(self.choices.elsewhere.changed_by(id).iter().copied());
        set
    }

    /// The spaces in which an element lies or stands, or to which it leads; none if that is not known.
    fn spaces_of(&self, id: &Id) -> Option<Vec<usize>> {
        if self.rooms.contains(id) {
            return Some(vec![self.derived.room(id)?.space]);
        }
        if self.openings.contains(id) {
            return Some(self.beside(self.sides(id)?).collect());
        }
        match self.choices.elsewhere.place(id)? {
            Place::Ground(_, ground) => Some(self.spaces_touching(*ground).collect()),
            Place::Rooms(rooms) => Some(rooms.iter().filter_map(|room| Some(self.derived.room(room)?.space)).collect()),
            Place::EveryRoom => None,
        }
    }

    /// What may matter of the spaces around that of an element: what stands in those undivided from it; of those next door, of
    /// what is undivided from them and of those beyond, what they are and where alarms hang. What calls for alarms may stand
    /// anywhere.
    pub(crate) fn neighbours(&self, id: &Id) -> FixedBitSet {
        let mut set = self.choices.that(|places| places.changes_fuel);
        let Some(mut spaces) = self.spaces_of(id) else { return self.choices.all() };
        let garages = self.derived.rooms.iter().filter(|room| room.usage == RoomUse::Garage);
        let garages: Vec<usize> = garages.map(|garage| garage.space).collect();
        self.add_undivided(&mut spaces);
        spaces.iter().for_each(|space| self.add_space(&mut set, *space, kinds(What::BelowCeiling)));
        self.add_beyond(&mut spaces, |_| true);
        self.add_undivided(&mut spaces);
        spaces.extend(garages);
        self.add_beyond(&mut spaces, |_| true);
        spaces.iter().for_each(|space| self.add_space(&mut set, *space, NEXT_DOOR));
        set
    }

    /// Adds the spaces that are joined to those of a list by cased openings, one after the other.
    fn add_undivided(&self, spaces: &mut Vec<usize>) {
        let mut known = 0;
        while known < spaces.len() {
            known = spaces.len();
            self.add_beyond(spaces, |door| door.leaf.is_none());
        }
    }

    /// Adds the spaces to which some doors lead from those of a list.
    fn add_beyond(&self, spaces: &mut Vec<usize>, leads: impl Fn(&DoorFigures) -> bool) {
        let here = spaces.clone();
        for door in self.derived.doors.iter().filter(|door| leads(door)) {
            if self.beside(&door.sides).any(|space| here.contains(&space)) {
                spaces.extend(self.beside(&door.sides));
            }
        }
        spaces.sort_unstable();
        spaces.dedup();
    }

    fn beside<'s>(&'s self, sides: &'s [Side; 2]) -> impl Iterator<Item = usize> + 's {
        sides.iter().filter_map(|side| Some(self.derived.room(side.room.as_ref()?)?.space))
    }

    fn spaces_touching(&self, ground: Bounds) -> impl Iterator<Item = usize> + '_ {
        (0..self.floors.len()).filter(move |space| self.floors[*space].touches(ground))
    }

    /// What a verdict rests on. Where a room does not close, all verdicts may come of that.
    pub(crate) fn of_verdict(&self, verdict: &Verdict) -> FixedBitSet {
        let mut set = self.of_ground(verdict);
        if self.derived.rooms.len() < self.rooms.len() {
            set.union_with(&self.floors_anywhere());
        }
        set
    }

    fn of_ground(&self, verdict: &Verdict) -> FixedBitSet {
        let what = verdict.what;
        let mut set = self.choices.none();
        match &verdict.rests_on {
            RestsOn::Surroundings => return self.of_subject(verdict),
            RestsOn::Neighbours => {
                set.union_with(&self.of_subject(verdict));
                let neighbours = verdict.subject.as_ref().map(|id| self.neighbours(id));
                set.union_with(&neighbours.unwrap_or_else(|| self.choices.all()));
            }
            RestsOn::Elements(ids) | RestsOn::OneOfMany(Some(ids)) => {
                ids.iter().for_each(|id| set.union_with(&self.of_element(id, what)));
            }
            RestsOn::Way(path) => {
                let legs: Vec<Bounds> = match path.as_slice() {
                    [only] => vec![Bounds::around(&[*only], BESIDE_WAY)],
                    path => path.windows(2).map(|leg| Bounds::around(leg, BESIDE_WAY)).collect(),
                };
                set.union_with(&self.choices.that(|places| legs.iter().any(|leg| places.touches(kinds(what), *leg))));
                set.union_with(&self.of_subject(verdict));
            }
            RestsOn::Floors => set.union_with(&self.floors_anywhere()),
            RestsOn::Overhangs => set.union_with(&self.choices.that(|places| places.changes_overhangs)),
            RestsOn::Others => {}
            RestsOn::Home | RestsOn::OneOfMany(None) => return self.choices.all(),
        }
        set
    }

    fn of_subject(&self, verdict: &Verdict) -> FixedBitSet {
        let subject = verdict.subject.as_ref();
        subject.map_or_else(|| self.choices.all(), |id| self.of_element(id, verdict.what))
    }

    /// What lies around a place: a point in a space, or in none.
    pub(crate) fn around(&self, at: Point) -> FixedBitSet {
        let ground = Bounds::around(&[at], Length::inches(1));
        let mut set = self.choices.that(|places| places.touches(&Kind::ALL, ground));
        self.spaces_touching(ground).for_each(|space| self.add_space(&mut set, space, &Kind::ALL));
        set
    }

    /// What lies around all that a choice may bring or take out.
    pub(crate) fn of_choice(&self, choice: usize) -> FixedBitSet {
        let own = &self.choices.places[choice];
        let touched = |places: &ChoicePlaces| own.grounds.iter().any(|(_, ground)| places.touches(&Kind::ALL, *ground));
        let mut set = self.choices.that(touched);
        set.insert(choice);
        for (_, ground) in &own.grounds {
            self.spaces_touching(*ground).for_each(|space| self.add_space(&mut set, space, &Kind::ALL));
        }
        set
    }
}
