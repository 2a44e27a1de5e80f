use plan_model::{Alternate, Choice, Money, Plan, Selection};

/// What one chosen alternate adds to the base price.
#[derive(Clone, Copy, Debug)]
pub struct PriceLine<'plan> {
    /// The choice.
    pub choice: &'plan Choice,
    /// Its chosen alternate.
    pub alternate: &'plan Alternate,
}

/// Every chosen alternate with a price of its own, in the order of the file; it may take off.
pub fn price_lines<'plan>(plan: &'plan Plan, selection: &Selection) -> impl Iterator<Item = PriceLine<'plan>> {
    let chosen = |choice: &'plan Choice| {
        let alternate = choice.alternate(selection.alternate(&choice.id)?)?;
        (!alternate.price.is_zero()).then_some(PriceLine { choice, alternate })
    };
    plan.choices.iter().filter_map(chosen)
}

/// What a selection costs, in the plan's currency: the base price and the price of every chosen alternate.
#[must_use]
pub fn price(plan: &Plan, selection: &Selection) -> Money {
    plan.base_price + price_lines(plan, selection).map(|line| line.alternate.price).sum()
}

#[cfg(test)]
mod tests {
    use crate::refusal::tests::{answer, plan};
    use plan_model::{Money, Selection};

    use super::{price, price_lines};

    #[test]
    fn included_alternates_cost_the_base_price() {
        let plan = plan();
        assert_eq!(price(&plan, &Selection::included(&plan)), Money::from(100_000));
        assert_eq!(price_lines(&plan, &Selection::included(&plan)).count(), 0);
    }

    #[test]
    fn every_chosen_alternate_adds_its_price_and_may_take_off() {
        let plan = plan();
        let selection = Selection::included(&plan).with(&plan, &answer("flex=bedroom")).expect("the plan has it");
        assert_eq!(price(&plan, &selection), Money::from(101_500));
        let selection = selection.with(&plan, &answer("porch=none")).expect("the plan has it");
        assert_eq!(price(&plan, &selection), Money::from(101_100));
        let lines: Vec<_> = price_lines(&plan, &selection).map(|line| line.alternate.name.as_str()).collect();
        assert_eq!(lines, ["Fourth bedroom", "None"]);
    }
}
