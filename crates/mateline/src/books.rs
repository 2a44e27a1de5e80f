//! `mateline books` and `mateline explain`: what the program judges by.

use std::fmt::Write as _;

use mateline_app::files::open_book;
use plan_model::LegalKind;
use plan_model::file::nearest;
use plan_rules::report::{book_sheet, explain_text};
use plan_rules::{RuleBook, registry};

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

/// Prints what a rule is.
pub(crate) fn explain(rule: &str, further: Option<&str>) -> Result<Verdict, Unjudged> {
    let Some(known) = registry().find(|known| known.id == rule) else {
        let hint = nearest(rule, registry().map(|rule| rule.id));
        let hint = hint.map_or_else(String::new, |near| format!("; did you mean `{near}`?"));
        return Err(Unjudged::NoSuchRule { name: rule.to_owned(), hint });
    };
    let mut books: Vec<RuleBook> = RuleBook::built_in_ids().filter_map(RuleBook::built_in).collect();
    books.extend(further.map(open_book).transpose()?);
    print(&explain_text(known, &books))?;
    Ok(Verdict::Met)
}
