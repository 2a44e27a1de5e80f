//! What a maker publishes of a unit, or else what the catalogue's deductions leave of its size.

use plan_model::{Deduction, Exact, ExactLength, Length};

use crate::{Basis, Figure};

pub(super) fn drawn(length: Length) -> Figure {
    Figure::Known { value: Exact::from(i128::from(length.steps())), basis: Basis::Stated }
}

/// Into how many parts a dimension is divided, and what is taken off one.
pub(super) type Part = fn(&Deduction) -> (u8, ExactLength);
pub(super) const WIDTH: Part = |deduction| (deduction.width_parts, deduction.width_less);
pub(super) const HEIGHT: Part = |deduction| (deduction.height_parts, deduction.height_less);

pub(super) fn clear(
    published: Option<ExactLength>,
    deduction: Option<&Deduction>,
    size: Length,
    part: Part,
    missing: impl FnOnce() -> String,
) -> Figure {
    if let Some(published) = published {
        return Figure::Known { value: published.steps(), basis: Basis::Stated };
    }
    let Some((parts, less)) = deduction.map(part) else { return Figure::Unknown(missing()) };
    let value = Exact::new(size.steps().into(), i128::from(parts.max(1))) - less.steps();
    Figure::Known { value: value.max(Exact::from(0)), basis: Basis::Estimated }
}
