//! Smoke and carbon monoxide alarms.

use crate::{Derived, Measure};

/// Distances of alarms to what they must be near to or far from.
pub(crate) fn measures(_derived: &Derived) -> Vec<Measure> {
    Vec::new()
}
