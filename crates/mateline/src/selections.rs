use mateline_app::files::{open_book, read_plan};
use plan_proof::{Finder, ProofError, Query, report};
use plan_rules::RuleBook;

use crate::arguments::{Format, SelectionsRequest};
use crate::output::{Verdict, print};
use crate::progress::Progress;
use crate::unjudged::Unjudged;

/// Seeks the selections of a plan that have what is asked for, and prints the report.
pub(crate) fn run(request: &SelectionsRequest) -> Result<Verdict, Unjudged> {
    let SelectionsRequest { file, asked, book, limit, format } = request;
    let plan = read_plan(file)?.plan;
    let query = Query::read(asked, &plan)?;
    // A book that cannot be opened is told even if it is not needed.
    let book = open_book(book.as_deref().unwrap_or(RuleBook::default_id(plan.home.legal_kind)))?;
    let book = query.asks_for_book().then_some(&book);
    let mut progress = Progress::new();
    let finder = Finder::of(&plan, book, &mut |homes| progress.of(homes));
    progress.end();
    let finder = finder.map_err(|error| match error {
        ProofError::WrongLegalKind(error) => Unjudged::WrongLegalKind { error, path: file.clone() },
        ProofError::Cancelled => Unjudged::Stopped,
    })?;
    let found = finder.find(&query)?;
    print(&match format {
        Format::Text => report::selections_text(&found, &query, book, *limit),
        Format::Json => report::selections_json(&found, &query, book, *limit),
    })?;
    Ok(Verdict::Met)
}
