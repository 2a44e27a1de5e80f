//! A quote as JSON, for programs.

use std::collections::BTreeMap;

use plan_model::{AlternateRef, Date, Home, Id, LineKind, Money, Per, Percent, PercentOf, Selection};
use schemars::{JsonSchema, Schema, schema_for};
use serde::Serialize;

use super::{LineBasis, LineOf, Quote, QuoteLine};

/// What a selection costs on a day, with all its arithmetic.
#[derive(Serialize, JsonSchema)]
struct PriceReport<'a> {
    /// Version of this report.
    #[schemars(extend("const" = 1))]
    mateline_price: u32,
    /// Name of the plan.
    plan: &'a str,
    /// Who builds it.
    maker: &'a str,
    /// The chosen alternate of every choice.
    selection: BTreeMap<&'a Id, &'a Id>,
    /// The price book; null where the plan has none.
    book: Option<BookReport<'a>>,
    /// The day of the quote.
    date: Date,
    /// The last day on which it is good; null where the price book says nothing of it.
    good_until: Option<Date>,
    /// The currency of every amount, as an ISO 4217 code.
    currency: &'a str,
    /// Decimal places to which each line is rounded, once and half away from zero.
    decimal_places: u32,
    /// In the order in which they are reckoned.
    lines: Vec<LineReport<'a>>,
    /// The sum of the base price and the chosen alternates.
    base_and_options: Money,
    /// The sum of the amounts of all lines.
    total: Money,
}

/// A price book.
#[derive(Serialize, JsonSchema)]
struct BookReport<'a> {
    name: &'a str,
    /// The first day on which a quote may be made from it.
    effective: Date,
    /// The last such day; null where it has none.
    expires: Option<Date>,
}

/// A line.
#[derive(Serialize, JsonSchema)]
struct LineReport<'a> {
    of: OfReport<'a>,
    /// Its name on quotes.
    label: &'a str,
    basis: BasisReport<'a>,
    /// Rounded.
    amount: Money,
}

/// What a line is of.
#[derive(Serialize, JsonSchema)]
#[serde(rename_all = "kebab-case")]
enum OfReport<'a> {
    /// The base price.
    Base,
    /// A chosen alternate.
    Alternate(&'a AlternateRef),
    /// A line of the price book.
    Line { id: &'a Id, kind: LineKind },
}

/// How an amount comes about.
#[derive(Serialize, JsonSchema)]
#[serde(rename_all = "kebab-case")]
enum BasisReport<'a> {
    /// It is stated.
    Stated,
    /// `count` times `price`.
    Each {
        /// As decimal text.
        count: String,
        per: Per,
        price: Money,
    },
    /// So many percent of `sum`, which is what the parts in `of` come to, as rounded.
    Percent { percent: Percent, of: &'a [PercentOf], sum: Money },
}

impl<'a> From<&'a QuoteLine> for LineReport<'a> {
    fn from(line: &'a QuoteLine) -> Self {
        let of = match &line.of {
            LineOf::Base => OfReport::Base,
            LineOf::Alternate(answer) => OfReport::Alternate(answer),
            LineOf::Line { id, kind } => OfReport::Line { id, kind: *kind },
        };
        let basis = match &line.basis {
            LineBasis::Stated => BasisReport::Stated,
            LineBasis::Each { count, per, price } => {
                BasisReport::Each { count: count.to_string(), per: *per, price: *price }
            }
            LineBasis::Percent { percent, of, sum, .. } => BasisReport::Percent { percent: *percent, of, sum: *sum },
        };
        Self { of, label: &line.label, basis, amount: line.amount }
    }
}

/// A quote as JSON, for programs; [`quote_schema`] describes it.
#[must_use]
pub fn quote_json(home: &Home<'_>, selection: &Selection, quote: &Quote) -> String {
    let (plan, arithmetic) = (&*home.plan, &quote.arithmetic);
    let report = PriceReport {
        mateline_price: 1,
        plan: &plan.name,
        maker: &plan.maker,
        selection: selection.iter().collect(),
        book: plan.prices.as_ref().map(|book| BookReport {
            name: &book.name,
            effective: book.effective,
            expires: book.last_day(),
        }),
        date: quote.date,
        good_until: quote.good_until,
        currency: &plan.currency,
        decimal_places: arithmetic.places,
        lines: arithmetic.lines.iter().map(LineReport::from).collect(),
        base_and_options: arithmetic.home,
        total: arithmetic.total,
    };
    // Structs, lists, text and numbers cannot fail to become JSON.
    serde_json::to_string_pretty(&report).unwrap_or_default() + "\n"
}

/// The JSON Schema of [`quote_json`].
#[must_use]
pub fn quote_schema() -> Schema {
    let mut schema = schema_for!(PriceReport<'_>);
    schema.insert("title".into(), "Mateline price report, version 1".into());
    schema
}
