use std::borrow::Borrow;
use std::fmt;
use std::sync::Arc;

use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

/// The stable name of one thing in a plan, unique in the whole file (alternates of a choice included).
///
/// Cheap to clone, so that derived figures can say what they belong to.
#[derive(Clone, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize, JsonSchema)]
#[serde(transparent)]
pub struct Id(#[schemars(with = "String", regex(pattern = r"^[a-z0-9][a-z0-9.-]*$"))] Arc<str>);

impl Id {
    /// The name as text.
    #[must_use]
    pub fn as_str(&self) -> &str {
        &self.0
    }

    /// Whether the text is made of small letters, digits, hyphens and points, and starts with a letter or digit.
    #[must_use]
    pub fn is_well_formed(&self) -> bool {
        let plain = |c: char| c.is_ascii_lowercase() || c.is_ascii_digit();
        self.0.starts_with(plain) && self.0.chars().all(|c| plain(c) || c == '-' || c == '.')
    }
}

impl From<&str> for Id {
    fn from(text: &str) -> Self {
        Self(text.into())
    }
}

impl From<String> for Id {
    fn from(text: String) -> Self {
        Self(text.into())
    }
}

impl Borrow<str> for Id {
    fn borrow(&self) -> &str {
        &self.0
    }
}

impl fmt::Display for Id {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(&self.0)
    }
}

impl fmt::Debug for Id {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        fmt::Debug::fmt(&self.0, f)
    }
}
