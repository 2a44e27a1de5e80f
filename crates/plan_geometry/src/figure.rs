use num_traits::{CheckedAdd, CheckedMul};
use plan_model::{Exact, Length};

/// How far a measure taken between faces that are not square to the axes may be from the true one.
///
/// Each such face lies within one step of true, and a measure is taken between two of them. A measure within this of a
/// limit is *on* the limit. Measures between faces that are square to the axes carry none.
pub const OFF_AXIS_SLACK: Length = Length::from_steps(2);

/// A length measured on the drawing, with what it may be off by.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Measured {
    /// The length, never more than the true one by more than the slack.
    pub value: Length,
    /// Zero, or [`OFF_AXIS_SLACK`]; a multiple of it for a way with several legs.
    pub slack: Length,
}

impl Measured {
    /// A measure between faces that are square to the axes.
    #[must_use]
    pub const fn exact(value: Length) -> Self {
        Self { value, slack: Length::ZERO }
    }
}

/// Where a figure of an opening comes from.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Basis {
    /// Published by the maker of the unit, or drawn.
    Stated,
    /// Computed from the unit's size with the deductions of the plan's catalogue.
    Estimated,
}

/// A figure of an opening that the plan may or may not hold.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Figure {
    /// Known, in grid steps or square grid steps.
    Known {
        /// The figure.
        value: Exact,
        /// Where it comes from.
        basis: Basis,
    },
    /// Not held by the plan; what is missing, as a clause: "the catalogue has no deductions for awning windows".
    Unknown(String),
}

impl Figure {
    /// A figure that is drawn or published.
    pub(crate) fn stated(steps: i128) -> Self {
        Self::Known { value: Exact::from(steps), basis: Basis::Stated }
    }

    /// The value, if the plan holds it.
    #[must_use]
    pub const fn value(&self) -> Option<Exact> {
        match self {
            Self::Known { value, .. } => Some(*value),
            Self::Unknown(_) => None,
        }
    }

    /// The product of two figures: estimated if either is, unknown if either is.
    #[must_use]
    pub fn times(&self, other: &Self) -> Self {
        self.with(other, |one, two| one.checked_mul(two))
    }

    /// The sum of two figures: estimated if either is, unknown if either is.
    #[must_use]
    pub fn plus(&self, other: &Self) -> Self {
        self.with(other, |one, two| one.checked_add(two))
    }

    /// Fractions of many different denominators may have no common one that can be written; nobody publishes such, but a
    /// file can.
    fn with(&self, other: &Self, of: impl Fn(&Exact, &Exact) -> Option<Exact>) -> Self {
        match (self, other) {
            (Self::Known { value: one, basis }, Self::Known { value: two, basis: other }) => {
                let basis = if *basis == Basis::Estimated { *basis } else { *other };
                of(one, two).map_or_else(
                    || Self::Unknown("its fractions are too fine to be worked with exactly".to_owned()),
                    |value| Self::Known { value, basis },
                )
            }
            (Self::Unknown(why), _) | (_, Self::Unknown(why)) => Self::Unknown(why.clone()),
        }
    }
}
