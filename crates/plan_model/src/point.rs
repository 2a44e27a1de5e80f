use std::borrow::Cow;
use std::ops::{Add, Sub};

use schemars::{JsonSchema, Schema, SchemaGenerator, json_schema};
use serde::{Deserialize, Deserializer, Serialize, Serializer};

use crate::Length;

/// A place on the plan: x along the house from the left, y from the front wall's outer face towards the back.
/// Written `[x, y]`. The same type serves for differences of places.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize, JsonSchema)]
#[serde(from = "(Length, Length)", into = "(Length, Length)")]
#[schemars(with = "(Length, Length)")]
pub struct Point {
    /// To the right on the drawing.
    pub x: Length,
    /// Up on the drawing, away from the front.
    pub y: Length,
}

impl Point {
    /// A point from its coordinates.
    #[must_use]
    pub const fn new(x: Length, y: Length) -> Self {
        Self { x, y }
    }

    /// A point from whole inches.
    #[must_use]
    pub const fn inches(x: i64, y: i64) -> Self {
        Self { x: Length::inches(x), y: Length::inches(y) }
    }
}

impl From<(Length, Length)> for Point {
    fn from((x, y): (Length, Length)) -> Self {
        Self { x, y }
    }
}

impl From<Point> for (Length, Length) {
    fn from(point: Point) -> Self {
        (point.x, point.y)
    }
}

impl Add for Point {
    type Output = Self;
    fn add(self, other: Self) -> Self {
        Self { x: self.x + other.x, y: self.y + other.y }
    }
}

impl Sub for Point {
    type Output = Self;
    fn sub(self, other: Self) -> Self {
        Self { x: self.x - other.x, y: self.y - other.y }
    }
}

/// The way that the front of a fixture looks on the drawing: `up`, `down`, `left`, `right`, or any direction `[dx, dy]`
/// in small whole numbers.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Facing {
    dx: i32,
    dy: i32,
}

impl Facing {
    /// Towards the back of the house.
    pub const UP: Self = Self { dx: 0, dy: 1 };
    /// Towards the front of the house.
    pub const DOWN: Self = Self { dx: 0, dy: -1 };
    /// Towards the left end.
    pub const LEFT: Self = Self { dx: -1, dy: 0 };
    /// Towards the right end.
    pub const RIGHT: Self = Self { dx: 1, dy: 0 };

    const WORDS: [(&'static str, Self); 4] =
        [("up", Self::UP), ("down", Self::DOWN), ("left", Self::LEFT), ("right", Self::RIGHT)];
    const LARGEST: i32 = 1000;

    /// A direction that is not zero and whose parts are at most 1000.
    #[must_use]
    pub fn new(dx: i32, dy: i32) -> Option<Self> {
        let fits = |part: i32| (-Self::LARGEST..=Self::LARGEST).contains(&part);
        ((dx != 0 || dy != 0) && fits(dx) && fits(dy)).then_some(Self { dx, dy })
    }

    pub(crate) const fn from_parts(dx: i32, dy: i32) -> Self {
        Self { dx, dy }
    }

    /// The direction as whole numbers, not of unit length.
    #[must_use]
    pub const fn direction(self) -> (i32, i32) {
        (self.dx, self.dy)
    }
}

#[derive(Serialize, Deserialize)]
#[serde(
    untagged,
    expecting = "expected \"up\", \"down\", \"left\", \"right\" or a direction [dx, dy] in whole numbers"
)]
enum AuthoredFacing {
    Word(Cow<'static, str>),
    Direction(i32, i32),
}

impl Serialize for Facing {
    fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        match Self::WORDS.iter().find(|(_, facing)| facing == self) {
            Some((word, _)) => AuthoredFacing::Word((*word).into()),
            None => AuthoredFacing::Direction(self.dx, self.dy),
        }
        .serialize(serializer)
    }
}

impl<'de> Deserialize<'de> for Facing {
    fn deserialize<D: Deserializer<'de>>(deserializer: D) -> Result<Self, D::Error> {
        let refuse = || {
            serde::de::Error::custom(
                "expected \"up\", \"down\", \"left\", \"right\" or a direction [dx, dy] of whole numbers from -1000 to 1000, not both zero",
            )
        };
        match AuthoredFacing::deserialize(deserializer)? {
            AuthoredFacing::Word(word) => {
                Self::WORDS.iter().find(|(name, _)| *name == word).map(|(_, facing)| *facing).ok_or_else(refuse)
            }
            AuthoredFacing::Direction(dx, dy) => Self::new(dx, dy).ok_or_else(refuse),
        }
    }
}

impl JsonSchema for Facing {
    fn schema_name() -> Cow<'static, str> {
        "Facing".into()
    }

    fn json_schema(_: &mut SchemaGenerator) -> Schema {
        json_schema!({
            "description": "The way the front of the thing looks on the drawing.",
            "oneOf": [
                { "enum": ["up", "down", "left", "right"] },
                {
                    "type": "array",
                    "prefixItems": [{ "type": "integer" }, { "type": "integer" }],
                    "minItems": 2,
                    "maxItems": 2,
                    "items": { "type": "integer", "minimum": -1000, "maximum": 1000 }
                }
            ]
        })
    }
}
