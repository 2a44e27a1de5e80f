//! Factory-built halves and the line where they join.

use crate::{Derived, Measure};

/// Outlines, shipping sizes, what straddles the mate line, clear spans and plumbing groups.
pub(crate) fn measures(_derived: &Derived) -> Vec<Measure> {
    Vec::new()
}
