use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

use crate::{Id, Length, Point};

/// A straight wall: a line swept by a thickness.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct Wall {
    /// Name.
    pub id: Id,
    /// What the wall is to the house.
    pub kind: WallKind,
    /// Start of the line that places the wall.
    pub from: Point,
    /// End of the line that places the wall.
    pub to: Point,
    /// Between finished faces.
    pub thickness: Length,
    /// Which line of the wall `from` and `to` give.
    #[serde(default, skip_serializing_if = "PlacedBy::is_centre")]
    pub placed_by: PlacedBy,
    /// Whether the wall may be dragged in the window.
    #[serde(default, skip_serializing_if = "std::ops::Not::not")]
    pub movable: bool,
}

/// What a wall is to the house.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(rename_all = "kebab-case")]
pub enum WallKind {
    /// Between the house and outdoors.
    Exterior,
    /// One module's wall along the mate line.
    Mate,
    /// Inside a module.
    Partition,
}

/// The line of a wall that its two points give; left and right as seen walking from `from` to `to`.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(rename_all = "kebab-case")]
pub enum PlacedBy {
    /// The middle of the thickness.
    #[default]
    Centre,
    /// The left finished face; the wall lies to the right of the line.
    LeftFace,
    /// The right finished face; the wall lies to the left of the line.
    RightFace,
}

impl PlacedBy {
    #[expect(clippy::trivially_copy_pass_by_ref, reason = "serde passes fields by reference")]
    fn is_centre(&self) -> bool {
        *self == Self::Centre
    }
}

/// A solid that stands in a room and is no wall.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct Column {
    /// Name.
    pub id: Id,
    /// A post, or a boxed-in chase.
    pub kind: ColumnKind,
    /// One corner.
    pub from: Point,
    /// The opposite corner.
    pub to: Point,
}

/// What a column is.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(rename_all = "kebab-case")]
pub enum ColumnKind {
    /// A structural post.
    Column,
    /// A boxed-in run of pipes or ducts.
    Chase,
}
