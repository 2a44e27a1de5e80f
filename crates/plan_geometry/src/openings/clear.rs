//! What a maker publishes of a unit, or else what the catalogue's deductions leave of its size.

use plan_model::{Deduction, Exact, ExactLength, Id, Length, PublishedClear};

use crate::{Basis, Figure};

/// A length on the drawing.
pub(super) fn drawn(length: Length) -> Figure {
    Figure::Known { value: exact(length), basis: Basis::Stated }
}

/// None at all, by what the unit is.
pub(super) fn none() -> Figure {
    Figure::Known { value: Exact::from(0), basis: Basis::Stated }
}

pub(super) fn exact(length: Length) -> Exact {
    Exact::from(i128::from(length.steps()))
}

/// One of the two dimensions of a unit.
pub(super) struct Dimension {
    /// Its word.
    name: &'static str,
    published: fn(PublishedClear) -> ExactLength,
    /// Into how many parts the catalogue divides it, and what it takes off one.
    deducted: fn(&Deduction) -> (u8, ExactLength),
}

pub(super) const WIDTH: Dimension = Dimension {
    name: "width",
    published: |opening| opening.width,
    deducted: |deduction| (deduction.width_parts, deduction.width_less),
};
pub(super) const HEIGHT: Dimension = Dimension {
    name: "height",
    published: |opening| opening.height,
    deducted: |deduction| (deduction.height_parts, deduction.height_less),
};

/// A unit along one dimension.
pub(super) struct Extent<'a> {
    pub(super) unit: &'a Id,
    /// Of its frame or leaf.
    pub(super) size: Length,
    /// How many sashes of one size share it, one of which at the most is ever clear.
    pub(super) sashes: u8,
}

impl Dimension {
    /// What of a unit is clear: published, else estimated, else unknown.
    ///
    /// A maker's figure that is more than the unit, or than one of its sashes, can leave is doubtful, and so unknown: it
    /// may be that of a rough opening, or hold only with a sash taken out, which is no normal operation.
    pub(super) fn clear(
        &self,
        published: Option<PublishedClear>,
        deduction: Option<&Deduction>,
        extent: &Extent<'_>,
    ) -> Figure {
        let Extent { unit, size, sashes } = extent;
        if let Some(published) = published {
            return self.stated(published, extent);
        }
        let Some((parts, less)) = deduction.map(self.deducted) else {
            let name = self.name;
            let why = format!("unit \"{unit}\" has no published clear {name}, and the catalogue no deduction for it");
            return Figure::Unknown(why);
        };
        let parts = parts.max(*sashes).max(1);
        let value = Exact::new(size.steps().into(), parts.into()) - less.steps();
        Figure::Known { value: value.max(Exact::from(0)), basis: Basis::Estimated }
    }

    /// What the maker says, unless it cannot be.
    pub(super) fn stated(&self, published: PublishedClear, Extent { unit, size, sashes }: &Extent<'_>) -> Figure {
        let value = (self.published)(published).steps();
        if value <= exact(*size) / Exact::from(i128::from((*sashes).max(1))) {
            return Figure::Known { value, basis: Basis::Stated };
        }
        let name = self.name;
        Figure::Unknown(if *sashes > 1 {
            format!("the {name} published for unit \"{unit}\" is more than one of its sashes can leave clear")
        } else {
            format!("the {name} published for unit \"{unit}\" is more than that of the unit itself")
        })
    }
}

/// Area of the glass that a maker publishes.
pub(super) fn glass(glass: PublishedClear) -> Figure {
    Figure::Known { value: glass.width.steps() * glass.height.steps(), basis: Basis::Stated }
}
