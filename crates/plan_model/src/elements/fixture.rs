use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

use crate::{Facing, Id, Length, Point};

/// A plumbing fixture, appliance, cabinet or piece of equipment: a rectangle with a back and a front.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct Fixture {
    /// Name.
    pub id: Id,
    /// What it is.
    pub kind: FixtureKind,
    /// The middle of its back edge.
    pub at: Point,
    /// The way its front looks.
    pub faces: Facing,
    /// Along the back.
    pub width: Length,
    /// From back to front.
    pub depth: Length,
    /// Clear finished width of a shower's entry, in the middle of its front.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub entry: Option<Length>,
    /// Centres of a vanity's or counter's bowls, from its left end as seen from the front; one in the middle if left out.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub bowls: Vec<Length>,
    /// The end of a tub or shower at which its drain and faucet are, as seen from its front.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub drain: Option<End>,
    /// What an appliance burns.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub fuel: Option<Fuel>,
    /// Whether a fuel appliance takes its air from outdoors (direct vent or sealed).
    #[serde(default, skip_serializing_if = "std::ops::Not::not")]
    pub outdoor_air: bool,
}

/// What a fixture is.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize, JsonSchema)]
#[serde(rename_all = "kebab-case")]
pub enum FixtureKind {
    /// Toilet with tank, back to the wall.
    Toilet,
    /// Vanity cabinet with one or more lavatory bowls.
    Vanity,
    /// Bathtub.
    Tub,
    /// Shower; sizes are finished inside sizes.
    Shower,
    /// Base cabinet with a kitchen or laundry sink.
    Sink,
    /// Base cabinet under a counter.
    BaseCabinet,
    /// Wall-hung cabinet; not on the floor.
    WallCabinet,
    /// Floor-to-ceiling cabinet.
    TallCabinet,
    /// Free-standing counter.
    Island,
    /// Cooking range.
    Range,
    /// Refrigerator.
    Refrigerator,
    /// Dishwasher, under a counter.
    Dishwasher,
    /// Clothes washer.
    Washer,
    /// Clothes dryer.
    Dryer,
    /// Washer and dryer, one on the other.
    StackedLaundry,
    /// Water heater.
    WaterHeater,
    /// Furnace or air handler.
    Furnace,
    /// Electrical panel.
    ElectricalPanel,
    /// Hanging rod with a shelf above.
    RodAndShelf,
    /// Shelves from floor to ceiling.
    Shelves,
    /// Fireplace or stove.
    Fireplace,
}

impl FixtureKind {
    /// Whether it stands in the way of feet and doors: everything but what hangs on a wall or from a rod.
    #[must_use]
    pub const fn is_obstruction(self) -> bool {
        !matches!(self, Self::WallCabinet | Self::RodAndShelf | Self::ElectricalPanel)
    }

    /// The word for the kind, as people say it.
    #[must_use]
    pub const fn word(self) -> &'static str {
        match self {
            Self::Toilet => "toilet",
            Self::Vanity => "vanity",
            Self::Tub => "tub",
            Self::Shower => "shower",
            Self::Sink => "sink",
            Self::BaseCabinet => "base cabinet",
            Self::WallCabinet => "wall cabinet",
            Self::TallCabinet => "tall cabinet",
            Self::Island => "island",
            Self::Range => "range",
            Self::Refrigerator => "refrigerator",
            Self::Dishwasher => "dishwasher",
            Self::Washer => "washer",
            Self::Dryer => "dryer",
            Self::StackedLaundry => "stacked laundry",
            Self::WaterHeater => "water heater",
            Self::Furnace => "furnace",
            Self::ElectricalPanel => "electrical panel",
            Self::RodAndShelf => "rod and shelf",
            Self::Shelves => "shelves",
            Self::Fireplace => "fireplace",
        }
    }
}

/// An end of a fixture, as seen from its front.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(rename_all = "kebab-case")]
pub enum End {
    /// To the left.
    Left,
    /// To the right.
    Right,
}

/// What an appliance burns.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(rename_all = "kebab-case")]
pub enum Fuel {
    /// Natural gas or propane.
    Gas,
    /// Fuel oil.
    Oil,
    /// Wood or pellets.
    Wood,
}

/// A piece of furniture, drawn to show that it fits.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct Furniture {
    /// Name.
    pub id: Id,
    /// What it is.
    pub kind: FurnitureKind,
    /// The middle of its back edge (a bed's head).
    pub at: Point,
    /// The way its front looks (a bed's foot).
    pub faces: Facing,
    /// Along the back.
    pub width: Length,
    /// From back to front.
    pub depth: Length,
}

/// What a piece of furniture is.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(rename_all = "kebab-case")]
pub enum FurnitureKind {
    /// Bed with pillows at its head.
    Bed,
    /// Sofa or loveseat.
    Sofa,
    /// Armchair.
    Armchair,
    /// Chair or stool.
    Chair,
    /// Table.
    Table,
    /// Desk.
    Desk,
    /// Chest, dresser, night stand or buffet.
    Chest,
    /// Rug.
    Rug,
}
