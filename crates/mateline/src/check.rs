use plan_geometry::derive;
use plan_rules::judge;
use plan_rules::report::{check_json, check_text};

use crate::arguments::{Format, Request};
use crate::input::{Input, drawing_faults, refuse_conflicts};
use crate::output::{Verdict, print, tell};
use crate::unjudged::Unjudged;

/// Judges a home and prints the report.
pub(crate) fn run(request: &Request) -> Result<Verdict, Unjudged> {
    let Input { plan, selection, book } = Input::read(request)?;
    let home = plan.home(&selection);
    if home.elements.rooms.is_empty() {
        return Err(Unjudged::NoRoom { path: request.file.clone() });
    }
    let derived = derive(&home);
    refuse_conflicts(&derived, &request.file)?;
    let judgement = judge(&home, &derived, &book)
        .map_err(|error| Unjudged::WrongLegalKind { error, path: request.file.clone() })?;
    print(&match request.format {
        Format::Text => check_text(&home, &selection, &derived, &judgement),
        Format::Json => check_json(&home, &selection, &derived, &judgement),
    })?;
    for fault in drawing_faults(&derived, &request.file) {
        tell(&format!("note: {fault}"));
    }
    Ok(if judgement.corrections().next().is_some() {
        Verdict::Corrections
    } else if judgement.unknown().next().is_some() {
        Verdict::Unknown
    } else {
        Verdict::Met
    })
}
