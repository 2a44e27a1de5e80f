//! Signing a selection, and what may take the place of a signed one.

use plan_choices::Refusal;
use plan_model::{Date, Plan};
use thiserror::Error;

use crate::{SelectionFile, Signed, open};

/// A signed selection that is not to be written over.
#[derive(Clone, Debug, PartialEq, Eq, Error)]
#[error(
    "the selection of {buyer} was signed by {by} on {date} and is frozen; what is changed after that becomes a change order: open the selection and change it from there"
)]
pub struct Frozen {
    /// The buyer.
    pub buyer: String,
    /// Who signed.
    pub by: String,
    /// When.
    pub date: Date,
}

/// Why a selection cannot be signed as it is.
#[derive(Clone, Debug, PartialEq, Eq, Error)]
pub enum NotSignable {
    /// It is signed.
    #[error(transparent)]
    Signed(#[from] Frozen),
    /// The plan is not as it was.
    #[error("the plan was changed since {date}; keep the selection anew as it is now, and sign that")]
    PlanChanged {
        /// The date of the selection.
        date: Date,
    },
    /// The plan declares that it cannot be had.
    #[error("{}", .refusals.iter().map(ToString::to_string).collect::<Vec<_>>().join("; "))]
    Refused {
        /// Why.
        refusals: Vec<Refusal>,
    },
    /// A day before that of the selection.
    #[error("the selection is dated {date}; it is not signed before that")]
    TooEarly {
        /// The date of the selection.
        date: Date,
    },
}

impl SelectionFile {
    /// Whether it is signed, and by whom.
    ///
    /// # Errors
    /// When it is.
    pub fn check_is_not_frozen(&self) -> Result<(), Frozen> {
        self.signed.as_ref().map_or(Ok(()), |signed| {
            Err(Frozen { buyer: self.buyer.clone(), by: signed.by.clone(), date: signed.date })
        })
    }

    /// The selection signed, at its total price.
    ///
    /// # Errors
    /// When it is signed already, was kept by another plan than this one, or cannot be had.
    pub fn sign(&self, plan: &Plan, by: &str, date: Date) -> Result<Self, NotSignable> {
        self.check_is_not_frozen()?;
        let opened = open(self, plan);
        if !opened.plan_is_unchanged() {
            return Err(NotSignable::PlanChanged { date: self.date });
        }
        if !opened.refusals.is_empty() {
            return Err(NotSignable::Refused { refusals: opened.refusals });
        }
        if date < self.date {
            return Err(NotSignable::TooEarly { date: self.date });
        }
        let signed = Signed { by: by.to_owned(), date, total: self.total };
        Ok(Self { signed: Some(signed), ..self.clone() })
    }
}

/// Whether a selection may be written where another one stands: a signed one may only be followed by further change orders.
///
/// # Errors
/// When a signed selection would be lost or changed.
pub fn check_replaces(old: &SelectionFile, new: &SelectionFile) -> Result<(), Frozen> {
    let goes_on = new.change_orders.get(..old.change_orders.len()) == Some(&*old.change_orders) && {
        let without_orders = |file: &SelectionFile| SelectionFile { change_orders: Vec::new(), ..file.clone() };
        without_orders(old) == without_orders(new)
    };
    if goes_on { Ok(()) } else { old.check_is_not_frozen() }
}
