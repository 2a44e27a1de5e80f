use std::iter::Sum;
use std::ops::{Add, Sub};

use plan_model::{Exact, Length};

/// An area in square grid steps (square 1/640 mm), exact.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct Area(i128);

impl Area {
    /// No area.
    pub const ZERO: Self = Self(0);
    /// One square foot.
    pub const SQUARE_FOOT: Self = Self::of_rectangle(Length::FOOT, Length::FOOT);

    /// From square grid steps.
    #[must_use]
    pub const fn from_square_steps(square_steps: i128) -> Self {
        Self(square_steps)
    }

    /// The area of a rectangle.
    #[must_use]
    pub const fn of_rectangle(width: Length, length: Length) -> Self {
        Self(width.steps() as i128 * length.steps() as i128)
    }

    /// In square grid steps.
    #[must_use]
    pub const fn square_steps(self) -> i128 {
        self.0
    }

    /// As an exact figure, to compare with a limit.
    #[must_use]
    pub fn exact(self) -> Exact {
        Exact::from(self.0)
    }

    /// In square feet, for drawing only: never for a comparison.
    #[must_use]
    #[expect(clippy::cast_precision_loss, reason = "shown with at most two places")]
    pub fn to_square_feet(self) -> f64 {
        self.0 as f64 / Self::SQUARE_FOOT.0 as f64
    }

    /// The nearest whole square foot, halves up.
    ///
    /// Source: ANSI Z765-2021 section 3, which reports the total to the whole square foot.
    #[must_use]
    pub const fn whole_square_feet(self) -> i128 {
        (2 * self.0 + Self::SQUARE_FOOT.0).div_euclid(2 * Self::SQUARE_FOOT.0)
    }
}

impl Add for Area {
    type Output = Self;
    fn add(self, other: Self) -> Self {
        Self(self.0 + other.0)
    }
}

impl Sub for Area {
    type Output = Self;
    fn sub(self, other: Self) -> Self {
        Self(self.0 - other.0)
    }
}

impl Sum for Area {
    fn sum<I: Iterator<Item = Self>>(areas: I) -> Self {
        areas.fold(Self::ZERO, Add::add)
    }
}
