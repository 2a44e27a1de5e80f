//! Change orders: what is changed after a selection was signed.

use plan_model::file::plan_digest;
use plan_model::{Date, Money, Plan, Selection};
use thiserror::Error;

use crate::record::answers;
use crate::{Change, ChangeOrder, ChoiceChange, Chosen, SelectionFile};

/// Why there is no change order.
#[derive(Clone, Debug, PartialEq, Eq, Error)]
pub enum NoOrder {
    /// Before it is signed a selection is simply kept anew.
    #[error("the selection is not signed: it is changed without a change order")]
    NotSigned,
    /// What is chosen is what was agreed.
    #[error("nothing is changed: the selection is as it was agreed")]
    NothingChanged,
    /// Prices in different currencies have no difference.
    #[error("the selection was signed in {was}, and the plan has its prices in {now}")]
    Currency {
        /// Then.
        was: String,
        /// Now.
        now: String,
    },
    /// A day before what was agreed last.
    #[error("the last that was agreed is dated {latest}; a change order is not dated before that")]
    TooEarly {
        /// The last date.
        latest: Date,
    },
}

impl SelectionFile {
    /// The selection with one more change order, which leads from what was agreed to another selection of the plan as it is
    /// now. What is given up is taken back at the price that was agreed for it, what is chosen costs its price of now; the
    /// agreed base price stays.
    ///
    /// # Errors
    /// When it is not signed, or when nothing is changed.
    pub fn order_change(
        &self,
        plan: &Plan,
        selection: &Selection,
        date: Date,
        note: Option<String>,
    ) -> Result<Self, NoOrder> {
        let signed = self.signed.as_ref().ok_or(NoOrder::NotSigned)?;
        if plan.currency != self.plan.currency {
            return Err(NoOrder::Currency { was: self.plan.currency.clone(), now: plan.currency.clone() });
        }
        let latest = self.change_orders.last().map_or(signed.date, |order| order.date);
        if date < latest {
            return Err(NoOrder::TooEarly { latest });
        }
        let agreed = self.agreed();
        let mut changes = Vec::new();
        for (choice, alternate) in answers(plan, selection) {
            let was = agreed.iter().find(|chosen| chosen.choice == choice.id);
            // A choice that the plan did not have, answered with what costs nothing more, is no change.
            let is_agreed = was.map_or(alternate.included, |was| was.alternate == alternate.id);
            if !is_agreed {
                let given_up = was.map_or(Money::ZERO, |was| was.price);
                changes.push(Change::Choice(Box::new(ChoiceChange {
                    was: was.map(|was| was.alternate.clone()),
                    was_name: was.map(|was| was.name.clone()),
                    now: Chosen::of(choice, alternate),
                    difference: alternate.price - given_up,
                })));
            }
        }
        if selection.is_reversed() != self.is_reversed() {
            changes.push(Change::Reversed(selection.is_reversed()));
        }
        if changes.is_empty() {
            return Err(NoOrder::NothingChanged);
        }
        let difference: Money = changes.iter().map(Change::difference).sum();
        let mut file = self.clone();
        file.change_orders.push(ChangeOrder {
            number: self.change_orders.len() + 1,
            date,
            plan_sha256: plan_digest(plan),
            changes,
            difference,
            total: self.agreed_total() + difference,
            note,
        });
        Ok(file)
    }
}
