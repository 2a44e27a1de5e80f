//! The unit of bare numbers while one file is read or written.
//!
//! A length in a file means nothing without the file's `units`, which serde cannot hand down to a field. The unit is
//! therefore set for the time of one call on this thread, and nowhere else.

use std::cell::Cell;

use crate::Units;

thread_local! {
    static IN_FORCE: Cell<Units> = const { Cell::new(Units::In) };
}

/// Runs `work` with `units` in force, and puts back what was before.
pub(crate) fn scope<T>(units: Units, work: impl FnOnce() -> T) -> T {
    struct PutBack(Units);
    impl Drop for PutBack {
        fn drop(&mut self) {
            IN_FORCE.set(self.0);
        }
    }
    let _put_back = PutBack(IN_FORCE.replace(units));
    work()
}

/// The unit in force.
pub(crate) fn get() -> Units {
    IN_FORCE.get()
}
