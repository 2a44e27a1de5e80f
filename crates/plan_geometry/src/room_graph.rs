//! Which rooms lead into which.

use crate::{Derived, Measure};

/// Ways in, sleeping areas and what each room is entered from.
pub(crate) fn measures(_derived: &Derived) -> Vec<Measure> {
    Vec::new()
}
