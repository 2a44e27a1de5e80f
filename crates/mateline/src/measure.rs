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
    let book = Some(&book).filter(|book| book.is_for(plan.home.legal_kind));
    print(&match request.format {
        Format::Text => measure_text(&home, &selection, &derived, book),
        Format::Json => measure_json(&home, &selection, &derived, book),
    })?;
    refuse_conflicts(&derived, &request.file)?;
    Ok(Verdict::Met)
}
