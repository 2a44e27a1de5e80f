//! What selections cost, as whole numbers that can be added up without rounding.

use plan_model::{Money, Plan};

use crate::diagram::{Selections, TooManySums, Variables};
use crate::query::Number;

/// The price of a selection as the base price and an amount for each of its alternates.
pub(super) struct Prices {
    /// Every amount counts units of this place behind the decimal point.
    places: u32,
    base: i128,
    of: Vec<Vec<i128>>,
}

impl Prices {
    /// Of a plan. All that is known of prices here comes from this function: its figures are those of [`plan_choices::price`].
    ///
    /// Lines of a price that depend on more than one choice do not fit into it (so much a square foot of heated area, a rate
    /// on a sum). Of a line that depends on figures of the home: ask for the line's amount with `tree::Alternates::ask`, as
    /// `areas` does, and for each amount add it to the base in the part of the selections that has it (sets of a limit united
    /// over the parts; the cheapest of all parts merged). A rate on the sum of all: divide the limit by it instead, and mind
    /// which way the product is rounded.
    pub(super) fn of(plan: &Plan) -> Self {
        let amounts = || plan.choices.iter().flat_map(|choice| &choice.alternates).map(|alternate| alternate.price);
        let places = amounts().chain([plan.base_price]).map(|price| price.amount().normalize().scale()).max();
        let places = places.unwrap_or_default();
        let of_choice = |choice: &plan_model::Choice| {
            choice.alternates.iter().map(|alternate| units(alternate.price, places)).collect()
        };
        Self { places, base: units(plan.base_price, places), of: plan.choices.iter().map(of_choice).collect() }
    }

    /// What each alternate of each choice adds.
    pub(super) fn by_alternate(&self) -> &[Vec<i128>] {
        &self.of
    }

    /// Those that cost no more than a limit.
    pub(super) fn at_most(&self, variables: &Variables, limit: Number) -> Result<Selections, TooManySums> {
        variables.with_sum_at_most(&self.of, self.units_in(limit).0 - self.base)
    }

    /// Those that cost less than a limit.
    pub(super) fn under(&self, variables: &Variables, limit: Number) -> Result<Selections, TooManySums> {
        let (whole, is_whole) = self.units_in(limit);
        variables.with_sum_at_most(&self.of, whole - i128::from(is_whole) - self.base)
    }

    /// The whole units in a limit, and whether that is all of it.
    fn units_in(&self, limit: Number) -> (i128, bool) {
        let places = self.places.max(limit.places);
        let (exact, unit) = (limit.with_places(places), 10_i128.pow(places - self.places));
        (exact.div_euclid(unit), exact.rem_euclid(unit) == 0)
    }
}

/// An amount in units of a place behind the point, of which it has no more. Amounts of a plan have at most 18 letters, so this
/// and the sums of it stay far within the numbers.
fn units(price: Money, places: u32) -> i128 {
    let amount = price.amount().normalize();
    amount.mantissa() * 10_i128.pow(places.saturating_sub(amount.scale()))
}
