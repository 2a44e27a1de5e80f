//! The list of all measures of a home: each under one name, with its amount and what shows it on the plan.
//!
//! Rules read the typed figures ([`RoomFigures`](crate::RoomFigures), [`DoorFigures`](crate::DoorFigures) and so on). What
//! lists, writes or draws measures reads this list, so that a measure is added in one place.

use std::collections::{HashMap, HashSet};
use std::fmt;

use plan_model::{Id, Length, Point};
use rustc_hash::{FxBuildHasher, FxHashSet};

use crate::{Area, Figure, Measured};

/// One figure of a home.
#[derive(Clone, Debug, PartialEq)]
pub struct Measure {
    /// What is measured.
    pub name: MeasureName,
    /// The elements it is measured of or between: a room, a fixture, a door, two doorways.
    pub of: Vec<Id>,
    /// Which part of them, where they have several for which it is told: no two measures have the same name, elements and
    /// part.
    pub part: Option<Part>,
    /// How much, or why that cannot be said.
    pub amount: Amount,
    /// What shows it on the plan.
    pub marks: Vec<Mark>,
}

/// Which of several parts of one thing is measured.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Part {
    /// A bowl of a vanity that has several, counted from one at its left end as seen from the front.
    Bowl(usize),
    /// Two bowls, each counted in the same way.
    Bowls([usize; 2]),
    /// A side of something that is used from all sides.
    Side(FixtureSide),
    /// What lies to the left of the mate line, walking from its `from` to its `to`, where its module does not tell.
    LeftOfMateLine,
    /// What lies to the right of it.
    RightOfMateLine,
    /// One of several that nothing else tells apart, counted from one in the order in which they are told.
    Number(usize),
}

impl fmt::Display for Part {
    /// For people: `bowl 1`, `left side`.
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Bowl(bowl) => write!(f, "bowl {bowl}"),
            Self::Bowls([one, other]) => write!(f, "bowls {one} and {other}"),
            Self::Side(side) => f.write_str(side.word()),
            Self::LeftOfMateLine => f.write_str("left of the mate line"),
            Self::RightOfMateLine => f.write_str("right of the mate line"),
            Self::Number(number) => write!(f, "no. {number}"),
        }
    }
}

/// A side of a fixture, as seen from its front.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum FixtureSide {
    /// Left of somebody who looks at its front.
    Left,
    /// The side that it faces to.
    Front,
    /// Right of somebody who looks at its front.
    Right,
    /// The side behind the front.
    Back,
}

impl FixtureSide {
    /// Counter-clockwise from the back left, as the corners of an [`outline`](crate::outline).
    pub(crate) const ALL: [Self; 4] = [Self::Left, Self::Front, Self::Right, Self::Back];

    const fn word(self) -> &'static str {
        match self {
            Self::Left => "left side",
            Self::Front => "front side",
            Self::Right => "right side",
            Self::Back => "back side",
        }
    }
}

/// What a measure is told by.
type Told<'a> = (MeasureName, &'a [Id], Option<Part>);

/// Numbers those that would otherwise be told under the same name, of the same elements and part.
pub(crate) fn tell_apart(measures: &mut [Measure]) {
    fn told(measure: &Measure) -> Told<'_> {
        (measure.name, &measure.of, measure.part)
    }
    // Asked of every home, and in nearly all of them in vain: the hash is one that takes little.
    let mut seen = FxHashSet::with_capacity_and_hasher(measures.len(), FxBuildHasher);
    let repeated: HashSet<Told<'_>> = measures.iter().map(told).filter(|told| !seen.insert(*told)).collect();
    if repeated.is_empty() {
        return;
    }
    let mut numbers: HashMap<Told<'_>, usize> = HashMap::new();
    let numbered = measures.iter().enumerate().filter(|(_, measure)| repeated.contains(&told(measure)));
    let numbered: Vec<(usize, usize)> = numbered
        .map(|(at, measure)| {
            let number = numbers.entry(told(measure)).or_default();
            *number += 1;
            (at, *number)
        })
        .collect();
    for (at, number) in numbered {
        measures[at].part = Some(Part::Number(number));
    }
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

impl Amount {
    /// Why it cannot be said, as a clause, if it cannot.
    #[must_use]
    pub fn unknown_because(&self) -> Option<&str> {
        match self {
            Self::Unknown(why)
            | Self::OpeningLength(Figure::Unknown(why))
            | Self::OpeningArea(Figure::Unknown(why)) => Some(why),
            _ => None,
        }
    }
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

            /// The name in reports: `toilet-front`.
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
    /// Area of the largest part of a space in which a square of 7 ft can slide from one place to any other, in the space's
    /// direction; floor under a slope lower than 5 ft, or under a furred-down ceiling lower than 7 ft, is left out first.
    QualifyingArea = "qualifying-area",
    /// Least horizontal dimension of a space: the largest side of a square at which the qualifying area is still 70 sq ft,
    /// with the same floor left out; unknown where the floor that counts is smaller than that.
    LeastDimension = "least-dimension",
    /// Widest disc that can be led between two doorways of a room.
    PassageWidth = "passage-width",

    // Ceilings.

    /// Finished floor to the lowest part of the ceiling over a room, lowered parts and beams included.
    LowestCeiling = "lowest-ceiling",
    /// Floor area of a room under a ceiling of 7 ft or more; told where the ceiling is sloped or has lowered parts.
    FloorAtSevenFeet = "floor-at-7-ft",
    /// Floor area of a room under a ceiling of 5 ft or more; told where the ceiling is sloped or has lowered parts.
    FloorAtFiveFeet = "floor-at-5-ft",

    // Openings.

    /// Clear width of a door with its leaf as far open as it goes, square across the opening.
    DoorClearWidth = "door-clear-width",
    /// Clear height of a door, never more than the ceiling, soffit or beam over it.
    DoorClearHeight = "door-clear-height",
    /// How far a leaf opens that a wall, column or fixture stops short of 90 degrees, from closed, rounded down; named
    /// with what stops it.
    LeafAngle = "leaf-angle",
    /// Whether the leaves of two doors sweep the same ground; an advisory, told where it is so.
    SweepCrossing = "sweep-crossing",
    /// Whether the leaf of a door, the first named, sweeps ground within 18 in before another one; an advisory, told where
    /// it is so.
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

    // Landings.

    /// Length of a landing along the wall of its door.
    LandingWidth = "landing-width",
    /// From the outside face of a door's wall to the far edge of its landing; nothing where the landing does not begin there.
    LandingDepth = "landing-depth",
    /// Top of a door's threshold down to its landing, as the plan states it.
    BelowThreshold = "below-threshold",

    // Space at fixtures.

    /// From the centre line of a toilet's bowl, square to it, to the nearest wall or fixture on the left as seen from the
    /// front, along the toilet's depth.
    ToiletLeft = "toilet-left",
    /// From the centre line of a toilet's bowl, square to it, to the nearest wall or fixture on the right as seen from
    /// the front, along the toilet's depth.
    ToiletRight = "toilet-right",
    /// Free depth from the front of a toilet, over a strip as wide as the toilet; doors count as closed.
    ToiletFront = "toilet-front",
    /// From the centre of a vanity's bowl to the nearest wall or fixture other than a counter on the left as seen from
    /// the front, along the vanity's depth; one for each bowl.
    LavatoryLeft = "lavatory-left",
    /// From the centre of a vanity's bowl to the nearest wall or fixture other than a counter on the right as seen from
    /// the front, along the vanity's depth; one for each bowl.
    LavatoryRight = "lavatory-right",
    /// Free depth from the front of a vanity, over a strip as wide as a bowl, which is taken to be 20 in wide (common
    /// practice) or what fits into the vanity; one for each bowl.
    LavatoryFront = "lavatory-front",
    /// From centre to centre of two bowls, of toilets or lavatories, that face the same way beside each other.
    BowlsApart = "bowls-apart",
    /// Depth of the deepest free rectangle at least 24 in wide that stands against the front of a tub.
    TubFront = "tub-front",
    /// Shorter side of the finished inside of a shower; the largest disc that fits is as wide.
    ShowerLeastSide = "shower-least-side",
    /// Area of the finished inside of a shower.
    ShowerArea = "shower-area",
    /// Clear finished width of a shower's entry, as stated.
    ShowerEntry = "shower-entry",
    /// Free depth before a shower, over a strip as wide as its entry in the middle of its front.
    ShowerFront = "shower-front",
    /// Free depth before an appliance or piece of equipment, over a strip as wide as its front.
    ApplianceFront = "appliance-front",
    /// Free depth on the left of a bed as seen from its foot, over its length; furniture does not count.
    BedLeft = "bed-left",
    /// Free depth on the right of a bed as seen from its foot, over its length; furniture does not count.
    BedRight = "bed-right",
    /// Free depth from the foot of a bed over its width; furniture does not count.
    BedFoot = "bed-foot",
    /// Distance between two fronts of a kitchen that face each other over 12 in or more with nothing between.
    WorkAisle = "work-aisle",
    /// Distance from a front of a kitchen to a wall of the kitchen that faces it over 12 in or more with nothing between.
    Walkway = "walkway",
    /// Straight distance between the middles of two fronts of the work triangle of a kitchen: sink, range and refrigerator;
    /// named with the two.
    WorkTriangleLeg = "work-triangle-leg",
    /// How near to the front of a fixture the leaf of a door comes that passes over the free floor before it.
    FrontToSweep = "front-to-sweep",
    /// From a doorway of a closet, on the closet's face of the wall, to the back wall, square to the doorway.
    ClosetDepth = "closet-depth",

    // Reach.

    /// Diameter of the largest disc that lies on the floor of a space and on nothing that stands there.
    LargestDisc = "largest-disc",
    /// Whether a turning circle of 60 in has a place on the free floor of a room.
    TurningCircle = "turning-circle",
    /// Whether a clear floor space of 30 x 48 in, in the room's direction and either way round, has a place on its free floor.
    ClearFloor = "clear-floor",
    /// Widest body, a disc, that can be led from outdoors to a room: through the clear widths of doors and over free floors.
    WayInWidth = "way-in-width",

    // Walking distances.

    /// Length of the shortest way over free floor from the middle of a room's doorway to the middle of the nearest
    /// exterior door, around corners and through no gap or stopped leaf that leaves under 18 in; unknown where there is no way.
    WayOut = "way-out",
    /// Straight distance between the middles of two exterior doors, whatever stands between them.
    ExitSeparation = "exit-separation",
    /// Length of the shortest way indoors from the middle of one exterior door to the middle of another; unknown where there
    /// is no way.
    ExitWalk = "exit-walk",

    // Room graph.

    /// Whether there is a way from outdoors to a room, through whatever rooms.
    ReachedFromOutdoors = "reached-from-outdoors",
    /// Doorways on the way from outdoors to a room that has the fewest, and the last of them or the open boundary by which
    /// the room is entered; open boundaries are not counted.
    DoorwaysFromOutdoors = "doorways-from-outdoors",
    /// Whether all ways out of a bath or toilet room lead, through closets and other baths at most, into one bedroom.
    PrivateToBedroom = "private-to-bedroom",
    /// How many bedrooms have doors that open into the same named room; named are the bedrooms, then those rooms.
    BedroomsInSleepingArea = "bedrooms-in-sleeping-area",

    // Light and ventilation.

    /// Area of glass between an open space and outdoors, of all its windows together.
    GlazedAreaOfSpace = "glazed-area-of-space",
    /// Area of a space's windows that can be opened to outdoors.
    OpenableAreaOfSpace = "openable-area-of-space",
    /// Width times height of the cased openings through which a space may borrow light and air from another.
    BorrowedOpeningArea = "borrowed-opening-area",
    /// Length along which a space that may borrow light lies against the other across a wall or doubled mate wall.
    CommonWallLength = "common-wall-length",
    /// That length times the ceiling height of the room that borrows, openings included.
    CommonWallArea = "common-wall-area",

    // Alarms.

    /// From the centre of an alarm straight to the nearest point of the nearest door or opening of a bath, whatever stands
    /// between; and to the nearest in the open, if that is another.
    AlarmToBathDoor = "alarm-to-bath-door",
    /// From the centre of an alarm straight to the nearest point of the nearest range, whatever stands between; and to the
    /// nearest in the open, if that is another.
    AlarmToCooking = "alarm-to-cooking",
    /// From a bedroom's doorway straight to the nearest smoke alarm in the room into which it opens, or a room open to it.
    BedroomDoorToSmokeAlarm = "bedroom-door-to-smoke-alarm",
    /// From a bedroom's doorway to the nearest carbon monoxide alarm in the same way.
    BedroomDoorToCarbonMonoxideAlarm = "bedroom-door-to-carbon-monoxide-alarm",

    // Modules.

    /// Width of a module's outline in the plan file: its shorter side, across the road.
    ModuleBodyWidth = "module-body-width",
    /// Length of a module's outline in the plan file: its longer side, along the road.
    ModuleBodyLength = "module-body-length",
    /// Width of a module on the road: its body, with eaves in place in transit and porches built in the factory.
    ModuleShippingWidth = "module-shipping-width",
    /// Length of a module on the road, with the same.
    ModuleShippingLength = "module-shipping-length",
    /// Width of a module between the outer faces of its walls as drawn, cut off at the mate line.
    ModuleDrawnWidth = "module-drawn-width",
    /// Length of a module between the outer faces of its walls as drawn, cut off at the mate line.
    ModuleDrawnLength = "module-drawn-length",
    /// Ground of a thing on one side of the mate line; told once for each side of what stands on both.
    StraddlesMateLine = "straddles-mate-line",
    /// Whole width of an opening through the mate line: between its walls, or the unit of a door in them.
    MateLineOpening = "mate-line-opening",
    /// Stretch of an opening through the mate line between two supports: posts on the line, or the walls beside it.
    MateLineClearSpan = "mate-line-clear-span",
    /// Plumbing groups of a module: how many walls have its plumbing fixtures against them, and fixtures that stand free.
    PlumbingGroups = "plumbing-groups",
    /// Plumbing fixtures of one module against one wall, on either side of it; or one that stands free.
    PlumbingGroup = "plumbing-group",

    // Heated area.

    /// Heated area of the home, to the exterior finished face; its grounds are the parts of its arithmetic.
    HeatedArea = "heated-area",
    /// What of the heated area lies in a module's outline; its grounds are the parts of its arithmetic.
    HeatedAreaOfModule = "heated-area-of-module",
    /// What of the heated area lies in no module's outline; left out where there is none.
    HeatedAreaOutsideModules = "heated-area-outside-modules",
}
