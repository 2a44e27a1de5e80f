use plan_model::{Choice, Money, Plan, Selection};

/// What a selection costs, in the plan's currency: the base price and the price of every chosen alternate.
#[must_use]
pub fn price(plan: &Plan, selection: &Selection) -> Money {
    let chosen = |choice: &Choice| choice.alternate(selection.alternate(&choice.id)?).map(|alternate| alternate.price);
    plan.base_price + plan.choices.iter().filter_map(chosen).sum()
}

#[cfg(test)]
mod tests {
    use crate::refusal::tests::{answer, plan};
    use plan_model::{Money, Selection};

    use super::price;

    #[test]
    fn included_alternates_cost_the_base_price() {
        let plan = plan();
        assert_eq!(price(&plan, &Selection::included(&plan)), Money::from(100_000));
    }

    #[test]
    fn every_chosen_alternate_adds_its_price_and_may_take_off() {
        let plan = plan();
        let selection = Selection::included(&plan).with(&plan, &answer("flex=bedroom")).expect("the plan has it");
        assert_eq!(price(&plan, &selection), Money::from(101_500));
        let selection = selection.with(&plan, &answer("porch=none")).expect("the plan has it");
        assert_eq!(price(&plan, &selection), Money::from(101_100));
    }
}
