//! What was found, as JSON.

use std::collections::BTreeMap;

use plan_model::{AlternateRef, Id, Money, Units};
use plan_rules::report::{BookReport, Decimal, ReportUnits, grid_area, lay_out, titled};
use plan_rules::{CAUTIONS, RuleBook};
use schemars::{JsonSchema, Schema, schema_for};
use serde::Serialize;

use crate::{Found, FoundHome, Query};

/// The selections of a plan that have what is asked for.
#[derive(Debug, Serialize, JsonSchema)]
struct SelectionsReport {
    /// Version of this report.
    #[schemars(extend("const" = 1))]
    mateline_selections: u32,
    /// Name of the plan.
    plan: String,
    /// Who builds it.
    maker: String,
    units: ReportUnits,
    /// The currency of every price, as an ISO 4217 code.
    currency: String,
    /// What is asked for.
    #[serde(rename = "where")]
    asked: String,
    /// The book by which they were judged; null where the query does not ask for it.
    book: Option<BookReport>,
    selections: Counts,
    /// The cheapest that was found; null where nothing was.
    cheapest: Option<SelectionReport>,
    /// The cheapest of those with the largest heated area; null where nothing was found, or no heated area is known.
    largest: Option<SelectionReport>,
    /// From the cheapest on, as many as were asked for; of the same price those with fewer answers that are not included come
    /// first.
    found: Vec<SelectionReport>,
    /// What the program is not.
    cautions: Vec<&'static str>,
}

/// How many selections; whole numbers as text, since there can be more than numbers in JSON hold exactly.
#[derive(Debug, Serialize, JsonSchema)]
struct Counts {
    all: String,
    /// Can be sold.
    possible: String,
    /// Of those, have what is asked for.
    found: String,
    /// Of those, hold something that cannot be told, and are left out.
    not_known: String,
}

/// One selection.
#[derive(Debug, Serialize, JsonSchema)]
struct SelectionReport {
    price: Money,
    bedrooms: usize,
    /// Rooms with a tub or shower.
    baths: usize,
    /// To the exterior finished face; null where it is not known.
    heated_area: Option<Decimal>,
    /// The answers that are not included in the base price, in the order of the plan.
    not_included: Vec<AlternateRef>,
    /// Every choice with its alternate.
    selection: BTreeMap<Id, Id>,
}

/// What was found, as JSON for programs; [`selections_schema`] describes it. `book` is the one by which they were judged, if
/// the query asks for that.
#[must_use]
pub fn selections_json(found: &Found<'_, '_>, query: &Query, book: Option<&RuleBook>, most: usize) -> String {
    let plan = found.finder().plan();
    let sold = found.finder().compatibility();
    let one = |home: &FoundHome| selection(home, plan.units);
    lay_out(&SelectionsReport {
        mateline_selections: 1,
        plan: plan.name.clone(),
        maker: plan.maker.clone(),
        units: ReportUnits::from(plan.units),
        currency: plan.currency.clone(),
        asked: query.text().to_owned(),
        book: book.map(|book| BookReport::from(&**book.facts())),
        selections: Counts {
            all: sold.all().to_string(),
            possible: sold.possible().to_string(),
            found: found.count().to_string(),
            not_known: found.not_known().to_string(),
        },
        cheapest: found.cheapest(1).first().map(one),
        largest: found.largest().as_ref().map(one),
        found: found.cheapest(most).iter().map(one).collect(),
        cautions: CAUTIONS.to_vec(),
    })
}

/// The JSON Schema of [`selections_json`].
#[must_use]
pub fn selections_schema() -> Schema {
    titled(schema_for!(SelectionsReport), "Mateline selections, version 1")
}

fn selection(home: &FoundHome, units: Units) -> SelectionReport {
    SelectionReport {
        price: home.price,
        bedrooms: home.bedrooms,
        baths: home.baths,
        heated_area: home.heated_area.map(|area| grid_area(area, units)),
        not_included: home.chosen.clone(),
        selection: home.selection.iter().map(|(choice, alternate)| (choice.clone(), alternate.clone())).collect(),
    }
}
