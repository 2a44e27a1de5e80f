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
    /// An angle, in tenths of a degree.
    TenthsOfDegree(u16),
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

    /// Clear width of a door with its leaf as far open as it goes, square across the opening.
    DoorClearWidth = "door-clear-width",
    /// Clear height of a door, never more than the ceiling, soffit or beam over it.
    DoorClearHeight = "door-clear-height",
    /// How far a leaf opens that a wall, column or fixture stops short of 90 degrees, from closed, rounded down; named
    /// with what stops it.
    LeafAngle = "leaf-angle",
    /// Ground that the leaves of two doors both sweep, their arcs in short straight pieces; an advisory.
    SweepCrossing = "sweep-crossing",
    /// Ground within 18 in before a door that the leaf of another one sweeps, the first named, its arc in short straight
    /// pieces; an advisory.
    SweptDoorway = "swept-doorway",
    /// Width of the net clear opening of a window, by normal operation.
    WindowClearWidth = "window-clear-width",
    /// Height of the net clear opening of a window, by normal operation.
    WindowClearHeight = "window-clear-height",
    /// Area of the net clear opening of a window: its width times its height.
    WindowClearArea = "window-clear-area",
    /// Bottom of a window's net clear opening above the finished floor.
    Sill = "sill",
    /// Area of the glass of a window, or of an outside door.
    GlazedArea = "glazed-area",
    /// Area through which air comes in at a window or an outside door: published as such, else that of the clear opening.
    OpenableArea = "openable-area",

    // Space at fixtures.

    // Reach.

    // Walking distances.

    // Room graph.

    // Light and ventilation.

    // Alarms.

    // Modules.

    // Heated area.
}
