//! A price book in a file of its own, laid over a plan.

use schemars::Schema;

use super::price_faults::{self, Standing};
use super::{Format, Unreadable, refuse_faults};
use crate::{Plan, PriceBook};

const FORMAT: Format = Format { field: "mateline_prices", version: PriceBook::VERSION, what: "price book" };

/// Lays the price book in a text over a plan, as a whole or not at all: its base price and prices of alternates take the place
/// of the plan's, those that it does not name stay; the book takes the place of the one in the plan.
///
/// # Errors
/// Every problem found, each with its line, column and place in the text.
pub fn with_prices(plan: &Plan, text: &str) -> Result<Plan, Unreadable> {
    let mut book: PriceBook = FORMAT.read(text)?;
    refuse_faults(text, price_faults::problems(plan, &book, Standing::InAFile))?;
    let mut priced = plan.clone();
    priced.base_price = book.base.take().unwrap_or(plan.base_price);
    for named in book.alternates.drain(..) {
        let choice = priced.choices.iter_mut().find(|choice| choice.id == named.alternate.choice);
        let alternates = choice.into_iter().flat_map(|choice| &mut choice.alternates);
        for alternate in alternates.filter(|alternate| alternate.id == named.alternate.alternate) {
            alternate.price = named.price;
        }
    }
    priced.prices = Some(book);
    Ok(priced)
}

/// The JSON Schema of a price book in a file of its own.
#[must_use]
pub fn prices_schema() -> Schema {
    let mut schema = schemars::schema_for!(PriceBook);
    schema.insert("title".into(), "Mateline price book, version 1".into());
    schema
}
