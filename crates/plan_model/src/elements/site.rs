use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

use crate::{Id, Length, Point};

/// A level place outside a door.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct Landing {
    /// Name.
    pub id: Id,
    /// The door it belongs to.
    pub door: Id,
    /// One corner.
    pub from: Point,
    /// The opposite corner.
    pub to: Point,
    /// Top of the door's threshold down to the landing.
    pub below_threshold: Length,
}

/// A porch or deck; not heated.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct Porch {
    /// Name in messages and files.
    pub id: Id,
    /// Name on the drawing.
    pub name: String,
    /// One corner.
    pub from: Point,
    /// The opposite corner.
    pub to: Point,
    /// Whether it has a roof.
    pub roofed: bool,
    /// Whether it is built on the lot rather than in the factory.
    pub site_built: bool,
}
