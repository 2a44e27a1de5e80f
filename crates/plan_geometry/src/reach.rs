//! What can be placed on a floor, or led over it.

use crate::{Derived, Measure};

/// Turning circles, clear floor spaces and the widest body that gets in.
pub(crate) fn measures(_derived: &Derived) -> Vec<Measure> {
    Vec::new()
}
