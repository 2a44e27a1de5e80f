//! Light and air that one space borrows from the next through openings that nothing closes.

use std::collections::BTreeMap;

use plan_model::{Id, Length, Point};

use crate::kernel::{Bounds, along, alongside};
use crate::{Area, Derived, Figure, Measured, RoomFigures, Space};

/// What a space may borrow from another through cased openings between the two.
///
/// Given for each of the two as the borrower (the *interior* room of the rule). A door that can be closed lends nothing,
/// and rooms that an open boundary divides are one space already.
///
/// Sources: IRC R303.2 compares the opening with half of the common wall, a tenth of the interior room's floor and
/// 25 sq ft; 24 CFR 3280.103(a)(2) with half of the common wall, and a tenth of the floor of both or 25 sq ft.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct BorrowedLight {
    /// The rooms of the space that borrows.
    pub borrower: Vec<Id>,
    /// The rooms of the space that lends.
    pub lender: Vec<Id>,
    /// The cased openings between them.
    pub through: Vec<Id>,
    /// Width times height of all these openings, in square grid steps; unknown where one is higher than a ceiling beside it.
    pub opening_area: Figure,
    /// The wall that the two have in common, openings included.
    pub common_wall: CommonWall,
    /// Area of the borrower's floor, to finished faces.
    pub floor_area: Area,
    pub(super) outlines: Vec<[Point; 4]>,
}

/// The wall between two spaces, as the one that borrows sees it.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct CommonWall {
    /// The length of the borrower's faces that lie against the lender across a wall, or across both walls of a mate line.
    /// Where the two lie against each other at several walls, all of them together.
    pub length: Measured,
    /// That length times the borrower's ceiling height, in square grid steps; unknown where there is no flat ceiling of
    /// one height over the borrower's room.
    pub area: Figure,
    pub(super) stretches: Vec<[Point; 2]>,
}

/// Faces that look at each other from no further apart than this have nothing but wall between them.
///
/// The thickest doubled mate wall is 9 in (common practice, no source); two walls with a room between them are more than
/// 12 in. Where an opening leads through a thicker wall, that wall's thickness counts.
const THICKEST: Length = Length::FOOT;

impl Derived {
    /// What a space, or those of its rooms that count ([`Derived::spaces_of`]), may borrow from other spaces, in the order of
    /// the file.
    #[must_use]
    pub fn borrowed_light(&self, space: &Space) -> Vec<BorrowedLight> {
        let graph = self.room_graph();
        let own: Vec<usize> = space.rooms.iter().filter_map(|room| graph.room(room)).collect();
        let mut openings: BTreeMap<usize, Vec<usize>> = BTreeMap::new();
        for room in &own {
            for connection in graph.connections_of(*room).filter(|connection| connection.kind.is_open()) {
                let Some((door, lender)) = connection.door().zip(connection.beyond(*room)) else { continue };
                let (Some(room), Some(lender)) = (self.rooms.get(*room), self.rooms.get(lender)) else { continue };
                if lender.space != room.space {
                    openings.entry(lender.space).or_default().push(door);
                }
            }
        }
        let borrowed = |(lender, doors): (usize, Vec<usize>)| {
            let lender = self.spaces.get(lender)?;
            let doors = || doors.iter().filter_map(|door| self.doors.get(*door));
            let opening = |door: &crate::DoorFigures| door.clear_width.times(&door.clear_height);
            let thickness = |door: &crate::DoorFigures| {
                let [left, right] = door.sides.each_ref().map(|side| side.line);
                alongside(left, right).map_or(Length::ZERO, |beside| beside.left.abs() + beside.slack)
            };
            let reach = doors().map(thickness).fold(THICKEST, Length::max);
            let rooms: Vec<&RoomFigures> = own.iter().filter_map(|room| self.rooms.get(*room)).collect();
            Some(BorrowedLight {
                borrower: space.rooms.clone(),
                lender: lender.rooms.clone(),
                through: doors().map(|door| door.id.clone()).collect(),
                opening_area: doors().map(opening).fold(Figure::stated(0), |sum, area| sum.plus(&area)),
                common_wall: common_wall(&rooms, lender, reach),
                floor_area: space.floor_area,
                outlines: doors().map(|door| door.outline).collect(),
            })
        };
        let mut borrowed: Vec<BorrowedLight> = openings.into_iter().filter_map(borrowed).collect();
        borrowed.sort_by_key(|borrowed| borrowed.lender.first().and_then(|room| graph.room(room)));
        borrowed
    }
}

fn common_wall(borrower: &[&RoomFigures], lender: &Space, reach: Length) -> CommonWall {
    let facing: Vec<[Point; 2]> = lender.region.sides().map(|(a, b)| [a, b]).collect();
    let within = Bounds::around(&lender.region.outer);
    let mut wall = CommonWall { length: Measured::exact(Length::ZERO), area: Figure::stated(0), stretches: Vec::new() };
    for room in borrower {
        let mut length = Length::ZERO;
        for side in room.region.sides() {
            let side = [side.0, side.1];
            if !Bounds::around(&side).grown(reach).touches(within) {
                continue;
            }
            let (stretches, slack) = across(side, &facing, reach);
            for [from, to] in stretches {
                length += to - from;
                wall.stretches.push([along(side[0], side[1], from), along(side[0], side[1], to)]);
                wall.length.slack = wall.length.slack.max(slack);
            }
        }
        if length > Length::ZERO {
            wall.length.value += length;
            let height = match room.ceiling.lowest.filter(|_| room.ceiling.is_flat) {
                Some(height) => Figure::stated(height.steps().into()),
                None if room.ceiling.lowest.is_some() => {
                    Figure::Unknown(format!("the ceiling over room \"{}\" is not of one height", room.id))
                }
                None => {
                    Figure::Unknown(format!("the plan does not say how high the ceiling over room \"{}\" is", room.id))
                }
            };
            wall.area = wall.area.plus(&height.times(&Figure::stated(length.steps().into())));
        }
    }
    wall
}

/// The stretches of a side that look at one of the other sides across no more than wall, and what they may be off by.
fn across(side: [Point; 2], facing: &[[Point; 2]], reach: Length) -> (Vec<[Length; 2]>, Length) {
    let mut slack = Length::ZERO;
    let mut found: Vec<[Length; 2]> = Vec::new();
    for other in facing {
        let Some(beside) = alongside(side, *other) else { continue };
        // Floors lie to the left of their sides: one behind a wall has its side to the right, running the other way.
        if !beside.same_way && beside.left < Length::ZERO && -beside.left <= reach {
            slack = slack.max(beside.slack);
            found.push(beside.stretch);
        }
    }
    found.sort_unstable();
    let mut merged: Vec<[Length; 2]> = Vec::new();
    for [from, to] in found {
        match merged.last_mut().filter(|last| from <= last[1]) {
            Some(last) => last[1] = last[1].max(to),
            None => merged.push([from, to]),
        }
    }
    (merged, slack)
}
