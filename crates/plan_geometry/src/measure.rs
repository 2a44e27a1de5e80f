//! The list of all measures of a home: each under one name, with its amount and what shows it on the plan.
//!
//! Rules read the typed figures ([`RoomFigures`](crate::RoomFigures), [`DoorFigures`](crate::DoorFigures) and so on). What
//! lists, writes or draws measures reads this list, so that a measure is added in one place.

use plan_model::{Id, Length, Point};

use crate::{Area, Figure, Measured};

/// One figure of a home.
#[derive(Clone, Debug, PartialEq)]
pub struct Measure {
    /// What is measured.
    pub name: MeasureName,
    /// The elements it is measured of or between: a room, a fixture, a door, two doorways.
    pub of: Vec<Id>,
    /// How much, or why that cannot be said.
    pub amount: Amount,
    /// What shows it on the plan.
    pub marks: Vec<Mark>,
}

/// How much a measure is.
#[derive(Clone, Debug, PartialEq)]
pub enum Amount {
    /// A length on the drawing.
    Length(Measured),
    /// An area of floor.
    Area(Area),
    /// A length of an opening: published, or estimated from its unit.
    OpeningLength(Figure),
    /// An area of an opening.
    OpeningArea(Figure),
    /// How many.
    Count(usize),
    /// Whether something can be done.
    Possible(bool),
    /// The model does not hold it; what is missing, as a clause.
    Unknown(String),
}

/// What shows a measure on the plan.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Mark {
    /// A dimension between two places on faces.
    Span([Point; 2]),
    /// A way that somebody walks, from its first point to its last.
    Way(Vec<Point>),
    /// A circle of floor.
    Disc {
        /// Its centre.
        centre: Point,
        /// Across.
        diameter: Length,
    },
    /// A piece of the plan with straight sides: its corners.
    Ground(Vec<Point>),
}

macro_rules! measure_names {
    ($($(#[doc = $doc:literal])+ $name:ident = $word:literal),+ $(,)?) => {
        /// Under which name people ask for a measure.
        #[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
        pub enum MeasureName {
            $($(#[doc = $doc])+ $name,)+
        }

        impl MeasureName {
            /// Every name, in the order in which measures are told.
            pub const ALL: &'static [Self] = &[$(Self::$name),+];

            /// The name in reports: `toilet-side`.
            #[must_use]
            pub const fn word(self) -> &'static str {
                match self {
                    $(Self::$name => $word,)+
                }
            }

            /// What it means, in a sentence or two.
            #[must_use]
            pub const fn meaning(self) -> &'static str {
                match self {
                    $(Self::$name => concat!($($doc),+).trim_ascii(),)+
                }
            }
        }
    };
}

measure_names! {
    // Rooms.

    /// Area of a room's floor, to finished faces and open boundaries.
    FloorArea = "floor-area",
    /// Side of the largest square in a room's direction.
    LargestSquare = "largest-square",
    /// Shorter side of the largest rectangle in a room's direction.
    ClearRectangleWidth = "clear-width-of-room",
    /// Longer side of the largest rectangle in a room's direction.
    ClearRectangleLength = "clear-length-of-room",
    /// Widest disc that can be led between two doorways of a room.
    PassageWidth = "passage-width",

    // Ceilings.

    // Openings.

    // Space at fixtures.

    // Reach.

    // Walking distances.

    /// Length of the shortest way over free floor from the middle of a room's doorway to the middle of the nearest
    /// exterior door, around corners and through no gap under 18 in.
    WayOut = "way-out",
    /// Straight distance between the middles of two exterior doors, whatever stands between them.
    ExitSeparation = "exit-separation",
    /// Length of the shortest way indoors from the middle of one exterior door to the middle of another.
    ExitWalk = "exit-walk",

    // Room graph.

    // Light and ventilation.

    // Alarms.

    // Modules.

    // Heated area.
}
