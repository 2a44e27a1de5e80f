//! Light and ventilation: glass and openings to outdoors, and what a space may borrow from the next.
//!
//! Sources: IRC R303.1 (8 % of the floor glazed, 4 % openable), R303.2 (adjoining rooms); 24 CFR 3280.103. These are the
//! figures that such rules compare; the fractions belong to the book.

mod borrowing;

use std::collections::BTreeMap;

use plan_model::{Exact, Id, Point};

use crate::asked::{Asked, Question};
use crate::openings::Openings;
use crate::{Amount, Area, Derived, Figure, Mark, Measure, MeasureName, RoomFigures, Side, Space};

pub use borrowing::{BorrowedLight, CommonWall};

/// What lets light and air from outdoors into a room, or into a space.
///
/// A window or glazed door counts for the room on its inside if the other side is outdoors: a porch is outdoors, roofed or not, and a
/// garage or another room is not.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Daylight {
    /// Area of the floor, to finished faces. Square grid steps.
    pub floor_area: Area,
    /// Area of the glass to outdoors, in square grid steps: published, else estimated, else unknown; estimated or unknown
    /// as soon as one window's is.
    pub glazed: Figure,
    /// Area that can be opened to outdoors, in square grid steps, in the same way. What does not open adds nothing.
    pub openable: Figure,
    /// The windows and glazed doors that are counted.
    pub windows: Vec<Id>,
    /// The part of the wall that each of them takes.
    outlines: Vec<[Point; 4]>,
}

impl Daylight {
    /// A floor without windows.
    fn dark(floor_area: Area) -> Self {
        let none = Figure::stated(0);
        Self { floor_area, glazed: none.clone(), openable: none, windows: Vec::new(), outlines: Vec::new() }
    }

    fn add(&mut self, other: &Self) {
        self.glazed = self.glazed.plus(&other.glazed);
        self.openable = self.openable.plus(&other.openable);
        self.windows.extend_from_slice(&other.windows);
        self.outlines.extend_from_slice(&other.outlines);
    }
}

/// The windows of one room, with all that its light rests on.
#[derive(Debug, PartialEq)]
pub(crate) struct DaylightOf {
    floor_area: Area,
    windows: Vec<Opening>,
}

/// Something that lets in light from outdoors.
#[derive(Clone, Debug, PartialEq)]
struct Opening {
    id: Id,
    outline: [Point; 4],
    glazed: Figure,
    openable: Figure,
}

impl Question for DaylightOf {
    type Answer = Daylight;

    fn answer(&self) -> Daylight {
        let mut light = Daylight::dark(self.floor_area);
        for window in &self.windows {
            light.add(&Daylight {
                floor_area: Area::ZERO,
                glazed: window.glazed.clone(),
                openable: window.openable.clone(),
                windows: vec![window.id.clone()],
                outlines: vec![window.outline],
            });
        }
        light
    }
}

/// The light of every room, in the order of the rooms.
pub(crate) fn of_rooms(
    rooms: &[RoomFigures],
    Openings { doors, windows }: &Openings,
    earlier: Option<&[Asked<DaylightOf>]>,
) -> Vec<Asked<DaylightOf>> {
    let index: BTreeMap<&Id, usize> = rooms.iter().enumerate().map(|(at, room)| (&room.id, at)).collect();
    let mut lights: Vec<DaylightOf> =
        rooms.iter().map(|room| DaylightOf { floor_area: room.floor_area, windows: Vec::new() }).collect();
    let windows = windows.iter().map(|window| {
        let (glazed, openable) = (window.glazed_area.clone(), window.openable_area.clone());
        (&window.sides, Opening { id: window.id.clone(), outline: window.outline, glazed, openable })
    });
    // A door without glass gives no light, and nobody leaves it open for air.
    let glazed_doors = doors.iter().filter(|door| door.glazed_area.value() != Some(Exact::from(0)));
    let glazed_doors = glazed_doors.map(|door| {
        let (glazed, openable) = (door.glazed_area.clone(), door.openable_area());
        (&door.sides, Opening { id: door.id.clone(), outline: door.outline, glazed, openable })
    });
    for (sides, opening) in windows.chain(glazed_doors) {
        if let Some(room) = lit(sides).and_then(|room| index.get(room)) {
            lights[*room].windows.push(opening);
        }
    }
    let asked = |(at, light)| Asked::after(earlier.and_then(|earlier| earlier.get(at)), light);
    lights.into_iter().enumerate().map(asked).collect()
}

/// The room to which an opening lets in light from outdoors.
fn lit([left, right]: &[Side; 2]) -> Option<&Id> {
    match (left.is_outdoors, right.is_outdoors) {
        (false, true) => left.room.as_ref(),
        (true, false) => right.room.as_ref(),
        _ => None,
    }
}

impl Derived {
    /// The light of one room by itself.
    #[must_use]
    pub fn daylight_of_room(&self, room: &Id) -> Option<&Daylight> {
        Some(self.daylight.get(self.room_graph().room(room)?)?.get())
    }

    /// The light of a space, or of those of its rooms that count ([`Derived::spaces_of`]): judged once.
    #[must_use]
    pub fn daylight(&self, space: &Space) -> Daylight {
        let mut light = Daylight::dark(space.floor_area);
        for room in space.rooms.iter().filter_map(|room| self.daylight_of_room(room)) {
            light.add(room);
        }
        light
    }
}

/// Glazed and openable area of every space, and what it may borrow.
pub(crate) fn measures(derived: &Derived) -> Vec<Measure> {
    let graph = derived.room_graph();
    // In the order of the file, which the spaces themselves are not in.
    let mut spaces: Vec<&Space> = derived.spaces.iter().collect();
    spaces.sort_by_key(|space| space.rooms.first().and_then(|room| graph.room(room)));
    let mut measures = Vec::new();
    for space in spaces {
        let light = derived.daylight(space);
        let marks: Vec<Mark> = light.outlines.iter().map(|outline| Mark::Ground(outline.to_vec())).collect();
        for (name, area) in
            [(MeasureName::GlazedAreaOfSpace, light.glazed), (MeasureName::OpenableAreaOfSpace, light.openable)]
        {
            let amount = Amount::OpeningArea(area);
            measures.push(Measure { name, part: None, of: space.rooms.clone(), amount, marks: marks.clone() });
        }
        for borrowed in derived.borrowed_light(space) {
            measures.extend(borrowed.measures());
        }
    }
    measures
}

impl BorrowedLight {
    fn measures(&self) -> [Measure; 3] {
        let of: Vec<Id> = self.borrower.iter().chain(&self.lender).chain(&self.through).cloned().collect();
        let openings = self.outlines.iter().map(|outline| Mark::Ground(outline.to_vec())).collect();
        let walls = || self.common_wall.stretches.iter().map(|stretch| Mark::Span(*stretch)).collect();
        let tell = |name, amount, marks| Measure { name, part: None, of: of.clone(), amount, marks };
        [
            tell(MeasureName::BorrowedOpeningArea, Amount::OpeningArea(self.opening_area.clone()), openings),
            tell(MeasureName::CommonWallLength, Amount::Length(self.common_wall.length), walls()),
            tell(MeasureName::CommonWallArea, Amount::OpeningArea(self.common_wall.area.clone()), walls()),
        ]
    }
}
