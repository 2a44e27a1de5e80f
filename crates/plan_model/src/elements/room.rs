use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

use crate::{Id, Point};

/// A room: the space that holds a point.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct Room {
    /// Name in messages and files.
    pub id: Id,
    /// Name on the drawing.
    pub name: String,
    /// What the room is used for; rules go by it.
    #[serde(rename = "use")]
    pub usage: RoomUse,
    /// A point inside; the room tag stands near it.
    pub at: Point,
}

/// What a room is used for.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize, JsonSchema)]
#[serde(rename_all = "kebab-case")]
pub enum RoomUse {
    /// Living or family room.
    Living,
    /// Dining room or corner.
    Dining,
    /// Kitchen.
    Kitchen,
    /// Sleeping room.
    Bedroom,
    /// Study or office.
    Study,
    /// Hobby or play room.
    Hobby,
    /// Room with a tub or shower.
    Bath,
    /// Room with a toilet, without tub or shower.
    Toilet,
    /// Hallway.
    Hall,
    /// Entry or rear entry.
    Entry,
    /// Clothes or coat closet.
    Closet,
    /// Linen closet.
    Linen,
    /// Pantry.
    Pantry,
    /// Laundry.
    Laundry,
    /// Utility room.
    Utility,
    /// Closet for furnace, water heater or other equipment.
    Mechanical,
    /// Heated store.
    Storage,
    /// Store that is not heated.
    UnheatedStore,
    /// Garage.
    Garage,
}

impl RoomUse {
    /// Whether the room counts as heated.
    #[must_use]
    pub const fn is_heated(self) -> bool {
        !matches!(self, Self::UnheatedStore | Self::Garage)
    }

    /// The word for the use, as in the plan file.
    #[must_use]
    pub const fn word(self) -> &'static str {
        match self {
            Self::Living => "living",
            Self::Dining => "dining",
            Self::Kitchen => "kitchen",
            Self::Bedroom => "bedroom",
            Self::Study => "study",
            Self::Hobby => "hobby",
            Self::Bath => "bath",
            Self::Toilet => "toilet",
            Self::Hall => "hall",
            Self::Entry => "entry",
            Self::Closet => "closet",
            Self::Linen => "linen",
            Self::Pantry => "pantry",
            Self::Laundry => "laundry",
            Self::Utility => "utility",
            Self::Mechanical => "mechanical",
            Self::Storage => "storage",
            Self::UnheatedStore => "unheated-store",
            Self::Garage => "garage",
        }
    }
}
