//! Door and window units of the plan, and what is taken off a unit's size to estimate its clear opening.

use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

use crate::{ExactLength, Id, Length};

/// The units that the plan's doors and windows are made of.
#[derive(Clone, Debug, Default, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields, default)]
pub struct Catalogue {
    /// Door units and cased openings.
    pub doors: Vec<DoorUnit>,
    /// Window units.
    pub windows: Vec<WindowUnit>,
    /// How clear openings are estimated where the maker publishes none.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    pub deductions: Vec<Deduction>,
}

impl Catalogue {
    /// The door unit of this name.
    #[must_use]
    pub fn door(&self, id: &Id) -> Option<&DoorUnit> {
        self.doors.iter().find(|unit| unit.id == *id)
    }

    /// The window unit of this name.
    #[must_use]
    pub fn window(&self, id: &Id) -> Option<&WindowUnit> {
        self.windows.iter().find(|unit| unit.id == *id)
    }

    /// The estimate for an operation.
    #[must_use]
    pub fn deduction(&self, operation: Operation) -> Option<&Deduction> {
        self.deductions.iter().find(|deduction| deduction.operation == operation)
    }
}

/// A door unit or cased opening.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct DoorUnit {
    /// Name.
    pub id: Id,
    /// How it opens.
    pub operation: DoorOperation,
    /// Leaf width (all leaves together); for a cased opening, between jambs.
    pub width: Length,
    /// Leaf height; for a cased opening, floor to head.
    pub height: Length,
    /// Clear opening that the maker publishes.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub clear: Option<PublishedClear>,
    /// Width and height of the glass of all its leaves together; left out, it has none.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub glass: Option<PublishedClear>,
}

/// How a door opens.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(rename_all = "kebab-case")]
pub enum DoorOperation {
    /// One leaf on side hinges.
    Hinged,
    /// Panels that slide past each other.
    Sliding,
    /// A leaf that slides into the wall.
    Pocket,
    /// Leaves that fold.
    Bifold,
    /// An opening without a leaf.
    CasedOpening,
}

/// A window unit.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct WindowUnit {
    /// Name.
    pub id: Id,
    /// How it opens.
    pub operation: WindowOperation,
    /// Frame width.
    pub width: Length,
    /// Frame height.
    pub height: Length,
    /// Top of the frame above the floor, unless the window says otherwise.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub head: Option<Length>,
    /// Net clear opening that the maker publishes.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub clear: Option<PublishedClear>,
    /// Bottom of the frame up to the bottom of the clear opening.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub sill_above_frame: Option<ExactLength>,
    /// Width and height of the glass that the maker publishes.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub glass: Option<PublishedClear>,
    /// Width and height that the maker publishes as open to the air, where that is not the net clear opening: an awning
    /// window lets in air beside its sash as well.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub vent: Option<PublishedClear>,
}

/// How a window opens.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(rename_all = "kebab-case")]
pub enum WindowOperation {
    /// Lower sash slides up.
    SingleHung,
    /// Both sashes slide.
    DoubleHung,
    /// Sashes slide sideways.
    Slider,
    /// Hinged at the side.
    Casement,
    /// Hinged at the top.
    Awning,
    /// Hinged at the bottom.
    Hopper,
    /// Does not open.
    Fixed,
}

/// Width and height of an opening as the maker publishes them.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct PublishedClear {
    /// Across.
    pub width: ExactLength,
    /// Up.
    pub height: ExactLength,
}

/// How a unit of one operation leaves a clear opening: its size divided into parts, less what frame and sash take.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct Deduction {
    /// The operation it holds for.
    pub operation: Operation,
    /// Into how many parts the unit's width is divided (2 for a slider).
    #[serde(default = "one", skip_serializing_if = "is_one")]
    #[schemars(range(min = 1, max = 8))]
    pub width_parts: u8,
    /// Taken off that part.
    pub width_less: ExactLength,
    /// Into how many parts the unit's height is divided (2 for a hung window).
    #[serde(default = "one", skip_serializing_if = "is_one")]
    #[schemars(range(min = 1, max = 8))]
    pub height_parts: u8,
    /// Taken off that part.
    pub height_less: ExactLength,
    /// Bottom of the frame up to the bottom of the clear opening.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub sill_above_frame: Option<ExactLength>,
    /// Taken off the unit's whole width to estimate the width of its glass.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub glass_width_less: Option<ExactLength>,
    /// Taken off the unit's whole height to estimate the height of its glass.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub glass_height_less: Option<ExactLength>,
}

const fn one() -> u8 {
    1
}

#[expect(clippy::trivially_copy_pass_by_ref, reason = "serde passes fields by reference")]
const fn is_one(parts: &u8) -> bool {
    *parts == 1
}

/// The operation of a door or a window, as a deduction names it.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(rename_all = "kebab-case")]
#[expect(missing_docs, reason = "documented at DoorOperation and WindowOperation")]
pub enum Operation {
    Hinged,
    Sliding,
    Pocket,
    Bifold,
    SingleHung,
    DoubleHung,
    Slider,
    Casement,
    Awning,
    Hopper,
    Fixed,
}

impl DoorOperation {
    /// The name under which a deduction holds for it; a cased opening is clear between its jambs.
    #[must_use]
    pub const fn deduction(self) -> Option<Operation> {
        match self {
            Self::Hinged => Some(Operation::Hinged),
            Self::Sliding => Some(Operation::Sliding),
            Self::Pocket => Some(Operation::Pocket),
            Self::Bifold => Some(Operation::Bifold),
            Self::CasedOpening => None,
        }
    }
}

impl WindowOperation {
    /// Into how many sashes of one size, each behind the other when it is open, the width and the height are divided. No
    /// window leaves more than one of them clear.
    #[must_use]
    pub const fn sashes(self) -> (u8, u8) {
        match self {
            Self::SingleHung | Self::DoubleHung => (1, 2),
            Self::Slider => (2, 1),
            Self::Casement | Self::Awning | Self::Hopper | Self::Fixed => (1, 1),
        }
    }

    /// The name under which a deduction holds for it.
    #[must_use]
    pub const fn deduction(self) -> Operation {
        match self {
            Self::SingleHung => Operation::SingleHung,
            Self::DoubleHung => Operation::DoubleHung,
            Self::Slider => Operation::Slider,
            Self::Casement => Operation::Casement,
            Self::Awning => Operation::Awning,
            Self::Hopper => Operation::Hopper,
            Self::Fixed => Operation::Fixed,
        }
    }
}
