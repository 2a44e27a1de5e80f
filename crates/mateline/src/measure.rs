use plan_geometry::derive;
use plan_rules::report::{measure_json, measure_text};

use crate::arguments::{Format, Request};
use crate::input::{Input, refuse_conflicts};
use crate::output::{Verdict, print};
use crate::unjudged::Unjudged;

/// Measures a home and prints the figures, of a home that cannot be built as drawn too.
pub(crate) fn run(request: &Request) -> Result<Verdict, Unjudged> {
    let Input { plan, selection, book } = Input::read(request)?;
    let home = plan.home(&selection);
    let derived = derive(&home);
    // A book for homes under another label says nothing about this one.
    let is_for_it = book.facts().legal_kind.is_none_or(|kind| kind == plan.home.legal_kind);
    let book = is_for_it.then_some(&book);
    print(&match request.format {
        Format::Text => measure_text(&home, &selection, &derived, book),
        Format::Json => measure_json(&home, &selection, &derived, book),
    })?;
    refuse_conflicts(&derived, &request.file)?;
    Ok(Verdict::Met)
}
