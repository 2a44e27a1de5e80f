//! Light and ventilation of rooms.

use crate::{Derived, Measure};

/// Glazed and openable area of every space, borrowed or its own.
pub(crate) fn measures(_derived: &Derived) -> Vec<Measure> {
    Vec::new()
}
