//! `mateline price`: what a selection costs, line by line.

use mateline_app::files::{lay_prices_over, read_plan};
use plan_choices::{quote, quote_json, quote_text};
use plan_geometry::derive;
use plan_model::Selection;

use crate::arguments::{Format, PriceRequest};
use crate::input::{answered, refuse_conflicts, refuse_selection};
use crate::output::{Verdict, print};
use crate::today::today;
use crate::unjudged::Unjudged;

/// Reckons what a home costs and prints the arithmetic. What cannot be built has no price.
pub(crate) fn run(request: &PriceRequest) -> Result<Verdict, Unjudged> {
    let own = read_plan(&request.file)?.plan;
    let (plan, prices) = match &request.prices {
        Some(prices) => (lay_prices_over(&own, prices)?, prices),
        None => (own, &request.file),
    };
    let selection = answered(Selection::included(&plan), &plan, &request.selected, &request.file)?;
    refuse_selection(&plan, &selection, &request.file)?;
    let home = plan.home(&selection);
    let derived = derive(&home);
    refuse_conflicts(&derived, &request.file)?;
    let date = request.date.or_else(today).ok_or(Unjudged::NoToday)?;
    let quote =
        quote(&home, &derived, &selection, date).map_err(|error| Unjudged::NoQuote { error, path: prices.clone() })?;
    print(&match request.format() {
        Format::Text => quote_text(&home, &selection, &quote),
        Format::Json => quote_json(&home, &selection, &quote),
    })?;
    Ok(Verdict::Met)
}
