//! The selection file: JSON, version 1.

use plan_model::file::{Format, PartDigests, Unreadable, lay_out};
use plan_model::{AlternateRef, Date, Id, Money};
use schemars::{JsonSchema, Schema};
use serde::{Deserialize, Serialize};

use crate::check;

/// A selection file, version 1: what a buyer chose of a plan, as it stood on the day of its date.
///
/// Change orders stand in the same file, after what was signed: one file then says all that was agreed, and an order cannot
/// be parted from what it changes. What was signed keeps its bytes; orders are only added.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct SelectionFile {
    /// Version of the file format.
    #[schemars(extend("const" = 1))]
    pub mateline_selection: u32,
    /// What the buyer is called here, such as a name or the number of a lot.
    pub buyer: String,
    /// The day for which prices and contents of the alternates are stated.
    pub date: Date,
    /// The plan as it was then.
    pub plan: PlanAsOf,
    /// Whether the home is built mirrored left to right.
    pub reversed: bool,
    /// One alternate for each choice of the plan, in its order.
    pub choices: Vec<Chosen>,
    /// The base price with what these alternates add. What the lines of a price book add, such as taxes, is no part of it.
    pub total: Money,
    /// Whatever else was agreed, for people.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub notes: Vec<String>,
    /// Who signed it. A signed selection is not changed any more.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub signed: Option<Signed>,
    /// What was changed after it was signed, in order.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub change_orders: Vec<ChangeOrder>,
}

/// What is remembered of a plan.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct PlanAsOf {
    /// Its name.
    pub name: String,
    /// SHA-256 of the plan as the program writes it, so that its layout does not matter.
    #[schemars(regex(pattern = "^[0-9a-f]{64}$"))]
    pub sha256: String,
    /// The currency of every price, as an ISO 4217 code.
    pub currency: String,
    /// Price of the home with every included alternate.
    pub base_price: Money,
    /// Short digests of what stands in every home of the plan, to tell what was changed.
    pub parts: PartDigests,
}

/// The alternate chosen for a choice, with what is remembered of it.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct Chosen {
    /// The choice.
    pub choice: Id,
    /// The alternate.
    pub alternate: Id,
    /// What both are called: `Flex room: Fourth bedroom`.
    pub name: String,
    /// What it adds to the base price.
    pub price: Money,
    /// Alternates of other choices that it needs.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub needs: Vec<AlternateRef>,
    /// Alternates of other choices that it excludes.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub excludes: Vec<AlternateRef>,
    /// A short digest of what it brings into the home and takes out of it.
    pub drawn: String,
    /// A remark on this choice, for people.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub note: Option<String>,
}

/// Who signed a selection.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct Signed {
    /// What the signer is called here. The program keeps a record; it is no proof of who signed.
    pub by: String,
    /// The day of signing.
    pub date: Date,
    /// The price of the home as it was signed.
    pub total: Money,
}

/// What was changed together after a selection was signed.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct ChangeOrder {
    /// Its number, from 1.
    #[schemars(range(min = 1))]
    pub number: usize,
    /// The day of the order.
    pub date: Date,
    /// SHA-256 of the plan that it was made by.
    pub plan_sha256: String,
    /// Every change.
    pub changes: Vec<Change>,
    /// What all its changes add to the price.
    pub difference: Money,
    /// The price of the home after it.
    pub total: Money,
    /// A remark, for people.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub note: Option<String>,
}

/// One change of a change order.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(rename_all = "kebab-case")]
pub enum Change {
    /// Another alternate of a choice.
    Choice(Box<ChoiceChange>),
    /// Whether the home is built mirrored. A plan holds no price for it.
    Reversed(bool),
}

/// Another alternate of a choice.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct ChoiceChange {
    /// The alternate that was agreed until then; none for a choice that the plan did not have.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub was: Option<Id>,
    /// What was agreed of it before: `Flex room: Study`.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub was_name: Option<String>,
    /// What is agreed instead, with its price on the day of the order.
    pub now: Chosen,
    /// What that adds to the price: what is chosen costs on the day of the order, less what was agreed for what is given up.
    pub difference: Money,
}

impl SelectionFile {
    /// The version that this program writes.
    pub const VERSION: u32 = 1;
}

const FORMAT: Format = Format { field: "mateline_selection", version: SelectionFile::VERSION, what: "selection file" };

/// Reads a selection file.
///
/// # Errors
/// Every problem found, each with its line, column and place in the file.
pub fn read(text: &str) -> Result<SelectionFile, Unreadable> {
    let file: SelectionFile = FORMAT.read(text)?;
    let problems = check::problems(&file, text);
    if problems.is_empty() { Ok(file) } else { Err(Unreadable { problems }) }
}

/// Writes a selection file: the same always as the same bytes.
#[must_use]
pub fn write(file: &SelectionFile) -> String {
    lay_out(file)
}

/// The JSON Schema of the selection file.
#[must_use]
pub fn schema() -> Schema {
    let mut schema = schemars::schema_for!(SelectionFile);
    schema.insert("title".into(), "Mateline selection file, version 1".into());
    schema
}
