use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

use crate::{Id, Length, Point};

/// A door or cased opening in a wall.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct Door {
    /// Name.
    pub id: Id,
    /// The door unit of the plan's catalogue.
    pub unit: Id,
    /// The wall in which the leaf hangs.
    pub wall: Id,
    /// The other wall of a doubled mate wall, for an opening through the mate line.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub through: Option<Id>,
    /// Distance along the wall from its `from` point to the near side of the unit.
    pub at: Length,
    /// The jamb that carries the hinges of a hinged door: the one nearer the wall's `from` point, or the other.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub hinge: Option<Hinge>,
    /// The side of the wall to which a hinged leaf swings, seen walking from the wall's `from` to its `to`.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub swing: Option<Swing>,
    /// How the door locks.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub lock: Option<Lock>,
}

/// The hinged jamb of a door.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(rename_all = "kebab-case")]
pub enum Hinge {
    /// The jamb nearer the wall's `from` point.
    Near,
    /// The jamb nearer the wall's `to` point.
    Far,
}

/// The side of the wall to which a leaf swings.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(rename_all = "kebab-case")]
pub enum Swing {
    /// To the left, walking from the wall's `from` to its `to`.
    Left,
    /// To the right.
    Right,
}

/// How a door locks.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(rename_all = "kebab-case")]
pub enum Lock {
    /// Locked from inside, opened from outside without a key.
    Privacy,
    /// Locked with a key.
    Keyed,
}

/// A window in a wall.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct Window {
    /// Name.
    pub id: Id,
    /// The window unit of the plan's catalogue.
    pub unit: Id,
    /// The host wall.
    pub wall: Id,
    /// Distance along the wall from its `from` point to the near side of the unit's frame.
    pub at: Length,
    /// Top of the unit's frame above the floor, where it is not the catalogue's.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub head: Option<Length>,
}

/// A line of no thickness between two rooms of one open space.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct OpenBoundary {
    /// Name.
    pub id: Id,
    /// One end, on a wall or on another open boundary.
    pub from: Point,
    /// The other end.
    pub to: Point,
}
