use std::fmt;

use plan_model::{Id, Length, Point};

use crate::kernel::intersection;
use crate::rooms::middle;

/// Something that kept a figure from being derived, or that cannot stand in space, with its place.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Problem {
    /// What is wrong.
    pub kind: ProblemKind,
    /// Where on the plan.
    pub at: Point,
    /// The ground that both things need, where two of them need the same; else empty.
    pub outline: Vec<Point>,
}

impl Problem {
    /// A problem at a point.
    pub(crate) const fn at(kind: ProblemKind, at: Point) -> Self {
        Self { kind, at, outline: Vec::new() }
    }

    /// Two things on the same ground: the part that two convex shapes share.
    pub(crate) fn shared(kind: ProblemKind, one: &[Point; 4], other: &[Point; 4]) -> Self {
        let outline = intersection(one, other);
        let at = outline.iter().skip(outline.len() / 2).zip(&outline).map(|(a, b)| middle(*a, *b)).next();
        Self { kind, at: at.unwrap_or(one[0]), outline }
    }
}

/// What is wrong with a home as drawn.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum ProblemKind {
    /// The walls around a room's point do not close.
    RoomNotClosed {
        /// The room.
        room: Id,
    },
    /// A room's point stands in a wall or column.
    AnchorInWall {
        /// The room.
        room: Id,
    },
    /// Two rooms' points stand in one space that nothing divides.
    TwoAnchors {
        /// The room whose figures are kept.
        first: Id,
        /// The other room.
        second: Id,
    },
    /// A closed space holds no room's point.
    SpaceWithoutRoom,
    /// An open boundary that does not reach across its space and so divides nothing.
    LooseBoundary {
        /// The boundary.
        boundary: Id,
    },
    /// The wall of an opening is not in this home.
    NoHost {
        /// The door or window.
        opening: Id,
        /// The wall that it names.
        wall: Id,
    },
    /// An opening reaches past the end of its wall.
    OpeningLeavesWall {
        /// The door or window.
        opening: Id,
        /// The wall.
        wall: Id,
    },
    /// The second wall of an opening through the mate line does not stand along the whole of it.
    NotThrough {
        /// The door.
        opening: Id,
        /// The wall that it names as the other one.
        wall: Id,
    },
    /// Right before an opening stands a wall: a door or window in one half of a doubled wall, for instance.
    OpensIntoWall {
        /// The door or window.
        opening: Id,
        /// The wall before it.
        wall: Id,
    },
    /// Two ceilings claim the same room, or the whole home.
    TwoCeilings {
        /// The ceiling that is taken.
        first: Id,
        /// The other.
        second: Id,
    },
    /// Two openings share a part of a wall.
    OpeningsOverlap {
        /// One door or window.
        first: Id,
        /// The other.
        second: Id,
    },
    /// A wall runs into an opening.
    WallInOpening {
        /// The wall.
        wall: Id,
        /// The door or window.
        opening: Id,
    },
    /// A column or chase stands in an opening or right before it.
    ColumnAtOpening {
        /// The column.
        column: Id,
        /// The door or window.
        opening: Id,
    },
    /// A fixture or column shares floor with a wall.
    InWall {
        /// The fixture or column.
        thing: Id,
        /// The wall.
        wall: Id,
    },
    /// Two fixtures or columns share floor.
    Overlap {
        /// One of them.
        first: Id,
        /// The other.
        second: Id,
    },
    /// Two walls nearly meet.
    Gap {
        /// The wall that ends short.
        wall: Id,
        /// The wall it nearly meets.
        other: Id,
        /// The distance between them: ahead of the end, or where nothing is ahead of it, the least in any direction.
        gap: Length,
    },
}

impl ProblemKind {
    /// Whether the home cannot be built as drawn: a conflict in space, which makes a selection impossible.
    ///
    /// A room that does not close and two walls that nearly meet are faults of the drawing, not conflicts.
    #[must_use]
    pub const fn is_conflict(&self) -> bool {
        !matches!(self, Self::RoomNotClosed { .. } | Self::Gap { .. } | Self::LooseBoundary { .. })
    }

    /// The elements concerned.
    #[must_use]
    pub fn ids(&self) -> Vec<&Id> {
        match self {
            Self::RoomNotClosed { room } | Self::AnchorInWall { room } => vec![room],
            Self::TwoAnchors { first, second }
            | Self::OpeningsOverlap { first, second }
            | Self::TwoCeilings { first, second }
            | Self::Overlap { first, second } => vec![first, second],
            Self::SpaceWithoutRoom => vec![],
            Self::LooseBoundary { boundary } => vec![boundary],
            Self::NoHost { opening, wall }
            | Self::OpeningLeavesWall { opening, wall }
            | Self::NotThrough { opening, wall }
            | Self::OpensIntoWall { opening, wall }
            | Self::WallInOpening { wall, opening } => vec![opening, wall],
            Self::ColumnAtOpening { column, opening } => vec![column, opening],
            Self::InWall { thing, wall } => vec![thing, wall],
            Self::Gap { wall, other, .. } => vec![wall, other],
        }
    }
}

impl fmt::Display for ProblemKind {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::RoomNotClosed { room } => write!(f, "the walls around the point of room \"{room}\" do not close"),
            Self::AnchorInWall { room } => {
                write!(f, "the point of room \"{room}\" stands in a wall or column; expected it inside a space")
            }
            Self::TwoAnchors { first, second } => write!(
                f,
                "the points of rooms \"{first}\" and \"{second}\" stand in one space; expected a wall or an open boundary between them"
            ),
            Self::SpaceWithoutRoom => f.write_str("a closed space holds no room's point; expected one"),
            Self::LooseBoundary { boundary } => {
                write!(
                    f,
                    "the open boundary \"{boundary}\" divides nothing; expected both ends on walls or other boundaries"
                )
            }
            Self::NoHost { opening, wall } => {
                write!(f, "the wall \"{wall}\" of opening \"{opening}\" is not in this home")
            }
            Self::OpeningLeavesWall { opening, wall } => {
                write!(f, "the opening \"{opening}\" reaches past the end of its wall \"{wall}\"")
            }
            Self::NotThrough { opening, wall } => write!(
                f,
                "the opening \"{opening}\" does not lead through wall \"{wall}\"; expected that wall beside its own, along the whole opening"
            ),
            Self::OpensIntoWall { opening, wall } => {
                write!(f, "the opening \"{opening}\" opens into the wall \"{wall}\"")
            }
            Self::TwoCeilings { first, second } => {
                write!(f, "the ceilings \"{first}\" and \"{second}\" claim the same rooms; expected one")
            }
            Self::OpeningsOverlap { first, second } => {
                write!(f, "the openings \"{first}\" and \"{second}\" share a part of a wall")
            }
            Self::WallInOpening { wall, opening } => {
                write!(f, "the wall \"{wall}\" runs into the opening \"{opening}\"")
            }
            Self::ColumnAtOpening { column, opening } => {
                write!(f, "\"{column}\" stands in the way of the opening \"{opening}\"")
            }
            Self::InWall { thing, wall } => write!(f, "\"{thing}\" stands in wall \"{wall}\""),
            Self::Overlap { first, second } => write!(f, "\"{first}\" and \"{second}\" stand on the same floor"),
            Self::Gap { wall, other, gap } => {
                write!(f, "the wall \"{wall}\" ends {} short of wall \"{other}\"", gap.some_feet_inches())
            }
        }
    }
}

impl fmt::Display for Problem {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(
            f,
            "{}, at {} along the house and {} from the front",
            self.kind,
            self.at.x.feet_inches(),
            self.at.y.feet_inches()
        )
    }
}
