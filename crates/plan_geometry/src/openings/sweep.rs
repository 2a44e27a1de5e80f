//! The sectors that leaves sweep, and what they cross: each other, and the ground before other doors.
//!
//! A sweep reaches from the closed leaf to where the leaf comes to rest. All of these are advisories: doors are opened one
//! after the other.

use std::collections::HashMap;

use plan_model::{Id, Length, Point};

use super::sector::{self, Sector};
use super::{DoorFigures, Leaf};
use crate::RoomFigures;
use crate::asked::Question;
use crate::kernel::Bounds;
use crate::kernel::{intersection, offset};

/// Two leaves whose sweeps share ground.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct SweepCrossing {
    /// The doors, in the order of the home's list.
    pub doors: [Id; 2],
    /// The ground that both sweep, its arcs in short straight pieces; empty where it is narrower than the grid.
    pub ground: Vec<Point>,
}

/// A leaf that sweeps right before another door or cased opening.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct SweptDoorway {
    /// The door whose leaf it is.
    pub door: Id,
    /// The other door or cased opening.
    pub doorway: Id,
    /// The ground before that opening which the leaf sweeps, as at [`SweepCrossing::ground`].
    pub ground: Vec<Point>,
}

/// How near to an opening a leaf stands in its way. Common practice, no source: nobody walks through a gap of less than
/// 18 in, which is also how walking distances are measured.
const IN_THE_WAY: Length = Length::inches(18);

/// Where a leaf sweeps, or the side of an opening lies.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Ground {
    /// An open space, by its index.
    Space(usize),
    /// Outdoors.
    Outdoors,
    /// In a wall, or in a space that has no name.
    Nowhere,
}

/// The leaves of a home with the ground before its doors.
#[derive(Debug, PartialEq)]
pub(crate) struct Sweeps {
    doors: Vec<Swept>,
}

#[derive(Debug, PartialEq)]
struct Swept {
    id: Id,
    leaf: Option<Leaf>,
    /// The ground that the leaf sweeps.
    onto: Ground,
    /// The ground before the opening, on both sides.
    before: [([Point; 4], Ground); 2],
}

/// What lies on one side of an opening.
pub(crate) fn ground(side: &super::Side, rooms: &HashMap<&Id, &RoomFigures>) -> Ground {
    let room = side.room.as_ref().and_then(|room| rooms.get(room));
    match room {
        Some(room) => Ground::Space(room.space),
        None if side.is_outdoors => Ground::Outdoors,
        None => Ground::Nowhere,
    }
}

impl Sweeps {
    /// Of doors, each with the ground on its two sides.
    pub(crate) fn of(doors: &[DoorFigures], ground: impl Fn(&super::Side) -> Ground) -> Self {
        let swept = |door: &DoorFigures| {
            let sides = door.sides.each_ref().map(|side| (side.line, ground(side)));
            let [left, right] = sides;
            // A leaf hangs on the face of one side, and may swing through the other wall of a doubled one.
            let onto = door.leaf.as_ref().map(|leaf| {
                let [from, to] = door.sides[1].line;
                if crate::region::cross(from, to, leaf.open) > crate::region::cross(from, to, leaf.hinge) {
                    left.1
                } else {
                    right.1
                }
            });
            let strip = |[a, b]: [Point; 2], depth: Length| [a, b, offset(b, a, b, depth), offset(a, a, b, depth)];
            Swept {
                id: door.id.clone(),
                leaf: door.leaf.clone(),
                onto: onto.unwrap_or(Ground::Nowhere),
                before: [(strip(left.0, IN_THE_WAY), left.1), (strip([right.0[1], right.0[0]], IN_THE_WAY), right.1)],
            }
        };
        Self { doors: doors.iter().map(swept).collect() }
    }
}

/// What the sweeps of a home cross.
#[derive(Debug, Default)]
pub(crate) struct Crossed {
    pub(crate) crossings: Vec<SweepCrossing>,
    pub(crate) doorways: Vec<SweptDoorway>,
}

/// Something that may be crossed, with the index of its door.
enum Item {
    Sweep(Sector),
    Before([Point; 4], Ground),
}

impl Question for Sweeps {
    type Answer = Crossed;

    fn answer(&self) -> Crossed {
        let mut items: Vec<(Bounds, usize, Item)> = Vec::with_capacity(3 * self.doors.len());
        for (index, door) in self.doors.iter().enumerate() {
            if let Some(sector) = door.leaf.as_ref().and_then(Sector::of) {
                items.push((sector.bounds(), index, Item::Sweep(sector)));
            }
            for (strip, ground) in door.before {
                items.push((Bounds::around(&strip), index, Item::Before(strip, ground)));
            }
        }
        items.sort_by_key(|(bounds, index, _)| (bounds.low.x, *index));
        let (mut crossings, mut doorways) = (Vec::new(), Vec::new());
        for (at, (bounds, index, item)) in items.iter().enumerate() {
            let ahead = items[at + 1..].iter().take_while(|(other, ..)| other.low.x <= bounds.high.x);
            for (_, other, crossed) in ahead.filter(|(other, ..)| other.touches(*bounds)) {
                match (item, crossed) {
                    _ if index == other => {}
                    (Item::Sweep(one), Item::Sweep(two)) => {
                        if sector::cross(one, two) {
                            crossings.push((
                                [*index.min(other), *index.max(other)],
                                intersection(&one.outline(), &two.outline()),
                            ));
                        }
                    }
                    (Item::Sweep(sweep), Item::Before(strip, ground)) => {
                        doorways.extend(self.before(sweep, *index, *other, strip, *ground));
                    }
                    (Item::Before(strip, ground), Item::Sweep(sweep)) => {
                        doorways.extend(self.before(sweep, *other, *index, strip, *ground));
                    }
                    (Item::Before(..), Item::Before(..)) => {}
                }
            }
        }
        crossings.sort_by_key(|(doors, _)| *doors);
        doorways.sort_by_key(|(doors, _)| *doors);
        let id = |door: usize| self.doors[door].id.clone();
        let crossing = |(doors, ground): ([usize; 2], _)| SweepCrossing { doors: doors.map(id), ground };
        let doorway =
            |([door, doorway], ground): ([usize; 2], _)| SweptDoorway { door: id(door), doorway: id(doorway), ground };
        Crossed {
            crossings: crossings.into_iter().map(crossing).collect(),
            doorways: doorways.into_iter().map(doorway).collect(),
        }
    }
}

impl Sweeps {
    fn before(
        &self,
        sweep: &Sector,
        door: usize,
        doorway: usize,
        strip: &[Point; 4],
        ground: Ground,
    ) -> Option<([usize; 2], Vec<Point>)> {
        let onto = self.doors.get(door)?.onto;
        let same = onto == ground && ground != Ground::Nowhere;
        (same && sector::covers_part(sweep, strip)).then(|| ([door, doorway], intersection(&sweep.outline(), strip)))
    }
}
