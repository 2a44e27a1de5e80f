//! Free space at fixtures, appliances and beds.

use crate::{Derived, Measure};

/// Clearances of every fixture, work aisles, space beside beds.
pub(crate) fn measures(_derived: &Derived) -> Vec<Measure> {
    Vec::new()
}
