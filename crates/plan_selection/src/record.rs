//! What is kept of a selection, and what is agreed by a file.

use plan_model::file::{PartDigests, drawn_digest, plan_digest};
use plan_model::{Alternate, Choice, Date, Money, Plan, Selection};

use crate::{Change, Chosen, PlanAsOf, SelectionFile};

/// What people state when a selection is kept.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct As {
    /// What the buyer is called.
    pub buyer: String,
    /// The day for which prices are stated.
    pub date: Date,
    /// Whatever else was agreed.
    pub notes: Vec<String>,
}

impl PlanAsOf {
    /// What is remembered of a plan.
    #[must_use]
    pub fn of(plan: &Plan) -> Self {
        Self {
            name: plan.name.clone(),
            sha256: plan_digest(plan),
            currency: plan.currency.clone(),
            base_price: plan.base_price,
            parts: PartDigests::of(plan),
        }
    }
}

impl Chosen {
    /// What is remembered of an alternate.
    #[must_use]
    pub fn of(choice: &Choice, alternate: &Alternate) -> Self {
        Self {
            choice: choice.id.clone(),
            alternate: alternate.id.clone(),
            name: name(choice, alternate),
            price: alternate.price,
            needs: alternate.needs.clone(),
            excludes: alternate.excludes.clone(),
            drawn: drawn_digest(alternate),
            note: None,
        }
    }
}

/// A choice with its answer as people call them: `Flex room: Study`.
pub(crate) fn name(choice: &Choice, alternate: &Alternate) -> String {
    format!("{}: {}", choice.name, alternate.name)
}

/// Every choice of a plan that a selection answers, with the answer, in the order of the plan.
pub(crate) fn answers<'plan>(
    plan: &'plan Plan,
    selection: &Selection,
) -> impl Iterator<Item = (&'plan Choice, &'plan Alternate)> {
    plan.choices.iter().filter_map(|choice| Some((choice, choice.alternate(selection.alternate(&choice.id)?)?)))
}

impl Change {
    /// What it adds to the price.
    #[must_use]
    pub fn difference(&self) -> Money {
        match self {
            Self::Choice(change) => change.difference,
            Self::Reversed(_) => Money::ZERO,
        }
    }
}

impl SelectionFile {
    /// Keeps a selection of a plan as it is now.
    #[must_use]
    pub fn record(plan: &Plan, selection: &Selection, stated: As) -> Self {
        Self {
            mateline_selection: Self::VERSION,
            buyer: stated.buyer,
            date: stated.date,
            plan: PlanAsOf::of(plan),
            reversed: selection.is_reversed(),
            choices: answers(plan, selection).map(|(choice, alternate)| Chosen::of(choice, alternate)).collect(),
            total: plan_choices::price(plan, selection),
            notes: stated.notes,
            signed: None,
            change_orders: Vec::new(),
        }
    }

    /// Takes over the remarks on alternates that are still chosen.
    pub fn keep_remarks_of(&mut self, before: &Self) {
        for chosen in &mut self.choices {
            let is_same = |it: &&Chosen| it.choice == chosen.choice && it.alternate == chosen.alternate;
            chosen.note = before.choices.iter().find(is_same).and_then(|before| before.note.clone());
        }
    }

    /// What is agreed for each choice: as signed, with every change order carried out.
    #[must_use]
    pub fn agreed(&self) -> Vec<&Chosen> {
        let mut agreed: Vec<&Chosen> = self.choices.iter().collect();
        for change in self.change_orders.iter().flat_map(|order| &order.changes) {
            let Change::Choice(change) = change else { continue };
            match agreed.iter_mut().find(|chosen| chosen.choice == change.now.choice) {
                Some(chosen) => *chosen = &change.now,
                None => agreed.push(&change.now),
            }
        }
        agreed
    }

    /// Whether the home is built mirrored, after every change order.
    #[must_use]
    pub fn is_reversed(&self) -> bool {
        let changes = self.change_orders.iter().flat_map(|order| &order.changes);
        let mut reversals =
            changes.filter_map(|change| if let Change::Reversed(now) = change { Some(*now) } else { None });
        reversals.next_back().unwrap_or(self.reversed)
    }

    /// The price of the home as agreed: the total of the last change order, or that of the selection.
    #[must_use]
    pub fn agreed_total(&self) -> Money {
        self.change_orders.last().map_or(self.total, |order| order.total)
    }

    /// The plan that was last agreed by.
    #[must_use]
    pub fn plan_sha256(&self) -> &str {
        self.change_orders.last().map_or(&self.plan.sha256, |order| &order.plan_sha256)
    }
}
