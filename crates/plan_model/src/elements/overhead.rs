use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

use crate::{Id, Length, Point};

/// A ceiling, for some rooms or for every room that no other ceiling names.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct Ceiling {
    /// Name.
    pub id: Id,
    /// The rooms it covers; left out, all that no other ceiling names.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub rooms: Vec<Id>,
    /// Finished floor to finished ceiling; for a slope, at its low edge.
    pub height: Length,
    /// How it rises, if it is not flat.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub slope: Option<Slope>,
}

/// A plane that rises from a low edge.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct Slope {
    /// Start of the low edge; the ceiling rises to the left of the line, walking from `from` to `to`.
    pub from: Point,
    /// End of the low edge.
    pub to: Point,
    /// Rise for each foot away from the low edge.
    pub rise_per_foot: Length,
    /// Where it becomes flat again, above the floor.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub highest: Option<Length>,
}

/// A lowered part of a ceiling.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct Soffit {
    /// Name.
    pub id: Id,
    /// One corner.
    pub from: Point,
    /// The opposite corner.
    pub to: Point,
    /// Finished floor to its underside.
    pub height: Length,
    /// Whether it is a beam rather than a furred-down ceiling.
    #[serde(default, skip_serializing_if = "std::ops::Not::not")]
    pub beam: bool,
}
