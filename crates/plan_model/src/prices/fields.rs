//! A line as it is written: one object, whose fields say by themselves what kind of basis it has.

use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

use super::{Basis, LineKind, Per, Percent, PercentOf, PriceLine};
use crate::{Id, Money};

/// A line of a price book. It has an `amount`, or `each` with `per`, or `percent` with `of`.
#[derive(Clone, Debug, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
#[schemars(rename = "PriceLine")]
pub(super) struct LineFields {
    /// Name in files and reports, and for percentages of it; not `base`, `options` or `subtotal`.
    id: Id,
    /// Name on quotes.
    name: String,
    /// What it is. Credits take off, all others add.
    kind: LineKind,
    /// What it comes to, always the same.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    amount: Option<Money>,
    /// So much for each of what `per` counts in the home.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    each: Option<Money>,
    /// What is counted.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    per: Option<Per>,
    /// A percentage of what `of` names.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    percent: Option<Percent>,
    /// `subtotal`, which is everything above; or any of `base`, `options` and ids of lines above.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    of: Option<Vec<PercentOf>>,
}

impl TryFrom<LineFields> for PriceLine {
    type Error = String;

    fn try_from(fields: LineFields) -> Result<Self, String> {
        let LineFields { id, name, kind, amount, each, per, percent, of } = fields;
        let basis = match (amount, each, per, percent, of) {
            (Some(amount), None, None, None, None) => Basis::Amount(amount),
            (None, Some(price), Some(per), None, None) => Basis::Each { price, per },
            (None, None, None, Some(percent), Some(of)) => Basis::Percent { percent, of },
            _ => {
                return Err(format!(
                    "the line \"{id}\" has either `amount`, or `each` and `per`, or `percent` and `of`, and nothing more \
                     of these"
                ));
            }
        };
        Ok(Self { id, name, kind, basis })
    }
}

impl From<PriceLine> for LineFields {
    fn from(line: PriceLine) -> Self {
        let PriceLine { id, name, kind, basis } = line;
        let bare = Self { id, name, kind, amount: None, each: None, per: None, percent: None, of: None };
        match basis {
            Basis::Amount(amount) => Self { amount: Some(amount), ..bare },
            Basis::Each { price, per } => Self { each: Some(price), per: Some(per), ..bare },
            Basis::Percent { percent, of } => Self { percent: Some(percent), of: Some(of), ..bare },
        }
    }
}
