//! `mateline books`: what the program judges by.

use std::fmt::Write as _;

use mateline_app::files::open_book;
use plan_model::LegalKind;
use plan_rules::RuleBook;
use plan_rules::report::book_sheet;

use crate::output::{Verdict, print};
use crate::unjudged::Unjudged;

/// Prints the list of books, or one of them.
pub(crate) fn print_books(name: Option<&str>) -> Result<Verdict, Unjudged> {
    let text = match name {
        Some(name) => book_sheet(&open_book(name)?),
        None => list(),
    };
    print(&text)?;
    Ok(Verdict::Met)
}

fn list() -> String {
    let mut text = String::from("RULE BOOKS\n");
    for book in RuleBook::built_in_ids().filter_map(RuleBook::built_in) {
        let facts = book.facts();
        let homes = match facts.legal_kind {
            Some(LegalKind::StateLabel) => "homes under a state label",
            Some(LegalKind::FederalLabel) => "homes under a federal label",
            None => "all homes",
        };
        let _ = writeln!(
            text,
            "  {:22} {}, {}; for {homes}; {} rules",
            facts.id,
            facts.name,
            facts.edition,
            book.rules().len()
        );
    }
    text.push_str("AMENDMENTS, AS EXAMPLES\n");
    for amended in RuleBook::example_ids().filter_map(RuleBook::built_in) {
        if let Some(amendment) = amended.facts().amendments.last() {
            let _ = writeln!(
                text,
                "  {:22} {}, over {}; {}",
                amendment.id, amendment.name, amendment.amends, amendment.authority
            );
        }
    }
    text
}
