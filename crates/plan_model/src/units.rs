use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

/// The unit of every bare number in a plan file.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(rename_all = "lowercase")]
pub enum Units {
    /// International inches (25.4 mm exactly).
    #[default]
    In,
    /// Millimetres.
    Mm,
}

impl Units {
    /// Grid steps in one of these units.
    #[must_use]
    pub const fn steps(self) -> i64 {
        match self {
            Self::In => 16_256,
            Self::Mm => 640,
        }
    }

    /// The abbreviation printed after a figure.
    #[must_use]
    pub const fn abbreviation(self) -> &'static str {
        match self {
            Self::In => "in",
            Self::Mm => "mm",
        }
    }
}
